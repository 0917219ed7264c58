"""Twins of files that the program ships: their plain data as JSON, which is read in a tenth of the time.

A twin stands for a file only while the file is, byte for byte, the one that it was made from; else the file is read.
``python -m coaxwright.publish`` makes them anew.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from functools import cache
from pathlib import Path
from typing import Any
from zlib import crc32

from coaxwright.source.files import read_file
from coaxwright.unchanging import unchanging

FOLDER = Path(__file__).parents[1] / "twins"
"""Beside the rooms, wherever the package is installed."""


@unchanging
class Twin:
    """What a file holds."""

    data: Any
    lines: Mapping[str, int]
    """The line of each key below a key at the top, counted from 1: ``add/cable.run-length``."""


def twin_of(shelf: str, name: str, content: bytes) -> Twin | None:
    """The twin of a file of these bytes; None where there is none, or it was made from others.

    ``shelf``: the file of twins it stands in, such as ``rulesets``; ``name``: what the file is called there.
    """
    kept = _twins(shelf).get(name)
    if kept is None or kept[0] != crc32(content):
        return None
    _, data, lines = kept
    return Twin(data, lines)


@cache
def _twins(shelf: str) -> Mapping[str, tuple[int, Any, Mapping[str, int]]]:
    try:
        kept: dict[str, tuple[int, Any, Mapping[str, int]]] = json.loads((FOLDER / f"{shelf}.json").read_bytes())
    except (OSError, ValueError):  # there are the files themselves
        return {}
    return kept


def twins(files: Iterable[tuple[str, Path]]) -> str:
    """The text of a file of twins: a line for each file, by name."""
    made = [f"{json.dumps(name)}: {json.dumps(_twin(name, path), ensure_ascii=False)}" for name, path in files]
    return "{\n" + ",\n".join(made) + "\n}\n"


def _twin(name: str, path: Path) -> tuple[int, Any, dict[str, int]]:
    document = read_file(path, name)
    data: Any = document.data
    lines = {
        f"{key}/{below}": document.span((key, below), of_key=True).start.line
        for key, inner in data.items()
        for below in (inner if isinstance(inner, dict) else ())
    }
    return crc32(path.read_bytes()), data, lines
