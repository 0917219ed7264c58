"""Every field of the design file is used, or says what will be the first to use it.

The fields are listened to while designs are reviewed, shown and levelled: the example sites, those of the seeded
defects, and the examples of the rules until each field has been read. What counts is code that names the field and lies
in a room that uses designs; a property of a model counts as its caller.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from types import FrameType

from coaxwright.analysis import Analysis
from coaxwright.computing import levels
from coaxwright.design.fields import Part
from coaxwright.design.model import Design
from coaxwright.design.schema import field_key
from coaxwright.reports.network_report import text
from coaxwright.reports.network_report.report import network_report
from coaxwright.reviewing import judge
from coaxwright.reviewing.reading import read_design
from coaxwright.reviewing.site import read_site
from coaxwright.rules import shipped_registry
from coaxwright.rules.examples import Example, example_files, examples_of
from coaxwright.source import read_text

TOP = Path(__file__).parents[3]
SITES = sorted([*TOP.glob("examples/*/*.coax.yaml"), *TOP.glob("tests/seeded/sites/*.coax.yaml")])
USING = ("network", "analysis", "checks", "reviewing", "reports", "rules", "catalogue", "findings")
"""Rooms that use what the design says."""
JUDGING = {"checks", "analysis"}
"""Those of them that answer a rule; the others look up a name, or show what is said."""
FOR_OTHERS = "coaxwright.design.model"
"""Models, whose properties read fields for who asks them."""
FOR_READERS = {"note", "authority", "coaxwright", "includes"}
"""Remarks for people, and what is used up before the models are built, as typical units are altogether."""


def parts(model: type[Part] = Design, seen: set[type[Part]] | None = None) -> Iterator[type[Part]]:
    seen = set() if seen is None else seen
    if model in seen:
        return
    seen.add(model)
    yield model
    for field in model.model_fields.values():
        for inner in classes_in(field.annotation):
            yield from parts(inner, seen)


def classes_in(annotation: object) -> Iterator[type[Part]]:
    if isinstance(annotation, type) and issubclass(annotation, Part):
        yield annotation
    for inner in getattr(annotation, "__args__", ()):
        yield from classes_in(inner)


Field = tuple[type[Part], str]
FIELDS: list[Field] = [(part, name) for part in parts() for name in part.model_fields]


def awaits(part: type[Part], name: str) -> str | None:
    extra = part.model_fields[name].json_schema_extra
    return str(extra["awaits"]) if isinstance(extra, dict) else None


AWAITING_KEYS = {(part, name): field_key(name, part.model_fields[name]) for part, name in FIELDS if awaits(part, name)}
"""The fields that await a rule: an example in which one is written may be of the rule that reads it now."""


class _Heard:
    """Stands in place of a field in its class, and says in which rooms it is read."""

    def __init__(self, field: Field, rooms: set[str]) -> None:
        self.name, self.rooms = field[1], rooms

    def __get__(self, part: Part | None, owner: type[Part]) -> object:
        if part is None:
            return self
        self.rooms.add(room_of_use(sys._getframe(1), self.name))
        try:
            return part.__dict__[self.name]
        except KeyError:
            raise AttributeError(self.name) from None

    def __set__(self, part: Part, value: object) -> None:
        part.__dict__[self.name] = value


def room_of_use(frame: FrameType | None, name: str) -> str:
    """The room whose code reads a field by its name, itself or by way of a model; empty where none does."""
    if frame is None or name not in frame.f_code.co_names:
        return ""
    while frame is not None and str(frame.f_globals["__name__"]).startswith(FOR_OTHERS):
        frame = frame.f_back
    package, _, module = str(frame.f_globals["__name__"] if frame else "").partition(".")
    room = module.partition(".")[0]
    return room if package == "coaxwright" and room in USING else ""


@contextmanager
def listened_to() -> Iterator[Mapping[Field, set[str]]]:
    """The rooms in which each field is read as long as this lasts."""
    rooms: dict[Field, set[str]] = {field: set() for field in FIELDS}
    for part, name in FIELDS:
        setattr(part, name, _Heard((part, name), rooms[part, name]))
    try:
        yield rooms
    finally:
        for part, name in FIELDS:
            delattr(part, name)


def use(path: Path) -> None:
    document = read_design(path, path.name, {})
    review = judge(document, shipped_registry())
    assert review.problems == ()
    site = read_site(path)
    network = site.network()
    text.render(network_report(site.document, network, Analysis(network)), 80)
    levels(path)


def examples() -> Iterator[Example]:
    for file in example_files():
        yield from examples_of(file.stem, [f"{file.parent.parent.name} 1"])


def wanting(rooms: Mapping[Field, set[str]]) -> list[str]:
    """The keys of what has been read by nothing and awaits nothing, each behind the name of its part."""
    return [
        f"{part.__name__}: {field_key(name, part.model_fields[name])}"
        for part, name in FIELDS
        if not rooms[part, name] - {""} and awaits(part, name) is None
        if field_key(name, part.model_fields[name]) not in FOR_READERS
    ]


@cache
def rooms_of_fields() -> Mapping[Field, set[str]]:
    for part in parts():
        part.model_rebuild()  # what is built later would take what listens for a default
    with listened_to() as rooms:
        for path in SITES:
            use(path)
        for example in examples():
            keys = [told.partition(" ")[2] for told in wanting(rooms)]
            keys += [key for field, key in AWAITING_KEYS.items() if not rooms[field] & JUDGING]
            if any(f"{key}:" in example.design for key in keys):
                assert judge(read_text(example.design, "example.coax.yaml"), shipped_registry()).problems == ()
        for example in examples():  # what is read though nobody has written it
            if wanting(rooms):
                judge(read_text(example.design, "example.coax.yaml"), shipped_registry())
    return rooms


def test_every_field_is_used_or_awaited() -> None:
    assert wanting(rooms_of_fields()) == [], "nothing uses these, and they await nothing"


def test_what_a_field_awaits_is_a_rule() -> None:
    for part, name in FIELDS:
        awaited = awaits(part, name)
        assert awaited is None or re.fullmatch(r"[a-z]+\.[a-z-]+", awaited)


def test_no_field_awaits_a_rule_though_one_reads_it_already() -> None:
    """A mark that was forgotten when its rule came would hide that a field is read by nothing."""
    judged = [field for field, rooms in rooms_of_fields().items() if rooms & JUDGING]
    assert [f"{part.__name__}: {name}" for part, name in judged if (part, name) in AWAITING_KEYS] == []


def test_only_code_that_names_a_field_in_a_room_that_uses_it_counts() -> None:
    part = Design.model_construct(title="x")
    room = {"__name__": "coaxwright.network.somewhere", "part": part}
    with listened_to() as rooms:
        for code, names in (
            ("getattr(part, 'title')", room),
            ("part.title", {**room, "__name__": "coaxwright.design.explain"}),
            ("part.title", {**room, "__name__": "elsewhere.network"}),
        ):
            exec(f"assert {code} == 'x'", names)
        assert rooms[Design, "title"] == {""}
        exec("def title():\n    assert part.title == 'x'\ntitle()", room)
        assert rooms[Design, "title"] == {"", "network"}
        assert not rooms[Design, "cables"]
    assert part.title == "x"


def test_the_fields_are_found() -> None:
    assert (Design, "cables") in FIELDS
    assert len(FIELDS) > 150
