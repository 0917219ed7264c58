"""The units as they are written, line by line, and what is wrong with them.

A file with mistakes of form is read as far as it goes, so that all its mistakes can be told together.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from typing import Any

from coaxwright.design.contract import is_design
from coaxwright.design.nearest import nearest_word
from coaxwright.design.phrases import SECTIONS, listed
from coaxwright.design.units.ranges import NoSeries, tags_of
from coaxwright.frozen_value import frozen_value
from coaxwright.source import Document, Path, Problem, quoted
from coaxwright.source.problem import MOST_PROBLEMS

MOST_UNITS = 1_000
MOST_THINGS = 100_000
"""Ten times what the largest site we know has; a bound, so that no small file can keep a review busy for ever."""
_DIVIDE = "divide the site into several designs"

Key = tuple[str, str]
Things = Mapping[Key, Mapping[str, Any]]
"""Things by section and tag."""


@frozen_value
class Line:
    """One line of the units: the tags that it stands for, and how they differ from their typical unit."""

    key: str
    tags: tuple[str, ...]
    like: str
    typical: Things
    changes: Things
    left_out: frozenset[Key]


def things_of(written: object) -> Things:
    """The things of a unit, or of what differs in it."""
    if not isinstance(written, dict):
        return {}
    return {
        (section, tag): thing
        for section in SECTIONS
        if isinstance(written.get(section), dict)
        for tag, thing in written[section].items()
        if isinstance(thing, dict)
    }


def group(data: object, section: str) -> Mapping[str, Any]:
    """A section of the file; an empty one where there is none, or something else in its place."""
    written = data.get(section) if isinstance(data, dict) else None
    return written if isinstance(written, dict) else {}


class Lines:
    """Reads the units of a document, and keeps the problems."""

    def __init__(self, document: Document) -> None:
        self.document = document
        self.typical = {tag: things_of(unit) for tag, unit in group(document.data, "typical").items()}
        self.problems: list[Problem] = []
        self.told: set[Problem] = set()
        self.known: dict[str, str] = {}
        """For each unit's tag, the key of its line."""

    def read(self) -> list[Line]:
        """Every line that can be written out."""
        found: list[Line] = []
        things = 0
        for key, written in group(self.document.data, "units").items():
            if len(self.problems) > MOST_PROBLEMS:
                break
            path: Path = ("units", key)
            tags = self.tags(key, path)
            if not isinstance(written, dict):
                continue
            like = self.like(written.get("like"), (*path, "like"))
            if like is None:
                continue
            line = self.line(key, tags, like, written)
            found.append(line)
            things += len(line.tags) * len(line.typical)
            if things > MOST_THINGS:
                self.tell(path, f"the units would hold more than {MOST_THINGS:,} things", _DIVIDE, of_key=True)
                return []
        return found

    def tags(self, key: str, path: Path) -> tuple[str, ...]:
        """The tags of a line, of which each names one unit and nothing else."""
        tags = tags_of(key)
        if isinstance(tags, NoSeries):
            self.tell(path, tags.what, tags.expected, tags.meant, of_key=True)
            return ()
        if len(self.known) + len(tags) > MOST_UNITS:
            what = f"these would be {len(self.known) + len(tags):,} units in all"
            self.tell(path, what, f"a design holds {MOST_UNITS:,} at most", of_key=True)
            return ()
        own = tuple(tags)
        for tag in own:
            if tag in self.typical:
                self.tell(path, f"{quoted(tag)} is the tag of a typical unit", "give the unit another", of_key=True)
                return ()
            if tag in self.known:
                first = self.known[tag]
                what = f"the unit {quoted(tag)} is there twice, first in {self.where(first)}"
                self.tell(path, what, "give one of them another tag", of_key=True)
                return ()
        self.known.update(dict.fromkeys(own, key))
        return own

    def like(self, written: object, path: Path) -> str | None:
        """The tag of the typical unit that a line is like."""
        if not isinstance(written, str):
            return None
        if written in self.typical:
            return written
        if written in group(self.document.data, "units"):
            what, expected = (
                f"{quoted(written)} is a unit, not a typical one",
                "describe what they share below 'typical:'",
            )
            self.tell(path, what, expected)
            return None
        near = nearest_word(written, self.typical)
        known = (
            f"the typical units are {listed(list(self.typical), written)}"
            if self.typical
            else "describe it below 'typical:'"
        )
        self.tell(path, f"there is no typical unit {quoted(written)}", "" if near else known, near)
        return None

    def line(self, key: str, tags: tuple[str, ...], like: str, written: Mapping[str, Any]) -> Line:
        typical = self.typical[like]
        path: Path = ("units", key)
        changes = things_of(written.get("but"))
        for section, tag in changes:
            if (section, tag) not in typical:
                self.not_there(like, section, tag, (*path, "but", section, tag))
        changes = {at: change for at, change in changes.items() if at in typical}
        left_out = frozenset(self.left_out(like, typical, written.get("leaves out"), (*path, "leaves out")))
        for section, tag in changes:
            if (section, tag) in left_out:
                what = f"{quoted(tag)} is left out below, and so cannot differ"
                self.tell((*path, "but", section, tag), what, "take one of the two out", of_key=True)
        line = Line(key, tags, like, typical, changes, left_out)
        self.fitting(line)
        return line

    def left_out(self, like: str, typical: Things, tags: object, path: Path) -> Iterator[Key]:
        """What a unit has not, by its tags."""
        for index, tag in enumerate(tags if isinstance(tags, list) else ()):
            if not isinstance(tag, str):
                continue
            having = [section for section in SECTIONS if (section, tag) in typical]
            if not having:
                near = nearest_word(tag, [known for _, known in typical])
                known = f"its tags are {listed([known for _, known in typical], tag)}"
                self.tell((*path, index), f"{like} has no {quoted(tag)}", "" if near else known, near)
            elif len(having) > 1:
                what = f"{quoted(tag)} stands in the {' and in the '.join(having)} of {like}"
                self.tell((*path, index), what, "give each of them a tag of its own there")
            else:
                yield having[0], tag

    def not_there(self, like: str, section: str, tag: str, path: Path) -> None:
        own = [known for at, known in self.typical[like] if at == section]
        if not own:
            self.tell(path[:-1], f"{like} has no {section}", "what differs is something that it has", of_key=True)
            return
        near = nearest_word(tag, own)
        known = "" if near else f"its {section} are {listed(own, tag)}"
        self.tell(path, f"{like} has no {quoted(tag)} in its {section}", known, near, of_key=True)

    def fitting(self, line: Line) -> None:
        """What differs has to make, with the rest of its thing, a thing that the schema knows."""
        for (section, tag), change in line.changes.items():
            thing = line.typical[section, tag]
            if _is_part(section, tag, {**thing, **change}) or not _is_part(section, tag, thing):
                continue
            from coaxwright.design.explain import problems

            path: Path = ("units", line.key, "but")
            below = self.document.owner(path).below(path)
            merged = replace(below, data=_design_of(section, tag, {**thing, **change}))
            self.problems += problems(merged)

    def where(self, key: str) -> str:
        """A line of the units, for people."""
        path: Path = ("units", key)
        return f"{self.document.owner(path).name}, line {self.document.span(path, of_key=True).start.line}"

    def tell(
        self, path: Path, what: str, expected: str = "", nearest: str | None = None, *, of_key: bool = False
    ) -> None:
        """Note a problem at a path."""
        span = self.document.span(path, of_key=of_key)
        problem = Problem(self.document.owner(path).name, span, what, expected, nearest or "")
        if problem not in self.told:
            self.told.add(problem)
            self.problems.append(problem)


def _design_of(section: str, tag: str, thing: Mapping[str, Any]) -> dict[str, Any]:
    return {"coaxwright": 1, "title": "x", "basis": {"rulesets": ["x 1"]}, section: {tag: thing}}


def _is_part(section: str, tag: str, thing: Mapping[str, Any]) -> bool:
    return is_design(_design_of(section, tag, thing))
