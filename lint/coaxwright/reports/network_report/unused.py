"""What a design describes and nothing in it makes use of."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from coaxwright.design.composition import Composition
from coaxwright.design.units.references import Sections, tags_in, with_full_tags
from coaxwright.network import Network
from coaxwright.network.tags import in_tag_order
from coaxwright.reports.network_report.parts import ReadUnit, Unused
from coaxwright.source import Document

_NAMED = {"places": "place", "raceways": "raceway"}
"""Sections whose things are there to be named by others."""


def read_units(document: Document) -> tuple[ReadUnit, ...]:
    """The repeated units, in tag order."""
    origins = document.origins.values() if isinstance(document, Composition) else ()
    likes = {origin.instance.name: origin.instance.typical for origin in origins}
    return tuple(ReadUnit(tag, like) for tag, like in in_tag_order(likes).items())


def unused(document: Document, network: Network) -> Iterator[Unused]:
    """Typical units that no unit is like, units that no cable leads to, places and raceways that nothing names."""
    units = {unit.tag: unit.like for unit in read_units(document)}
    likes = set(units.values())
    yield from (Unused("typical unit", tag) for tag in in_tag_order(_typical(document)) if tag not in likes)
    joined = _joined_units(document, network)
    yield from (Unused("unit", tag) for tag in units if tag not in joined)
    data = document.data if isinstance(document.data, dict) else {}
    named = _named(data)
    for section, kind in _NAMED.items():
        things = data.get(section)
        if isinstance(things, dict):
            yield from (Unused(kind, tag) for tag in in_tag_order(things) if (section, tag) not in named)


def _typical(document: Document) -> dict[str, object]:
    """The typical units of all files."""
    drawn = document.drawn if isinstance(document, Composition) else None
    found: dict[str, object] = {}
    for file in (drawn.main, *drawn.parts) if drawn is not None else ():
        written = file.data.get("typical") if isinstance(file.data, dict) else None
        found.update(written if isinstance(written, dict) else {})
    return found


def _joined_units(document: Document, network: Network) -> set[str]:
    """The units that have an end of a cable whose other end is elsewhere."""
    joined: set[str] = set()
    for link in network.cables.values():
        instances = [document.instance(end.device.path) for end in link.ends if end.device is not None]
        names = [instance.name if instance is not None else "" for instance in instances]
        if len(set(names)) > 1:
            joined.update(name for name in names if name)
    return joined


def _named(data: Mapping[str, object]) -> set[tuple[str, str]]:
    """Every thing that another thing names, by section and tag."""
    named: set[tuple[str, str]] = set()
    for section, tags in tags_in().items():
        things = data.get(section)
        for tag, thing in things.items() if isinstance(things, dict) else ():

            def note(written: str, sections: Sections, own: tuple[str, str] = (section, tag)) -> str:
                named.update((section, written) for section in sections if (section, written) != own)
                return written

            with_full_tags(thing, tags, note)
    return named
