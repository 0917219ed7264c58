"""An amendment of what stands below a former key is spliced into the text as its author wrote it."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

from coaxwright.amend.proof import prove
from coaxwright.checks import Correction
from coaxwright.source import Document, read_text
from coaxwright.source.former_words import DESIGN_WORDS, with_present_words

TEXT = """\
coaxwright: 1
cables:
  C-1: {from: A, to: B, type: s, route: [den: {length: 2 m, tightest bend: 1 in}]}
"""
BEND = ("cables", "C-1", "route", 0, "den", "bend radius")


def test_a_value_below_a_former_key_is_amended() -> None:
    document = with_present_words(read_text(TEXT, "x"), DESIGN_WORDS)
    identity = object()
    finding: Any = SimpleNamespace(
        mend=Correction(BEND, "3 in"), place=SimpleNamespace(file="x"), identities=frozenset((identity,))
    )
    judged: list[Document] = []

    def judge(changed: Document) -> list[Any]:
        judged.append(changed)
        return []

    amendment = prove(document, finding, frozenset((identity,)), judge)
    assert amendment is not None
    assert (amendment.written, amendment.text) == ("1 in", "3 in")
    (changed,) = judged
    assert changed.text == TEXT.replace("1 in", "3 in")
    assert changed.text[changed.span(BEND).start.index : changed.span(BEND).end.index] == "3 in"
