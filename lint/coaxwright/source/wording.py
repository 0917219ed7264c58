"""The parser's complaints in a colleague's words."""

from __future__ import annotations

from yaml import MarkedYAMLError, YAMLError

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
    ("found unexpected end of stream", "the text ends inside a quoted value", "a closing quote is missing"),
    ("could not find expected ':'", "a key without its colon", "write 'key: value'"),
    ("found unknown escape character", "an unknown escape after a backslash", "use single quotes for plain text"),
    ("did not find expected <document start>", "this does not belong to the design above", "check its indentation"),
    ("maximum nesting depth", "nested too deep", "a design needs six levels"),
    ("block sequence entries are not allowed", "a list entry cannot begin here", "put '- ' on a line of its own"),
)


def explain(error: YAMLError, text: str) -> tuple[str, str, int]:
    """What is wrong, what was expected, and the code point at which it shows."""
    if not isinstance(error, MarkedYAMLError) or error.problem_mark is None:
        return "the text is not YAML", "", 0
    index = error.problem_mark.index
    problem = error.problem or "the text is not YAML"
    if "cannot start any token" in problem and text[index : index + 1] == "\t":
        return "a tab stands where the indentation is", "indent with spaces", index
    if "cannot start any token" in problem:
        return f"a value cannot begin with {text[index : index + 1]!r}", "put it in quotes", index
    if text[index : index + 1] == ":" and "expected key" in problem:
        return "a key is missing before the colon", "", index
    opening = error.context_mark
    if "',' or" in problem and opening is not None and opening.line < error.problem_mark.line:
        index = opening.index  # the bracket was never closed: its line helps more than the one where that shows
    for fragment, what, expected in _WORDING:
        if fragment in problem:
            return what, expected, index
    return f"the text is not YAML here ({problem})", "", index
