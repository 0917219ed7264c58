"""The word that was probably meant."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from difflib import get_close_matches

_SAME: Mapping[str, tuple[str, ...]] = {
    "inside": ("indoors",),
    "outside": ("outdoors",),
    "underground": ("buried",),
    "yes": ("true",),
    "no": ("false",),
    "outputs": ("ways",),
    "ports": ("ways", "outputs"),
    "ways": ("outputs", "inputs"),
    "wants": ("serves",),
    "room": ("place",),
    "location": ("place",),
    "size": ("conductor",),
    "gauge": ("conductor",),
    "amplifier": ("drop amplifier",),
    "ibt": ("intersystem termination",),
    "earth rod": ("ground rod",),
    "grounding rod": ("ground rod",),
    "color": ("colour",),
}
"""Everyday words, and words for another kind, for which likeness of letters finds nothing or the wrong one."""
_SHORTEST_PART = 4


def nearest_word(written: str, words: Iterable[str], *, cutoff: float = 0.6) -> str | None:
    """The word out of ``words`` that stands for ``written``, or None.

    A word of the same meaning, the same but for case, hyphens and underscores, the only one that holds it
    (``modem``), or the most like it in its letters.
    """
    known = {_folded(word): word for word in words}
    folded = _folded(written)
    for same in (folded, *_SAME.get(folded, ())):
        if same in known:
            return known[same]
    holders = [word for key, word in known.items() if folded in key.split() or _is_part(folded, key)]
    if len(holders) == 1:
        return holders[0]
    close = get_close_matches(folded, known, n=1, cutoff=cutoff)
    return known[close[0]] if close else None


def _folded(word: str) -> str:
    return word.casefold().replace("-", " ").replace("_", " ")


def _is_part(folded: str, key: str) -> bool:
    return len(folded) >= _SHORTEST_PART and folded in key
