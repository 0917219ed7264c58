"""A violation of the schema as one problem in a colleague's words, at its place in the file."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from itertools import islice
from typing import Any

from coaxwright.design.contract import mistakes
from coaxwright.design.fields import DATE_PATTERN, RULESET_PATTERN
from coaxwright.design.nearest import nearest_edition, nearest_word
from coaxwright.design.phrases import (
    ROUTE_ENTRY,
    SECTIONS,
    a,
    can_be_repeated,
    expected,
    in_quotes,
    keys_of,
    listed,
    quantity_of,
    schema_at,
    shown,
    shown_tag,
)
from coaxwright.design.shapes import wrong_shape
from coaxwright.design.yaml_mistakes import Slip, slip_in_group, slip_in_route
from coaxwright.source import Document, Path, Problem, Span
from coaxwright.source.formats import other_format
from coaxwright.source.former_words import FORMER_KEYS
from coaxwright.source.problem import MOST_PROBLEMS, at_most

_LONGEST_LIST_WITH_NEAREST = 6
_OF_THE_WHOLE = ("typical", "units")
_TAG = "a tag stands on one line, without a space at its ends or a dot in front"


def problems(document: Document) -> list[Problem]:
    """Every mistake of a document that breaks the schema, once each, in the order of the text.

    A file whose first line is wrong is told only that: the rest would be noise.
    """
    first = _not_this_format(document)
    if first is not None:
        return [first]
    units: dict[Path, list[Any]] = {(): []}
    every = mistakes(document.data)
    for mistake in islice(every, MOST_PROBLEMS):
        units.setdefault(_unit_of(mistake), []).append(mistake)
    found = [
        problem
        for path, of_unit in units.items()
        for problem in _Explanation(document.below(path) if path else document, of_unit, len(path)).problems()
    ]
    found.sort(key=lambda problem: (problem.span, problem.message))
    return at_most(found, document.name, of_more=next(every, None) is not None)


def _unit_of(mistake: Any) -> Path:
    """The typical unit, or what differs in a unit, in which a mistake lies: a small design within the design."""
    match tuple(mistake.absolute_path):
        case ("typical", tag, _, *_):
            return ("typical", tag)
        case ("units", tag, "but", _, *_):
            return ("units", tag, "but")
    return ()


def _not_this_format(document: Document) -> Problem | None:
    data = document.data
    begins = "a design begins with 'coaxwright: 1'"
    if data is None:
        return Problem(document.name, _start(document), "nothing is written here", begins)
    if not isinstance(data, dict) or "coaxwright" not in data:
        near = nearest_word("coaxwright", data, cutoff=0.7) if isinstance(data, dict) else None
        span = document.span((near,), of_key=True) if near else _start(document)
        what = f"{near!r} is not the format line" if near else "this is not a design"
        return Problem(document.name, span, what, begins)
    version = data["coaxwright"]
    if version == 1 and not isinstance(version, bool):
        return None
    other = other_format(document)
    if other is not None:
        return other
    span = document.span(("coaxwright",), of_key=version is None)
    if isinstance(version, (int, float)) and not isinstance(version, bool):
        what = f"format {shown(document, ('coaxwright',), version)} is not known here"
        return Problem(document.name, span, what, "this program reads format 1")
    return Problem(document.name, span, "the format is not a number", "write 'coaxwright: 1'")


class _Explanation:
    """The mistakes of one document, gathered so that what follows from another mistake is not told again."""

    def __init__(self, document: Document, mistakes: list[Any], depth: int) -> None:
        self.document = document
        self.mistakes = mistakes
        self.depth = depth
        """How far below the top of the file this document stands."""
        self.keys: dict[Path, Problem] = {}
        self.values: dict[Path, Problem] = {}
        self.missing: dict[Path, list[str]] = {}
        self.slipped: set[Path] = set()
        """Fields that were meant to be there, and are not read as such."""
        self.covered: set[Path] = set()
        """Paths below which nothing more is told."""

    def problems(self) -> list[Problem]:
        found = [*self.fields_for_tags(), *self.parts_of_other_sections()]
        # What the kind of a part says comes last and wins: it is narrower than what its flat form says.
        for mistake in sorted(self.mistakes, key=_is_of_kind):
            path: Path = tuple(mistake.absolute_path)[self.depth :]
            if mistake.validator == "required":
                self.note_missing(path, mistake)
            elif mistake.validator == "additionalProperties" or _is_key(mistake):
                self.note_keys(path, mistake)
            else:
                self.values[path] = self.about_value(path, mistake)
        found += self.bonds_without_kind()
        found += [problem for path, problem in self.keys.items() if not self.is_covered(path)]
        self.covered |= self.keys.keys() | self.slipped
        found += [problem for path, problem in self.values.items() if not self.is_covered(path)]
        found += self.about_missing()
        return sorted(set(found), key=lambda problem: (problem.span, problem.message))

    def is_covered(self, path: Path) -> bool:
        return any(path[:length] in self.covered for length in range(1, len(path) + 1))

    def problem(self, span: Span, what: str, expected: str = "", nearest: str | None = None) -> Problem:
        return Problem(self.document.name, span, what, expected, nearest or "")

    def at(self, path: Path) -> Any:
        value: Any = self.document.data
        for step in path:
            value = value[step]
        return value

    def key_span(self, path: Path) -> Span:
        return self.document.span(path, of_key=True)

    # Keys

    def fields_for_tags(self) -> Iterator[Problem]:
        """``devices: {kind: splitter}``: the tag was forgotten, or the fields below it are not indented."""
        for section, example in SECTIONS.items():
            tags = self.at(()).get(section)
            if not isinstance(tags, dict):
                continue
            fields = keys_of(schema_at((section, "")))
            stray = [tag for tag, value in tags.items() if tag in fields and isinstance(value, (str, int, float))]
            if stray:
                self.covered |= {(section, tag) for tag, value in tags.items() if tag in stray or value is None}
                what = f"{stray[0]!r} is a field and stands where a tag belongs"
                yield self.problem(self.key_span((section, stray[0])), what, f"indent it below its tag: '{example}'")

    def parts_of_other_sections(self) -> Iterator[Problem]:
        """A cable below ``devices:`` is one mistake, not one for each of its fields."""
        for section in SECTIONS:
            tags = self.at(()).get(section)
            for tag, part in tags.items() if isinstance(tags, dict) else ():
                home = _section_of(part)
                is_unfinished = {section, home} == {"bonding", "cables"} and part.keys().isdisjoint({"kind", "type"})
                if home not in {None, section} and not is_unfinished:
                    self.covered.add((section, tag))
                    what = f"{shown_tag(tag)} has the fields of another section"
                    yield self.problem(self.key_span((section, tag)), what, f"move it below '{home}:'")

    def note_keys(self, path: Path, mistake: Any) -> None:
        owner = mistake.instance if mistake.validator == "additionalProperties" else self.at(path)
        if mistake.validator == "pattern":
            key = mistake.instance
            what = f"{shown(self.document, (), key)} cannot be a tag"
            self.keys[(*path, key)] = self.problem(self.key_span((*path, key)), what, _TAG)
        elif mistake.validator == "enum":
            self.keys[(*path, mistake.instance)] = self.unknown_key(
                path, mistake.instance, list(mistake.validator_value), owner
            )
        else:
            known = keys_of(mistake.schema)
            for key in islice((key for key in owner if key not in known), MOST_PROBLEMS + 1):
                self.keys[(*path, key)] = self.unknown_key(path, key, known, owner)

    def slip(self, path: Path, slip: Slip) -> Problem:
        """One mistake of the pen; what else the schema says of the field that was meant is not told again."""
        self.slipped.add((*path, slip.field))
        return self.problem(slip.span, slip.what, slip.expected)

    def unknown_key(self, path: Path, key: str, known: list[str], owner: Mapping[str, object]) -> Problem:
        slip = slip_in_group(self.document, path, key, known)
        if slip is not None:
            return self.slip(path, slip)
        section = _section_of(owner[key]) if not path else None
        span = self.key_span((*path, key))
        written = shown(self.document, (), key)
        if section is not None:
            return self.problem(span, f"{written} stands where a section belongs", f"indent it below '{section}:'")
        if key in _OF_THE_WHOLE and path[:1] == ("typical",):
            what = "a typical unit holds no units of its own in this format"
            return self.problem(span, what, f"describe each of them by itself below '{key}:' at the top")
        present = FORMER_KEYS.get(key)
        if present in owner:
            return self.problem(span, f"{written} stands beside {present!r}, its name now", "leave one of them out")
        near = nearest_word(key, known, taken=owner)
        kind = str(owner.get("kind"))
        whose = _named(path, owner)
        if len(path) == 2 and path[0] in {"devices", "bonding"} and kind in schema_at((*path, "kind")).get("enum", ()):
            whose = a(kind)
        elif path[:1] == ("bonding",) and "kind" not in owner:
            whose = f"{path[-1]}, a bonding conductor,"
        return self.problem(
            span, f"{whose} has no field {written}", "" if near else f"its fields are {listed(known, key)}", near
        )

    def bonds_without_kind(self) -> Iterator[Problem]:
        """A rod or termination whose kind was left out or mistyped is no bonding conductor with four mistakes."""
        fields = keys_of(schema_at(("bonding", "")))
        for path in list(self.missing):
            owner = self.at(path)
            others = [key for key in owner if key in fields and (*path, key) in self.keys]
            if path[:1] != ("bonding",) or not others or owner.keys() & {"kind", "from", "to", "conductor"}:
                continue
            del self.missing[path]
            for key in others:
                del self.keys[(*path, key)]
            if any(problem.nearest == "kind" for at, problem in self.keys.items() if at[:-1] == path):
                continue
            what = f"{path[-1]} has no 'kind', so it would be a bonding conductor, which has no {others[0]!r}"
            yield self.problem(self.key_span(path), what, expected(schema_at((*path, "kind"))))

    # What is missing

    def note_missing(self, path: Path, mistake: Any) -> None:
        known = self.missing.setdefault(path, [])
        known += [key for key in mistake.validator_value if key not in mistake.instance and key not in known]

    def about_missing(self) -> Iterator[Problem]:
        for path, keys in self.missing.items():
            # A mistyped key that stands for the missing one is one mistake, told at the key.
            meant = {problem.nearest for at, problem in self.keys.items() if at[:-1] == path}
            absent = [key for key in keys if key not in meant and (*path, key) not in self.slipped]
            if not absent or self.is_covered(path):
                continue
            span = self.key_span(path) if path else _start(self.document)
            what = f"{_named(path, self.at(path))} has no {in_quotes(absent, 'or')}"
            write = f"write {in_quotes([f'{key}: …' for key in absent], 'and')}"
            field = schema_at((*path, absent[0]))
            if len(absent) == 1 and "quantity" in field:
                write = f"write '{absent[0]}: {field['examples'][0]}'"
            if len(absent) == 1 and "enum" in field:
                write = f"{write} with one of {', '.join(field['enum'])}"
            yield self.problem(span, what, write)

    # Values

    def about_value(self, path: Path, mistake: Any) -> Problem:
        value = mistake.instance
        span = self.document.span(path)
        match mistake.validator:
            case "minProperties":
                return self.problem(span, "a place with its length is missing here", f"write '{ROUTE_ENTRY}'")
            case "maxProperties":
                self.covered |= {(*path, key) for key in value}
                first, second = list(value)[:2]
                what = "two places stand in one entry of the route"
                if second == "length" and value[first] is None:
                    what = f"'length' stands beside {first!r}, not below it"
                return self.problem(self.key_span((*path, second)), what, f"write '{ROUTE_ENTRY}' for each place")
            case "minItems":
                needed = path[-1] in schema_at(path[:-1]).get("required", ())
                write = "write at least one" if needed else "write at least one, or leave the line out"
                return self.problem(span, f"the list {path[-1]!r} is empty", write)
        if value is None:
            return self.nothing(path, mistake.schema)
        if path[2:3] == ("route",) and len(path) == 4 and isinstance(value, str):
            slip = slip_in_route(self.document, path, value)
            if slip is not None:
                if slip.field:
                    assert isinstance(path[-1], int)
                    self.covered.add((*path[:-1], path[-1] - 1))
                return self.problem(slip.span, slip.what, slip.expected)
        return self.wrong_value(path, mistake.schema, value)

    def nothing(self, path: Path, schema: Mapping[str, Any]) -> Problem:
        key = path[-1]
        if isinstance(key, int):
            return self.problem(self.document.span(path), "nothing is written after the dash", expected(schema))
        if path[0] in SECTIONS and len(path) == 1:
            write = "leave the line out until there is something to put below it"
            return self.problem(self.key_span(path), f"the section {key!r} is empty", write)
        write = expected(schema)
        if path[0] in SECTIONS and len(path) == 2 and not schema.get("required"):
            write = f"write '{key}: {{}}' where there is nothing more to say"
        return self.problem(self.key_span(path), f"nothing is written after {key!r}", write)

    def wrong_value(self, path: Path, schema: Mapping[str, Any], value: object) -> Problem:
        """A value that is there and is not what its field takes."""
        span = self.document.span(path)
        key = next(step for step in reversed(path) if isinstance(step, str))
        written = shown(self.document, path, value)
        cannot = f"{written} cannot stand {'in the list' if isinstance(path[-1], int) else 'for'} {key!r}"
        quantity = quantity_of(schema)
        if quantity is not None and isinstance(value, (str, int, float)) and not isinstance(value, bool):
            number = self.document.numbers.get(path, str(value))
            if quantity.is_number(number):
                return self.problem(span, f"{number} has no unit", f"write {quantity.expected(number)}")
            near = quantity.nearest(str(value))
            return self.problem(span, f"{written} is not {a(quantity.NAME)}", "" if near else expected(schema), near)
        if "enum" in schema and isinstance(value, str):
            words = [str(word) for word in schema["enum"]]
            near = nearest_word(value, words) if len(words) > 1 else None
            is_long = near and len(words) > _LONGEST_LIST_WITH_NEAREST
            return self.problem(span, f"{written} is not a known {key}", "" if is_long else expected(schema), near)
        if schema.get("type") == "boolean" and isinstance(value, str):
            near = nearest_word(value, ("true", "false"))
            if near == value:
                return self.problem(span, f"{written} is in quotes", f"write {value} without them")
            return self.problem(span, cannot, expected(schema), near)
        if schema.get("type") == "integer" and isinstance(value, str) and value.isdecimal() and can_be_repeated(value):
            return self.problem(span, f"{written} is in quotes", f"write {value} without them")
        if schema.get("written") and isinstance(value, str):
            if not value.strip():
                return self.problem(span, f"nothing is written between the quotes of {key!r}", expected(schema))
            if schema.get("pattern") == DATE_PATTERN:
                return self.problem(span, f"{written} is not a date", expected(schema))
            if "examples" in schema:
                return self.problem(span, cannot, expected(schema))
            return self.problem(span, f"{written} cannot be a tag", _TAG)
        if "pattern" in schema and isinstance(value, str):
            near = nearest_edition(value) if schema["pattern"] == RULESET_PATTERN else value.lower()
            is_right = re.search(schema["pattern"], near) is not None
            return self.problem(span, cannot, expected(schema), near if is_right else None)
        return self.problem(span, *wrong_shape(path, schema, value, cannot))


def _section_of(value: object) -> str | None:
    """The section in which a group with these fields would stand."""
    if not isinstance(value, dict):
        return None
    for section in SECTIONS:
        part = schema_at((section, ""))
        kinds = part["properties"].get("kind", {}).get("enum", ())
        if "kind" in value and value["kind"] in kinds:
            return section
    if {"from", "to"} <= value.keys():
        return "bonding" if "conductor" in value else "cables"
    return None


def _named(path: Path, instance: Mapping[str, object]) -> str:
    if not path:
        return "the design"
    if path[-1] == "but":
        return "'but'"
    kind = instance.get("kind")
    name = shown_tag(path[-1]) if isinstance(path[-1], str) else f"entry {path[-1] + 1} of {path[-2]!r}"
    return f"{name} ({kind})" if isinstance(kind, str) else name


def _is_key(mistake: Any) -> bool:
    return "propertyNames" in mistake.absolute_schema_path


def _is_of_kind(mistake: Any) -> bool:
    return "then" in mistake.absolute_schema_path and "allOf" in mistake.absolute_schema_path


def _start(document: Document) -> Span:
    """The first line that holds something."""
    whole = document.span(())
    return Span(whole.start, whole.start)
