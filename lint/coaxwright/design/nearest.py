"""The word that was probably meant."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches

_SAME = {"inside": "indoors", "outside": "outdoors", "underground": "buried", "yes": "true", "no": "false"}
"""Everyday words for which likeness of letters finds the wrong one."""
_SHORTEST_PART = 4


def nearest_word(written: str, words: Iterable[str], *, cutoff: float = 0.6) -> str | None:
    """The word out of ``words`` that stands for ``written``, or None.

    A word of the same meaning, the same but for case, hyphens and underscores, the only one that holds it
    (``modem``), or the most like it in its letters.
    """
    known = {_folded(word): word for word in words}
    folded = _folded(written)
    folded = _SAME.get(folded, folded)
    if folded in known:
        return known[folded]
    holders = [word for key, word in known.items() if folded in key.split() or _is_part(folded, key)]
    if len(holders) == 1:
        return holders[0]
    close = get_close_matches(folded, known, n=1, cutoff=cutoff)
    return known[close[0]] if close else None


def _folded(word: str) -> str:
    return word.casefold().replace("-", " ").replace("_", " ")


def _is_part(folded: str, key: str) -> bool:
    return len(folded) >= _SHORTEST_PART and folded in key
