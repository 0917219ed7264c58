"""Numbered names that follow one another, told as one."""

from __future__ import annotations

from collections.abc import Sequence


def in_series(words: Sequence[str]) -> list[str]:
    """Words, three and more that count up as one: ``in``, ``out-1 to out-8``."""
    found: list[list[str]] = []
    for word in words:
        if found and _next(found[-1][-1]) == word:
            found[-1].append(word)
        else:
            found.append([word])
    # Two are as short as they are.
    return [text for run in found for text in ([f"{run[0]} to {run[-1]}"] if len(run) > 2 else run)]


def _next(word: str) -> str | None:
    stem = word.rstrip("0123456789")
    if stem in ("", word):
        return None
    figures = word[len(stem) :]
    return f"{stem}{int(figures) + 1:0{len(figures)}}"
