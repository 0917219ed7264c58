"""The forms in Markdown say the same rendered: no text of an author becomes a heading, a list, a link or HTML.

Source: CommonMark 0.31.2 and the tables and task lists of GitHub Flavored Markdown, as the parser markdown-it-py reads
them.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from markdown_it import MarkdownIt
from markdown_it.token import Token

from coaxwright.reports import checklist, notice
from coaxwright.reports.markdown import plain, wrapped
from coaxwright.reports.wording import one_line
from coaxwright.reviewing import DesignReview, Review, review

EXAMPLE = Path(__file__).parents[2] / "examples" / "tern-cottage" / "as-drawn.coax.yaml"
READER = MarkdownIt("commonmark").enable(["table", "strikethrough"])
FORMS: dict[str, Callable[[Review, int], str]] = {"notice": notice.render, "checklist": checklist.render}
AWKWARD = (
    "# heading",
    "- [ ] box",
    "1. one 2. two 3) three",
    "a | b --- | --- c | d",
    "<script>x</script> &lt;b&gt; &#60;",
    "[link](http://example.invalid) ![image](x) [ref]: x [a][b]",
    "*a* **b** _c_ __d__ ~~e~~ `f` ``g`` \\*h\\*",
    "=== --- *** ___ > quote ```fence ~~~ +",
    "line one\n\n# line two\n\n    code\n- item",
)


def texts(tokens: list[Token]) -> str:
    """What a reader sees, with single spaces."""
    seen: list[str] = []
    for token in tokens:
        if token.type == "inline":
            seen += [child.content if child.type in ("text", "code_inline") else " " for child in token.children or ()]
            seen.append(" ")
    return " ".join("".join(seen).split())


def shape(text: str) -> list[str]:
    """The blocks, and what is within lines, without their texts and breaks."""
    found: list[str] = []
    for token in READER.parse(text):
        found.append(f"{token.type} {token.tag}")
        found += [
            child.type for child in token.children or () if child.type not in ("text", "softbreak", "text_special")
        ]
    return found


def with_text(text: str) -> Review:
    (design,) = review([EXAMPLE]).designs
    findings = tuple(
        replace(
            one,
            subject=replace(one.subject, tag=text, where=text),
            place=replace(one.place, file=text),
            found=text,
            required=text,
            remedy=text,
            remarks=(text,),
        )
        for one in design.findings
    )
    rules = tuple(replace(rule, title=text) for rule in design.rules)
    spoilt: DesignReview = replace(
        design, file=text, title=text, job=text, authority=text, findings=findings, rules=rules
    )
    return Review((spoilt,))


@pytest.mark.parametrize("width", [60, 80, 1000])
@pytest.mark.parametrize("text", AWKWARD)
@pytest.mark.parametrize("form", FORMS)
def test_an_awkward_text_changes_no_block(form: str, text: str, width: int) -> None:
    rendered = FORMS[form](with_text(text), width)
    assert shape(rendered) == shape(FORMS[form](with_text("plain"), width))
    assert one_line(text) in texts(READER.parse(rendered)) or "  " in one_line(text)


@given(st.text(st.sampled_from("ab1 .-+#=>*_`[]()!<&;|~\\:\n\t"), max_size=40), st.integers(8, 40))
def test_any_text_is_shown_as_it_is(text: str, width: int) -> None:
    words = " ".join(one_line(text).split())
    lines = list(wrapped(f"Is: {plain(words)}", width, "- "))
    tokens = READER.parse("\n".join(lines))
    assert texts(tokens) == f"Is: {words}".strip()
    assert [token.type for token in tokens if token.block and token.nesting >= 0] == [
        "bullet_list_open",
        "list_item_open",
        "paragraph_open",
        "inline",
    ]
