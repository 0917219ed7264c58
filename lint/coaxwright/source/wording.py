"""The parser's complaints in a colleague's words."""

from __future__ import annotations

from re import MULTILINE
from re import compile as regex

from yaml import MarkedYAMLError, YAMLError

_UNESCAPED = ("a backslash is followed by nothing we know", "use single quotes where a backslash is meant as such")
_NO_NAME = ("a value cannot begin with this sign", "put it in quotes")
_TYPE_TAG = ("a value that begins with ! is a type tag, which is not used in a design", "put it in quotes")
_DIRECTIVE = ("directives are not used", "remove the % line")
_WORDING: tuple[tuple[str, str, str], ...] = (
    (
        "mapping values are not allowed",
        "a colon does not belong here",
        "check the indentation, or put a value that holds a colon in quotes",
    ),
    ("did not find expected ',' or ']'", "a list in brackets is not complete", "a comma or ] is missing"),
    ("did not find expected ',' or '}'", "a group in braces is not complete", "a comma or } is missing"),
    ("did not find expected key", "this line does not line up with the keys above it", "check its indentation"),
    (
        "did not find expected '-' indicator",
        "this line does not line up with the list above it",
        "check its indentation",
    ),
    ("found unexpected end of stream", "this quote is never closed", "a closing quote is missing"),
    ("could not find expected ':'", "a key without its colon", "write 'key: value'"),
    ("unknown escape character", *_UNESCAPED),
    ("expected hexdecimal number", *_UNESCAPED),
    ("invalid Unicode character escape code", *_UNESCAPED),
    ("did not find expected <document start>", "this does not belong to the design above", "check its indentation"),
    ("maximum nesting depth", "nested too deep", "a design needs six levels"),
    ("block sequence entries are not allowed", "a list entry cannot begin here", "put '- ' on a line of its own"),
    ("mapping keys are not allowed", *_NO_NAME),
    ("expected alphabetic or numeric character", *_NO_NAME),
    ("expected comment or line break", "nothing may follow | or > on its line", "begin the text on the next line"),
    ("unexpected ':'", "a colon needs a space behind it here", "put a value that holds a colon in quotes"),
    ("unexpected document indicator", "this quote is not closed before --- or ...", "a closing quote is missing"),
    ("indentation indicator equal to 0", "0 cannot follow | or >", "leave it out"),
    ("tab character", "a tab stands where the indentation is", "indent with spaces"),
    ("directive", *_DIRECTIVE),
    ("incompatible YAML document", *_DIRECTIVE),
    ("version number", *_DIRECTIVE),
    ("digit or '.' character", *_DIRECTIVE),
    ("non-alphabetical character", *_DIRECTIVE),
    ("tag", *_TYPE_TAG),
    ("URI", *_TYPE_TAG),
    ("expected '!'", *_TYPE_TAG),
    ("expected '>'", *_TYPE_TAG),
    ("expected whitespace or line break", *_NO_NAME),
)
MERGE_MARK = regex(r"^(?:<{7}|={7}|>{7})(?: .*)?$", MULTILINE)
"""The lines that a version control system leaves where two branches changed the same lines."""
UNMERGED = "the marks of a merge stand here that was not finished"
_LONGEST_QUOTE = 60
_CLOSING = {"{": "}", "[": "]"}
_QUOTES = {"'": '"', '"': "'"}


def quoted(text: str) -> str:
    """A text of the author's in quotes for a message: on one line, and not all of a long one."""
    shown = text if len(text) <= _LONGEST_QUOTE else f"{text[: _LONGEST_QUOTE - 1]}…"
    if "'" in shown and shown.isprintable() and "\\" not in shown:
        return f"'{shown}'"  # Python would escape the marks of 6'4"
    return repr(shown)


def explain(error: YAMLError, text: str) -> tuple[str, str, int]:
    """What is wrong, what was expected, and the code point at which it shows."""
    if not isinstance(error, MarkedYAMLError) or error.problem_mark is None:
        return "the text is not YAML", "", 0
    mark = MERGE_MARK.search(text)
    if mark is not None:
        return UNMERGED, "keep what is right of both sides, and take the lines with the marks out", mark.start()
    index = error.problem_mark.index
    problem = error.problem or "the text is not YAML"
    found = text[index : index + 1]
    opening = error.context_mark
    if "cannot start any token" in problem:
        if found == "\t":
            return "a tab stands where the indentation is", "indent with spaces", index
        return f"a value cannot begin with {found!r}", "put it in quotes", index
    slip = _slip_in_brackets(problem, text, index, opening.index if opening is not None else None)
    if slip is not None:
        return slip
    if "expected key" in problem and found == ":":
        return "a key is missing before the colon", "", index
    if "expected key" in problem and _line_before(text, index).strip():
        return "this follows a value that has ended", "put the whole value in one pair of quotes", index
    if "expected node content" in problem:
        if not found:
            return "the text ends before this value does", "a closing ] or } is missing", _last_bracket(text)
        return f"a value is missing before {found!r}", "write the value, or put one that begins so in quotes", index
    if opening is not None and _is_told_at_its_opening(problem, opening.line < error.problem_mark.line):
        index = opening.index
    for fragment, what, expected in _WORDING:
        if fragment in problem:
            return what, expected, index
    return f"the text is not YAML here ({problem})", "", index


def _slip_in_brackets(problem: str, text: str, index: int, opening: int | None) -> tuple[str, str, int] | None:
    """A slip in a group or list that only seems to be incomplete: it is told where it was made."""
    if "expected node content" in problem and index >= len(text.rstrip()):
        opening = _last_bracket(text)
    elif "',' or" not in problem:
        return None
    begin = opening or 0
    line = text[begin : _line_end(text, begin)]
    comment = line.find(" #")
    if comment >= 0 and line[:1] in _CLOSING and _CLOSING[line[0]] in line[comment:]:
        return "what follows a # is a comment, and no part of the value", "put the value in quotes", begin + comment + 1
    if index > begin + len(line):
        return None  # it was not closed on its own line, and shows only at what follows
    if text[index : index + 1] == ":":
        return (
            "a colon does not belong here",
            "a comma is missing before its key, or the value that holds it needs quotes",
            index,
        )
    before = text[:index].rstrip(" ")[-1:]
    if before in _QUOTES:
        return (
            f"this follows a {before} that closes the value",
            f"put a text that holds {before} between two {_QUOTES[before]}",
            index,
        )
    return None


def _line_end(text: str, index: int) -> int:
    ends = [end for end in (text.find("\n", index), text.find("\r", index)) if end >= 0]
    return min(ends, default=len(text))


def _is_told_at_its_opening(problem: str, spans_lines: bool) -> bool:
    """Whether the place where something was opened helps more than the place where it shows that it never ended."""
    if "unexpected end of stream" in problem or "document indicator" in problem:
        return True
    return spans_lines and ("',' or" in problem or "expected ':'" in problem)


def _line_before(text: str, index: int) -> str:
    return text[max(text.rfind("\n", 0, index), text.rfind("\r", 0, index)) + 1 : index]


def _last_bracket(text: str) -> int:
    return max(text.rfind("["), text.rfind("{"), 0)
