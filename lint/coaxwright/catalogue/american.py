"""Words of the catalogue in British spelling, which is accepted wherever a buyer or a data sheet uses it."""

from __future__ import annotations

_SPELLINGS = (("aluminium", "aluminum"), ("centre", "center"))


def american(word: str) -> str:
    """A word without capitals as the catalogue spells it."""
    for british, ours in _SPELLINGS:
        word = word.replace(british, ours)
    return word
