"""Writing units out: every thing of every unit, under its full tag, with the tags it refers to written in full."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from coaxwright.design.composition import Composition, Origin
from coaxwright.design.nearest import nearest_word
from coaxwright.design.phrases import SECTIONS
from coaxwright.design.units.lines import Key, Line, Lines, group
from coaxwright.design.units.references import Sections, tags_in, with_full_tags
from coaxwright.source import Document, Drawn, Instance, Path, Problem, quoted


def write_out(document: Document) -> tuple[Document, list[Problem]]:
    """The document with its units written out in place of their description, and what is wrong with them."""
    lines = Lines(document)
    writing = _Writing(lines, document)
    for line in lines.read():
        writing.write(line)
    data = document.data if isinstance(document.data, dict) else {}
    kept = {key: value for key, value in data.items() if key not in ("typical", "units")}
    owners, drawn = (
        ({}, Drawn(document)) if not isinstance(document, Composition) else (document.owners, document.drawn)
    )
    whole = Composition(
        document.name,
        document.text,
        {**kept, **writing.sections},
        document.spots,
        {},  # the texts taken as written have been put back
        document.has_byte_order_mark,
        owners,
        drawn,
        writing.origins,
        beside=document.beside,
    )
    return whole, lines.problems


class _Writing:
    def __init__(self, lines: Lines, document: Document) -> None:
        self.lines = lines
        self.outside = {section: group(document.data, section) for section in SECTIONS}
        self.sections = {section: dict(things) for section, things in self.outside.items() if things}
        self.origins: dict[Key, Origin] = {}
        self.in_reports = {
            (section, f"{typical}/{tag}"): (typical, tag)
            for typical, things in lines.typical.items()
            for section, tag in things
        }
        for section, things in self.outside.items():
            for tag in things:
                self.free_for_reports(section, tag, (section, tag))

    def free_for_reports(self, section: str, tag: str, path: Path) -> None:
        """Findings call a thing of a typical unit ``flat/SP``: nothing else may be called so."""
        if (section, tag) in self.in_reports:
            typical, own = self.in_reports[section, tag]
            what = f"{quoted(tag)} is what findings call {own} of the typical unit {typical}"
            self.lines.tell(path, what, "give it another tag", of_key=True)

    def write(self, line: Line) -> None:
        """Add the things of the units of one line."""
        inside = _Inside(line, self.outside)
        for name in line.tags:

            def full(written: str, names: Sections, name: str = name) -> str:
                return f"{name}/{written}" if inside.holds(written, names) else written

            for (section, tag), thing in line.typical.items():
                if (section, tag) in line.left_out or not self.is_free(line, name, section, f"{name}/{tag}"):
                    continue
                change = line.changes.get((section, tag), {})
                whole = {**thing, **change} if change else thing
                self.sections.setdefault(section, {})[f"{name}/{tag}"] = with_full_tags(whole, tags_in()[section], full)
                self.origins[section, f"{name}/{tag}"] = Origin(
                    Instance(name, line.like, tag),
                    ("typical", line.like, section, tag),
                    ("units", line.key, "but", section, tag) if change else (),
                    whole,
                    frozenset(change),
                )

    def is_free(self, line: Line, name: str, section: str, tag: str) -> bool:
        """Whether nothing else has the full tag of a thing."""
        self.free_for_reports(section, tag, ("units", line.key))
        if tag not in self.sections.get(section, {}):
            return True
        other = self.origins.get((section, tag))
        if other is None:
            what = f"{quoted(tag)} is already there, as a part of the unit {name}"
            self.lines.tell((section, tag), what, "give it another tag", of_key=True)
        else:
            what = f"{quoted(tag)} would be a part of {other.instance.name} and of {name}"
            self.lines.tell(("units", line.key), what, "give one of the units another tag", of_key=True)
        return False


class _Inside:
    """Tells for the units of one line which tags name something of the unit itself; each is looked up once."""

    def __init__(self, line: Line, outside: Mapping[str, Mapping[str, Any]]) -> None:
        self.own = _by_section(key for key in line.typical if key not in line.left_out)
        self.left_out = _by_section(line.left_out)
        self.outside = outside
        self.known: dict[tuple[str, Sections], bool] = {}

    def holds(self, written: str, names: Sections) -> bool:
        """Whether a tag, or the device of a ``TAG.port``, is the unit's own: looked for there first, then outside.

        A tag that names nothing at all is the unit's own if it is most like one of those, so that it is told beside
        what was probably meant.
        """
        if (written, names) not in self.known:
            self.known[written, names] = self._looked_up(written, names)
        return self.known[written, names]

    def _looked_up(self, written: str, names: Sections) -> bool:
        for things, answer in ((self.own, True), (self.left_out, False), (self.outside, False)):
            if _finds(things, written, names):
                return answer
        if "/" in written:
            return False
        tag = written.rpartition(".")[0] or written
        own = [known for section in names for known in self.own[section]]
        near = nearest_word(tag, [*(known for section in names for known in self.outside[section]), *own])
        return near in own


def _finds(things: Mapping[str, Any], written: str, names: Sections) -> bool:
    if any(written in things[section] for section in names):
        return True
    return "devices" in names and written.rpartition(".")[0] in things["devices"]


def _by_section(keys: Any) -> dict[str, set[str]]:
    found: dict[str, set[str]] = {section: set() for section in SECTIONS}
    for section, tag in keys:
        found[section].add(tag)
    return found
