"""Entries of a design's own, or of a firm's stock: data sheets in the words of the catalogue, often ``like`` another.

What is not written is taken from the entry that it is like. Every figure that is written has the one source that the
entry names, and is the author's own word: outputs say so.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import cache, lru_cache
from itertools import pairwise
from typing import Any

from coaxwright.catalogue.collection import Catalogue, OwnEntry
from coaxwright.catalogue.device_entries import read_device
from coaxwright.catalogue.devices import DeviceEntry
from coaxwright.catalogue.entries import Source
from coaxwright.catalogue.errors import CatalogueError
from coaxwright.catalogue.families import members
from coaxwright.catalogue.gathering import read_catalogue
from coaxwright.catalogue.loader import device_data, load_catalogue, shipped_data
from coaxwright.catalogue.losses import AttenuationKind
from coaxwright.catalogue.reading import Fields
from coaxwright.design.nearest import nearest_word
from coaxwright.design.phrases import in_quotes, shown
from coaxwright.design.plain_mistakes import plain_problems
from coaxwright.physics.dividing import ideal_split_db
from coaxwright.shipped import shipped
from coaxwright.source import Document, Path, Problem, Span

HEADER = "coaxwright catalogue"
STATED = "stated by the author"
"""The confidence of a figure that a design or a firm's file states."""
_SCHEMA = "catalogue-1.schema.json"
_OWN = "own"
_NOT_INHERITED = ("also", "hints", "usual", "seldom", "existing only")
_NO_FIGURES = ("kind", "ways", "inputs", "outputs", "variant", "description", "defaults", "connector", "sources")
_NOTHING_STATED = "the author of the design"
_HEADS = (HEADER, "note", "sources")
_SECTIONS = ("classes", "devices")
Entry = dict[str, Any]


@dataclass
class _Gathered:
    classes: dict[str, Entry] = field(default_factory=dict)
    devices: dict[str, Entry] = field(default_factory=dict)
    sources: dict[str, Entry] = field(default_factory=dict)
    home: dict[tuple[str, str], Document] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)


def with_own(documents: Sequence[Document]) -> tuple[Catalogue, list[Problem]]:
    """The shipped catalogue with the entries of these documents, and everything that is wrong with them.

    Each document is a ``*.coax-catalogue.yaml`` file, or what stands below ``catalogue:`` in a design.
    """
    return _read(tuple(_Kept(document) for document in documents))


class _Kept:
    """A document by its words, so that the designs of a firm, which name the same files, share one catalogue."""

    __slots__ = ("_words", "document")

    def __init__(self, document: Document) -> None:
        self.document = document
        self._words = (document.name, document.text, document.span(()).start.index)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Kept) and self._words == other._words

    def __hash__(self) -> int:
        return hash(self._words)


@lru_cache(maxsize=16)
def _read(kept: tuple[_Kept, ...]) -> tuple[Catalogue, list[Problem]]:
    documents = [one.document for one in kept]
    gathered = _Gathered()
    for document in documents:
        _gather(document, gathered)
    if not gathered.problems:
        for document in documents:
            gathered.problems += _mistakes(document, gathered)
    shipped_one = load_catalogue()
    if gathered.problems:
        return shipped_one, sorted(set(gathered.problems))
    problems: list[Problem] = []
    classes = _readable_classes(gathered, problems)
    models = _readable_devices(gathered, problems)
    if problems:
        return shipped_one, sorted(set(problems))
    whole = read_catalogue(
        [*shipped_data(), ("own entries", {"edition": 1, "sources": _sources(gathered), "classes": classes})],
        device_data(),
    )
    owners = {
        name: OwnEntry(home.name, gathered.sources[f"{_OWN} {name}"]["document"])
        for (_, name), home in gathered.home.items()
    }
    return replace(whole, models=models, own=owners), []


def _gather(document: Document, gathered: _Gathered) -> None:
    """The entries of one document, each with what it is like filled in."""
    data = document.data if isinstance(document.data, dict) else {}
    for key in data:
        if key not in (*_HEADS, *_SECTIONS):
            near = nearest_word(str(key), (*_SECTIONS, "sources"))
            expected = "" if near else "it holds 'classes' and 'devices'"
            _tell(gathered, document, (key,), f"a catalogue has no field {str(key)!r}", expected, near)
    for name, entry in _group(data, "sources").items():
        gathered.sources[str(name)] = entry
    for section, known in (("classes", _shipped_classes()), ("devices", _shipped_devices())):
        for name, entry in _group(data, section).items():
            path: Path = (section, name)
            if not isinstance(entry, dict):
                _tell(gathered, document, path, f"nothing is said of {name!r}", "write its figures below it")
            elif name in known or (section == "classes" and _means_something(str(name))):
                what = f"{name!r} is in the catalogue of the program already"
                _tell(gathered, document, path, what, "give your own another name")
            elif (section, name) in gathered.home:
                first = gathered.home[section, name]
                line = first.span(path, of_key=True).start.line
                what = f"{name!r} is there twice, first in {first.name}, line {line}"
                _tell(gathered, document, path, what, "give one of them another name")
            else:
                filled = _filled(document, gathered, path, entry, known)
                if filled is not None:
                    getattr(gathered, section)[name] = filled
                    gathered.home[section, name] = document


