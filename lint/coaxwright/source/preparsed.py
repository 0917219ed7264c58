"""The plain data of files that the program ships, parsed ahead and kept as JSON, which is read in a tenth of the time.

It counts only while the file is, byte for byte, the one that it was parsed from; else the file is read.
``python -m coaxwright.publish`` makes them anew.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from functools import cache
from pathlib import Path
from typing import Any
from zlib import crc32

from coaxwright.frozen_value import frozen_value
from coaxwright.source.files import read_file

FOLDER = Path(__file__).parents[1] / "preparsed"
"""Beside the rooms, wherever the package is installed."""


@frozen_value
class PreparsedFile:
    """What a file holds."""

    data: Any
    lines: Mapping[str, int]
    """The line of each key below a key at the top, counted from 1: ``add/cable.run-length``."""


def preparsed_of(collection: str, name: str, content: bytes) -> PreparsedFile | None:
    """The parsed data of a file of these bytes; None where there is none, or it was parsed from others.

    ``collection``: the file it stands in, such as ``rulesets``; ``name``: what the file is called there.
    """
    kept = _files(collection).get(name)
    if kept is None or kept[0] != crc32(content):
        return None
    _, data, lines = kept
    return PreparsedFile(data, lines)


@cache
def _files(collection: str) -> Mapping[str, tuple[int, Any, Mapping[str, int]]]:
    try:
        kept: dict[str, tuple[int, Any, Mapping[str, int]]] = json.loads((FOLDER / f"{collection}.json").read_bytes())
    except (OSError, ValueError):  # there are the files themselves
        return {}
    return kept


def preparsed_text(files: Iterable[tuple[str, Path]]) -> str:
    """The text of one collection: a line for each file, by name."""
    made = [f"{json.dumps(name)}: {json.dumps(_parsed(name, path), ensure_ascii=False)}" for name, path in files]
    return "{\n" + ",\n".join(made) + "\n}\n"


def _parsed(name: str, path: Path) -> tuple[int, Any, dict[str, int]]:
    document = read_file(path, name)
    data: Any = document.data
    lines = {
        f"{key}/{below}": document.span((key, below), of_key=True).start.line
        for key, inner in data.items()
        for below in (inner if isinstance(inner, dict) else ())
    }
    return crc32(path.read_bytes()), data, lines
