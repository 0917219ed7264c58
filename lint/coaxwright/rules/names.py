"""The rule that was probably meant: by the words of its name first, then by its letters."""

from __future__ import annotations

import re
from collections.abc import Iterable
from difflib import SequenceMatcher, get_close_matches

_WORD = re.compile(r"[^\W_]+")
_LEAST_LETTERS = 0.4
_TYPING_SLIP = 0.9  # from here on a name counts as mistyped, whatever its words; tried out, no source
_LEAST_WORDS = 0.6
_SAME_WORD = 0.8


def nearest_rule(written: str, names: Iterable[str]) -> str | None:
    """The rule whose name has most of the words written, in whatever order, or is the most like it in its letters."""
    known = sorted(names)
    slips = get_close_matches(written, known, n=1, cutoff=_TYPING_SLIP)
    if slips:
        return slips[0]
    said = _words(written)
    shares = {name: _shared(said, _words(name)) for name in known}
    most = max(shares.values(), default=0.0)
    if most >= _LEAST_WORDS:
        # Of names with as many of the words, the one that is spelled most alike.
        return max(
            (name for name in known if shares[name] == most),
            key=lambda name: SequenceMatcher(a=name, b=written).ratio(),
        )
    close = get_close_matches(written, known, n=1, cutoff=_LEAST_LETTERS)
    return close[0] if close else None


def topic_of(name: str) -> str:
    """The topic of a rule: what stands before the dot of its name."""
    return name.partition(".")[0]


def _words(name: str) -> list[str]:
    return _WORD.findall(name.casefold())


def _shared(said: list[str], words: list[str]) -> float:
    """The share of words in common, out of those of both names."""
    common = sum(any(SequenceMatcher(a=word, b=spoken).ratio() >= _SAME_WORD for spoken in said) for word in words)
    return 2 * common / (len(said) + len(words)) if said else 0.0