def _filled(
    document: Document, gathered: _Gathered, path: Path, entry: Mapping[str, Any], known: Mapping[str, Entry]
) -> Entry | None:
    """An entry with what it is like filled in, and with one source for all that it states itself."""
    own = {key: value for key, value in entry.items() if key not in ("like", "source")}
    base: Entry = {}
    if "like" in entry:
        if entry["like"] not in known:
            near = nearest_word(str(entry["like"]), known)
            expected = "" if near else "name an entry of the program's catalogue"
            _tell(gathered, document, (*path, "like"), f"there is no {entry['like']!r}", expected, near, of_key=False)
            return None
        base = {key: value for key, value in known[entry["like"]].items() if key not in _NOT_INHERITED}
    elif lacking := [key for key in _needed(str(path[0])) if key not in own]:
        what = f"{path[1]!r} has no {in_quotes(lacking, 'or')}"
        near = "series 6" if path[0] == "classes" else "2-way splitter"
        _tell(gathered, document, path, what, f"state all of it, or say 'like: {near}' and only what differs")
        return None
    named_source = entry.get("source", _NOTHING_STATED)
    if not isinstance(named_source, str) or not named_source.strip():
        what = f"{shown(document, (*path, 'source'), named_source)} cannot stand for 'source'"
        _tell(gathered, document, (*path, "source"), what, "name the document in words", of_key=False)
        return None
    source = f"{_OWN} {path[1]}"
    gathered.sources[source] = {"document": named_source.strip(), "confidence": STATED}
    if isinstance(own.get("attenuation"), dict):
        own["attenuation"] = {
            "kind": AttenuationKind.TYPICAL.value,
            "temperature": "20 °C",
            "spread": {"low": "0 %", "high": "0 %"},
            **own["attenuation"],
        }
    stated = dict.fromkeys((key for key in own if key not in _NO_FIGURES), source)
    for key in ("paths", "isolations", "power paths"):
        if isinstance(own.get(key), list):
            own[key] = [_with_sources(one, source) for one in own[key]]
    named = entry.get("sources") if isinstance(entry.get("sources"), dict) else {}
    own.pop("sources", None)
    sources = {**base.get("sources", {}), **stated, **(named or {})}
    description = own.get("description", base.get("description", f"{path[1]}, as its data sheet says"))
    return {**base, "description": description, **own, "sources": sources}


def _needed(section: str) -> list[str]:
    """What an entry that is like no other has to state; sources and the like are filled in."""
    kind = {"classes": "class", "devices": "device"}[section]
    return [key for key in _schema()["$defs"][kind]["required"] if key not in ("description", "sources")]


def _with_sources(path: Any, source: str) -> Any:
    """A path through a device whose figures all have the entry's source; one figure stands for all three bounds."""
    if not isinstance(path, dict):
        return path
    figures = {key: path.get(key, path.get("nominal")) for key in ("low", "nominal", "high")}
    filled = {**path, **{key: value for key, value in figures.items() if value is not None}}
    if "sources" not in filled:
        filled["sources"] = {key: source for key in ("low", "nominal", "high", "passes") if key in filled}
    return filled


def _mistakes(document: Document, gathered: _Gathered) -> list[Problem]:
    """What the schema of catalogues says of a document's entries, filled in."""
    here = {
        section: {name: entry for name, entry in getattr(gathered, section).items()
                  if gathered.home[section, name] is document}
        for section in _SECTIONS
    }  # fmt: skip
    data = {"edition": 1, "sources": gathered.sources, **{key: value for key, value in here.items() if value}}
    return plain_problems(replace(document, data=data), _schema()) if len(data) > 2 else []


