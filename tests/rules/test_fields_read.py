"""Which fields of a design are read at all, over every example and every clear design of the seeded defects."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from coaxwright.design.fields import Part
from coaxwright.reviewing import judge
from coaxwright.reviewing.reading import read_design
from coaxwright.rules import shipped_registry
from coaxwright.rules.examples import example_files, examples_of
from coaxwright.source import Document, read_text

ROOT = Path(__file__).parents[2]
FOR_THE_READER = {("Design", "coaxwright"), ("Design", "draws_in")}
"""What is used up before a design is one: the format, and the files that it includes."""


def designs() -> Iterator[Document]:
    for folder in ("examples", "tests/seeded/sites"):
        for path in sorted((ROOT / folder).rglob("*.coax.yaml")):
            yield read_design(path, path.name)
    for file in example_files():
        for example in examples_of(file.stem, [f"{file.parent.parent.name} 1"]):
            yield read_text(example.design, "example.coax.yaml")


def parts(base: type[Part] = Part) -> Iterator[type[Part]]:
    for part in base.__subclasses__():
        yield part
        yield from parts(part)


def awaits(part: type[Part], name: str) -> bool:
    """Whether a field says itself for which later rule or output it is there."""
    extra = part.model_fields[name].json_schema_extra
    return isinstance(extra, dict) and "awaits" in extra


def test_every_field_is_read_by_something_or_says_what_it_waits_for(monkeypatch: pytest.MonkeyPatch) -> None:
    read: set[tuple[str, str]] = set()
    usual = Part.__getattribute__

    def recorded(self: Part, name: str) -> object:
        read.add((type(self).__name__, name))
        return usual(self, name)

    monkeypatch.setattr(Part, "__getattribute__", recorded)
    for document in designs():
        judge(document, shipped_registry())
    unread = {
        (part.__name__, name)
        for part in parts()
        for name in part.model_fields
        if (part.__name__, name) not in read and name != "note" and not awaits(part, name)
    }
    assert unread == FOR_THE_READER
