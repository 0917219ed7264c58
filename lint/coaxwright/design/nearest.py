"""The word that was probably meant."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from difflib import SequenceMatcher, get_close_matches

from coaxwright.design.synonyms import folded, synonyms

_SHORTEST_PART = 4
_SHORTEST_END = 3
_LEAST_LIKENESS = 0.5  # below it letters in common are chance; tried out, no source
_CLOSE_SYNONYM = 0.8  # the share of letters in common from which a synonym counts as mistyped; tried out, no source


def nearest_word(written: str, words: Iterable[str], *, cutoff: float = 0.6, taken: Collection[str] = ()) -> str | None:
    """The word out of ``words`` that stands for ``written``, or None.

    The same but for case, hyphens and underscores, a word of the same meaning, the only one that holds it (``modem``),
    the one that it ends in (``roof antenna``), or the most like it in its letters.

    taken: words that are written already beside it, so that of several meanings another one is likelier.
    """
    known = {folded(word): word for word in words}
    text = folded(written)
    if text in known:
        return known[text]
    meanings = _meanings(known, taken)
    holders = [word for key, word in known.items() if text in key.split() or _is_part(text, key)]
    if text in meanings:
        return meanings[text]
    if len(holders) == 1:
        return holders[0]
    ends = [key for key in (*known, *meanings) if len(key) >= _SHORTEST_END and text.endswith(f" {key}")]
    if ends:
        longest = max(ends, key=len)
        return known.get(longest) or meanings[longest]
    close = get_close_matches(text, known, n=1, cutoff=cutoff)
    if close:
        return known[close[0]]
    close = get_close_matches(text, meanings, n=1, cutoff=max(cutoff, _CLOSE_SYNONYM))
    return meanings[close[0]] if close else None


def nearest_edition(written: str) -> str:
    """A ruleset with its edition as it is called here: ``us 2023`` for ``NEC 2023``."""
    name, _, edition = folded(written).rpartition(" ")
    meant = synonyms().get(name)
    return f"{meant[0]} {edition}" if meant else written.lower()


def likeliest(written: str, words: Sequence[str], most: int) -> list[str]:
    """So many of the words as are most like ``written``, in the order that they have."""
    text = folded(written)
    alike = {word: _likeness(text, folded(word)) for word in words}
    # Stable: of words that are alike as much, the earlier stay.
    kept = set(sorted(alike, key=lambda word: -alike[word])[:most])
    return [word for word in words if word in kept]


def _likeness(text: str, key: str) -> float:
    """How like two words are in their letters, 1 where they share a word, 0 where it may be chance."""
    if {word for word in text.split() if len(word) >= _SHORTEST_END} & set(key.split()):
        return 1.0
    share = SequenceMatcher(a=key, b=text).ratio()
    return share if share >= _LEAST_LIKENESS else 0.0


def _meanings(known: Mapping[str, str], taken: Collection[str]) -> dict[str, str]:
    """The known word that each synonym stands for here, one that is not taken before one that is."""
    found: dict[str, str] = {}
    for synonym, meant in synonyms().items():
        here = [known[ours] for ours in meant if ours in known]
        if here:
            found[synonym] = next((word for word in here if word not in taken), here[0])
    return found


def _is_part(text: str, key: str) -> bool:
    return len(text) >= _SHORTEST_PART and text in key