def _readable_classes(gathered: _Gathered, problems: list[Problem]) -> dict[str, Entry]:
    for name in gathered.classes:
        home = gathered.home["classes", name]
        try:
            made = read_catalogue(
                [*shipped_data(), ("own", {"edition": 1, "sources": _sources(gathered),
                                           "classes": {name: gathered.classes[name]}})]
            ).every_class[name]  # fmt: skip
            freqs_hz, losses = made.attenuation.published.points
        except CatalogueError as error:
            problems.append(_at(home, ("classes", name), str(error).partition(f"{name}: ")[2] or str(error)))
            continue
        at: Path = ("classes", name, "attenuation", "table")
        if not 0 < made.velocity_factor <= 1:
            what = f"{made.velocity_factor:.0%} of the velocity of light cannot be"
            problems.append(_at(home, ("classes", name, "velocity"), what, "write 85 % or what the data sheet says"))
        elif len(freqs_hz) < 2:
            problems.append(_at(home, at, "a table of one point says nothing between frequencies", "write two or more"))
        elif any(second <= first for first, second in pairwise(losses)):
            problems.append(_at(home, at, "the attenuation does not rise with the frequency", "look at the data sheet"))
    return gathered.classes


def _readable_devices(gathered: _Gathered, problems: list[Problem]) -> dict[str, DeviceEntry]:
    found: dict[str, DeviceEntry] = {}
    sources = {key: Source(**entry) for key, entry in _sources(gathered).items()}
    for name, entry in gathered.devices.items():
        home = gathered.home["devices", name]
        try:
            made = read_device(name, Fields(f"devices: {name}", entry), sources)
        except CatalogueError as error:
            problems.append(_at(home, ("devices", name), str(error).partition(f"{name}: ")[2] or str(error)))
            continue
        found[name] = made
        too_good = _too_good(made)
        if too_good:
            problems.append(_at(home, ("devices", name), too_good, "look at the data sheet"))
    return found


def _too_good(made: DeviceEntry) -> str:
    """A passive part that loses less than dividing the power takes."""
    if made.kind != "splitter" or made.ways is None or not made.is_passive or made.variant == "unbalanced":
        return ""
    least = min((path.loss.low_db for path in made.paths), default=ideal_split_db(made.ways))
    ideal_db = ideal_split_db(made.ways)
    if least >= ideal_db - 0.02:
        return ""
    return f"it loses {least:g} dB, and dividing alone takes {ideal_db:.2f} dB"


def _sources(gathered: _Gathered) -> dict[str, Entry]:
    shipped_sources = {key: entry for _, data in shipped_data() for key, entry in _group(data, "sources").items()}
    for data in _device_files().values():
        shipped_sources.update(_group(data, "sources"))
    return {**shipped_sources, **gathered.sources}


@cache
def _device_files() -> Mapping[str, Any]:
    return {kind: read() for kind, read in device_data().items()}


@cache
def _shipped_classes() -> Mapping[str, Entry]:
    return {name: entry for _, data in shipped_data() for name, entry in _group(data, "classes").items()}


@cache
def _shipped_devices() -> Mapping[str, Entry]:
    return {
        name: dict(fields.plain())
        for data in _device_files().values()
        for written, entry in _group(data, "devices").items()
        for name, fields in members(written, Fields(written, entry))
    }


def _means_something(name: str) -> bool:
    """Whether a name is a word of the catalogue already, such as another spelling."""
    from coaxwright.catalogue.cable_types import CableType

    return isinstance(load_catalogue().cable_type(name), CableType)


@cache
def _schema() -> dict[str, Any]:
    text = (shipped("schemas") / _SCHEMA).read_text(encoding="utf-8")
    return json.loads(text)  # type: ignore[no-any-return]


def _group(data: Any, key: str) -> Mapping[str, Any]:
    found = data.get(key) if isinstance(data, dict) else None
    return found if isinstance(found, dict) else {}


def _tell(
    gathered: _Gathered, document: Document, path: Path, what: str, expected: str = "", near: str | None = None,
    *, of_key: bool = True,
) -> None:  # fmt: skip
    span = document.span(path, of_key=of_key)
    gathered.problems.append(Problem(document.name, span, what, expected, near or ""))


def _at(document: Document, path: Path, what: str, expected: str = "") -> Problem:
    return Problem(document.name, document.span(path, of_key=len(path) == 2 or not document.has(path)), what, expected)


def header_problems(document: Document) -> Iterator[Problem]:
    """What a catalogue file lacks at its top."""
    data = document.data
    if not isinstance(data, dict) or data.get(HEADER) != 1 or isinstance(data.get(HEADER), bool):
        start = document.span(()).start
        span = document.span((HEADER,)) if document.has((HEADER,)) else Span(start, start)
        what = "this is not a catalogue of this format"
        yield Problem(document.name, span, what, f"a catalogue begins with '{HEADER}: 1'")
