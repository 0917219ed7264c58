"""The entries of a document, held to the schema of catalogues."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cache
from typing import Any

from coaxwright.design.former_schema import present_only
from coaxwright.design.plain_mistakes import plain_problems
from coaxwright.frozen_value import frozen_value
from coaxwright.shipped import shipped
from coaxwright.source import Document, Path, Problem, Span

HEADER = "coaxwright catalogue"
FORMAT = 1
SECTIONS = ("classes", "devices")
Data = dict[str, Any]
"""Plain data of one entry or table, as the reader gives it."""
_SCHEMA = "catalogue-1.schema.json"


@frozen_value
class Entry:
    """One class or device as it is written."""

    section: str
    name: str
    home: Document
    written: Data

    @property
    def path(self) -> Path:
        return (self.section, self.name)

    @property
    def sources(self) -> Mapping[str, Data]:
        """The documents that its file lists, by their keys."""
        return group(self.home.data, "sources")

    @property
    def document(self) -> str:
        """What it names as the source of its figures."""
        return str(self.written.get("source") or f"the author of {self.home.name}")

    def says(
        self, what: str, expected: str = "", near: str | None = None, *, at: Path = (), of_key: bool = False
    ) -> Problem:
        """A problem at the value (or the key) at a path below the entry; where nothing is there, at the nearest."""
        path = (*self.path, *at)
        span = self.home.span(path, of_key=of_key or not at or not self.home.has(path))
        return Problem(self.home.name, span, what, expected, near or "")


def entries_of(document: Document) -> Iterator[Entry]:
    """Every entry of a document that is a group of fields, in the order of the text."""
    for section in SECTIONS:
        for name, written in group(document.data, section).items():
            if isinstance(written, dict):
                yield Entry(section, name, document, written)


def header_problem(file: Document) -> Problem | None:
    """Why a file is no catalogue of this format."""
    data = file.data
    start = file.span(()).start
    if not isinstance(data, dict) or HEADER not in data:
        what = "this is not a catalogue"
        return Problem(file.name, Span(start, start), what, f"a catalogue begins with '{HEADER}: {FORMAT}'")
    if data[HEADER] != FORMAT or isinstance(data[HEADER], bool):
        what = f"this program reads catalogues of format {FORMAT}"
        return Problem(file.name, file.span((HEADER,)), what, f"write '{HEADER}: {FORMAT}'")
    return None


def file_problems(file: Document) -> Iterator[Problem]:
    """What does not fit in a file that is a catalogue."""
    if not _keeps_to("own-file", file.data):
        yield from plain_problems(file, _schema("own-file"))


def design_problems(below: Document) -> Iterator[Problem]:
    """What keeps the group below ``catalogue`` in a design from being entries of its own."""
    data = below.data
    if isinstance(data, dict) and HEADER in data:
        what = f"'{HEADER}' begins a file of its own, not the entries of a design"
        yield Problem(below.name, below.span((HEADER,), of_key=True), what, "take it out here")
        below = replace(below, data={key: value for key, value in data.items() if key != HEADER})
    if not _keeps_to("own-entries", below.data):
        yield from plain_problems(below, _schema("own-entries"), "the catalogue")


def group(data: object, key: str) -> Mapping[str, Any]:
    """The group of fields at a key; empty where there is none."""
    found = data.get(key) if isinstance(data, Mapping) else None
    return found if isinstance(found, Mapping) else {}


@cache
def _schema(part: str) -> dict[str, Any]:
    text = (shipped("schemas") / _SCHEMA).read_text(encoding="utf-8")
    whole = json.loads(text, object_hook=present_only)
    return {"$schema": whole["$schema"], "$ref": f"#/$defs/{part}", "$defs": whole["$defs"]}


def _keeps_to(part: str, data: object) -> bool:
    """Whether data keeps to a part of the schema; a fast validator answers, the slower one explains."""
    return bool(_validator(part).is_valid(data))


@cache
def _validator(part: str) -> Any:
    try:
        import jsonschema_rs
    except ImportError:  # no wheel for this machine
        import jsonschema

        return jsonschema.Draft202012Validator(_schema(part))
    return jsonschema_rs.Draft202012Validator(_schema(part))
