"""What people write for the words of the design file; read only when a mistake is told."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from coaxwright.source import read_file

_FILE = Path(__file__).parent / "data" / "synonyms.yaml"


def folded(word: str) -> str:
    """A word whatever its case, hyphens and underscores."""
    return " ".join(word.casefold().replace("-", " ").replace("_", " ").split())


@cache
def synonym_tables() -> Mapping[str, Mapping[str, tuple[str, ...]]]:
    """The tables of the data file: for each of our words, what people write for it."""
    tables: Any = read_file(_FILE, _FILE.name).data
    return {title: {ours: tuple(map(str, words)) for ours, words in table.items()} for title, table in tables.items()}


@cache
def synonyms() -> Mapping[str, tuple[str, ...]]:
    """What each folded word may stand for, folded too, the likeliest first."""
    found: dict[str, dict[str, None]] = {}
    for table in synonym_tables().values():
        for ours, words in table.items():
            for word in words:
                found.setdefault(folded(word), {})[folded(ours)] = None
    return {word: tuple(meant) for word, meant in found.items()}
