"""A design put together from where it is written: from several files, and from units that are repeated.

It is one document that still knows in which file, and at which path of it, each value stands.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from coaxwright.design.nearest import nearest_word
from coaxwright.design.phrases import SECTIONS, in_quotes
from coaxwright.frozen_value import frozen_value
from coaxwright.source import INCLUDES, PART, Document, Drawn, Instance, Path, Problem, Span
from coaxwright.source.formats import other_format

TAGGED = (*SECTIONS, "typical", "units")
"""The sections of tagged things, which parts may hold as well."""
_OF_A_PART = [PART, "note", INCLUDES, *TAGGED]
_OF_A_DESIGN = ("coaxwright", "title", "basis", "catalogue")
Key = tuple[str, str]
"""A section and a tag."""


@frozen_value
class Origin:
    """Where a thing of a repeated unit is written."""

    instance: Instance
    path: Path
    """Its path in the typical unit."""
    change: Path
    """The path of what differs in this unit; empty where nothing does."""
    thing: Mapping[str, Any]
    """Its fields with the tags as they are written: those of the typical unit, replaced by those that differ."""
    changed: frozenset[str] = frozenset()
    """The fields that differ."""

    def written(self, below: Path) -> Path:
        """The written path of a part of the thing."""
        steps: list[str | int] = []
        value: Any = self.thing
        prefix = f"{self.instance.name}/"
        for step in below:
            if isinstance(value, dict) and isinstance(step, str) and step not in value:
                step = step.removeprefix(prefix)
            steps.append(step)
            value = _below(value, step)
        return (*(self.change if below and below[0] in self.changed else self.path), *steps)

    def shares(self, path: Path) -> bool:
        """Whether the thing, or a part of it, is written at this path."""
        if path[: len(self.path)] == self.path:
            return self.changed.isdisjoint(map(str, path[len(self.path) :][:1]))
        return bool(self.change) and path[: len(self.change)] == self.change


def _below(value: Any, step: str | int) -> Any:
    if isinstance(value, dict):
        return value.get(step)
    return value[step] if isinstance(value, list) and isinstance(step, int) and step < len(value) else None


@dataclass(frozen=True)
class Composition(Document):
    """One document of several files, or with its repeated units written out. Text and name are the design's own file's.

    A path may be one of the data, or one of a file: what a repeated unit holds has both.
    """

    owners: Mapping[Key, Document] = field(default_factory=dict)
    """For each section and tag that stands in a part, the part."""
    drawn: Drawn | None = None
    """The files it was put together from."""
    origins: Mapping[Key, Origin] = field(default_factory=dict)
    """For each section and tag that a repeated unit holds, where it is written."""

    def with_file(self, changed: Document) -> Document:
        """The same design with one of its files changed, its repeated units not yet written out again."""
        assert self.drawn is not None
        main = changed if changed.name == self.name else self.drawn.main
        parts = tuple(changed if part.name == changed.name else part for part in self.drawn.parts)
        return compose(Drawn(main, parts))[0]

    def written(self, path: Path) -> Path:
        """Where a path stands in the text of its file."""
        origin = self._origin(path)
        return path if origin is None else origin.written(path[2:])

    def instance(self, path: Path) -> Instance | None:
        """The repeated unit that a path lies in."""
        origin = self._origin(path)
        return None if origin is None else origin.instance

    def sharing(self, path: Path) -> tuple[str, ...]:
        """The repeated units that what is written at a path holds for."""
        path = self.written(path)
        return tuple(origin.instance.name for origin in self.origins.values() if origin.shares(path))

    @property
    def repeats(self) -> bool:
        """Whether it was written out from repeated units."""
        return bool(self.origins)

    def owner(self, path: Path) -> Document:
        """The file in which a path is written."""
        path = self.written(path)
        main = self.drawn.main if self.drawn is not None else self
        return self.owners.get((str(path[0]), str(path[1])), main) if len(path) > 1 else main

    def span(self, path: Path, *, of_key: bool = False) -> Span:
        """Where the value at ``path`` stands in its own file."""
        owner, path = self.owner(path), self.written(path)
        return super().span(path, of_key=of_key) if owner.name == self.name else owner.span(path, of_key=of_key)

    def has(self, path: Path) -> bool:
        """Whether something is written at ``path``, in whichever file."""
        owner, path = self.owner(path), self.written(path)
        return super().has(path) if owner.name == self.name else owner.has(path)

    def _origin(self, path: Path) -> Origin | None:
        return self.origins.get((str(path[0]), str(path[1]))) if len(path) > 1 else None


def compose(drawn: Drawn) -> tuple[Document, list[Problem]]:
    """The whole design, and what keeps the files from being one: a part of another kind, a tag that stands twice."""
    main = drawn.main
    problems = list(drawn.problems)
    if not drawn.parts or not isinstance(main.data, dict):
        return main, problems
    data: dict[str, Any] = {
        key: dict(value) if key in TAGGED and isinstance(value, dict) else value for key, value in main.data.items()
    }
    numbers = dict(main.numbers)
    owners: dict[Key, Document] = {}
    for part in drawn.parts:
        problems += _header_problems(part)
        for section, tag, value in _tagged(part):
            section_data = data.setdefault(section, {})
            if not isinstance(section_data, dict):
                continue  # told of the design's own file
            if tag in section_data:
                first = owners.get((section, tag), main)
                line = first.span((section, tag), of_key=True).start.line
                what = f"{tag!r} stands in two files, first in {first.name}, line {line}"
                span = part.span((section, tag), of_key=True)
                problems.append(Problem(part.name, span, what, "give one of them another tag"))
                continue
            section_data[tag] = value
            owners[(section, tag)] = part
        numbers.update((path, text) for path, text in part.numbers.items() if path[:2] in owners)
    bom, beside = main.has_byte_order_mark, main.beside
    whole = Composition(main.name, main.text, data, main.spots, numbers, bom, owners, drawn, beside=beside)
    return whole, problems


def as_design(part: Document) -> Document:
    """A part as a design of its own, so that the schema of designs can be asked of all but its first line."""
    written = part.data if isinstance(part.data, dict) else {}
    sections = {key: value for key, value in written.items() if key in _OF_A_PART and key != PART}
    data = {"coaxwright": 1, "title": part.name, "basis": {"rulesets": ["part 1"]}, **sections}
    return Document(part.name, part.text, data, part.spots, part.numbers, part.has_byte_order_mark)


def _tagged(part: Document) -> Iterator[tuple[str, str, object]]:
    data = part.data if isinstance(part.data, dict) else {}
    for section in TAGGED:
        tags = data.get(section)
        if isinstance(tags, dict):
            yield from ((section, tag, value) for tag, value in tags.items())


def _header_problems(part: Document) -> Iterator[Problem]:
    """What a part says beside its sections: its format line, nothing that only a design says."""
    data = part.data
    begins = f"a part begins with '{PART}: 1'"
    start = part.span(()).start
    if not isinstance(data, dict) or PART not in data:
        is_design = isinstance(data, dict) and "coaxwright" in data
        what = "this is a whole design" if is_design else "this is not a part of a design"
        yield Problem(part.name, Span(start, start), what, begins)
        return
    other = other_format(part)
    if other is not None:
        yield other
        return
    if isinstance(data[PART], bool) or data[PART] != 1:
        yield Problem(part.name, part.span((PART,)), "this format of a part is not known here", begins)
    for key in data:
        if key in _OF_A_PART:
            continue
        near = nearest_word(key, _OF_A_PART)
        span = part.span((key,), of_key=True)
        if key in _OF_A_DESIGN:
            yield Problem(part.name, span, f"{key!r} belongs in the design that includes this part", "take it out here")
        else:
            expected = "" if near else f"its fields are {in_quotes(_OF_A_PART, 'and')}"
            yield Problem(part.name, span, f"a part has no field {key!r}", expected, near or "")
