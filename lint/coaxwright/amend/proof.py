"""The proof of an amendment: made on a copy, it changes one value, removes its finding and adds none."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from coaxwright.amend.spelling import scalar
from coaxwright.checks import Correction
from coaxwright.findings import Amendment, Finding, Identity
from coaxwright.source import Document, ReadError, Splice, apply, read_text
from coaxwright.source.former_words import DESIGN_WORDS, with_present_words

Judge = Callable[[Document], Iterable[Identity] | None]
"""Gives the identities of a document's findings, or None where it is not understood."""


def prove(document: Document, finding: Finding, known: frozenset[Identity], judge: Judge) -> Amendment | None:
    """The amendment of a finding that says how it could be mended, or None where the proof fails.

    ``known`` and what ``judge`` gives hold an identity for each repeated unit that a finding holds for: an amendment of
    a typical unit changes all units like it, and adds a finding to none of them.
    """
    mend = finding.mend
    if mend is None:
        return None
    file = document.owner(mend.path)
    if file.name != finding.place.file:
        return None
    span = file.span(mend.path, of_key=mend.at_key)
    text = scalar(mend.text)
    changed = apply(file.text, [Splice.of(span, text)])
    try:
        copy = _read(changed, file.name)
    except ReadError:
        return None
    if copy.data != _changed_data(_read(file.text, file.name).data, mend):
        return None
    after = judge(document.with_file(copy))
    if after is None:
        return None
    remaining = frozenset(after)
    if not remaining.isdisjoint(finding.identities) or not remaining <= known:
        return None
    return Amendment(span, file.text[span.start.index : span.end.index], text, document.sharing(mend.path))


def _read(text: str, name: str) -> Document:
    """A text as the paths of findings have it, in the present words."""
    return with_present_words(read_text(text, name), DESIGN_WORDS)


def _changed_data(data: Any, mend: Correction) -> object:
    """The data, as it was read, changed where it should change and nowhere else."""
    container = data
    for step in mend.path[:-1]:
        container = container[step]
    if not mend.at_key:
        container[mend.path[-1]] = mend.text
        return data
    renamed = {(mend.text if key == mend.path[-1] else key): value for key, value in container.items()}
    container.clear()
    container.update(renamed)
    return data
