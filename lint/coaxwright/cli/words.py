"""The values that options take: one word out of several, told with the nearest right one."""

from __future__ import annotations

from collections.abc import Iterable
from enum import Enum

from coaxwright.design.nearest import nearest_word
from coaxwright.errors import CoaxwrightError


class WrongWord(CoaxwrightError):
    """An option was given a value that it does not take."""


def listed(kind: Iterable[Enum]) -> str:
    """The words of a set, as ``text, json or sarif``."""
    *most, last = [member.value for member in kind]
    return f"{', '.join(most)} or {last}"


def one_of(kind: Iterable[Enum], option: str, word: str) -> str:
    """The word, where it is one of the set. Raises WrongWord."""
    words = [member.value for member in kind]
    if word in words:
        return word
    near = nearest_word(word, words)
    hint = f"; did you mean {near!r}?" if near else ""
    raise WrongWord(f"{option} takes {listed(kind)}, not {word!r}{hint}")
