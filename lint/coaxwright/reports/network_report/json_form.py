"""What was understood of a design, as JSON for programs.

The form is described by ``schemas/understood-1.schema.json``. Lines and columns count from 1, columns in code points.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import fields, is_dataclass
from typing import Any

from coaxwright.reports.json_report import write
from coaxwright.reports.network_report.parts import NetworkReport
from coaxwright.source import Problem
from coaxwright.version import VERSION

FORMAT = 1
"""Rises when a program that reads the form would have to change."""

_UNITS = {"db": "dB", "hz": "Hz"}
_FORMER = {"center": "centre"}
"""Values that this form still calls by their former words: an option of a cable's type."""
_DECIMALS = 4
"""Of figures: finer than anybody can measure, and coarse enough to be the same on every machine."""


def render(read: NetworkReport) -> str:
    """The whole of it as one JSON object, with a final newline."""
    return write({**_head(read.file), "problems": [], "design": _plain(read, without=("file",))})


def render_problems(file: str, problems: Sequence[Problem]) -> str:
    """The mistakes for which a file was not understood, in the same form."""
    mistakes: list[Any] = [
        {
            "where": {"file": problem.file, "line": problem.span.start.line, "column": problem.span.start.column},
            "message": problem.message,
        }
        for problem in problems
    ]
    return write({**_head(file), "problems": mistakes, "design": None})


def _head(file: str) -> dict[str, Any]:
    return {"coaxwright understood": FORMAT, "version": VERSION, "file": file}


def _plain(value: Any, without: Sequence[str] = ()) -> Any:
    """Data classes to objects, whose keys are the names of their fields in words."""
    if is_dataclass(value):
        names = [field.name for field in fields(value) if field.name not in without]
        return {key: _plain(getattr(value, name)) for name in names for key in _keys(name)}
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    if isinstance(value, str):
        return _FORMER.get(value, value)
    return round(value, _DECIMALS) if isinstance(value, float) else value


def _keys(name: str) -> tuple[str, ...]:
    """The key of a field, and behind it the one that it had in earlier versions, which the schema marks deprecated."""
    return _RENAMED.get(name) or (_key(name),)


_RENAMED = {
    "own_figures": ("author-supplied values", "own figures"),
    "center": ("center conductor", "centre"),
}


def _key(name: str) -> str:
    return " ".join(_UNITS.get(word, word) for word in name.rstrip("_").split("_"))
