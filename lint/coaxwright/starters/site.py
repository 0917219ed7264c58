"""A small site as a commented design, for the kind of building and the services that somebody has.

The text is one template with three marks. A line that ends in ``#: off-air`` is there where that service is (``off-air
only``: with no other, ``both``: with both). ``<6 ft|1.8 m>`` is the one or the other by the system of units, and
``$first`` a word by the kind of building.
"""

from __future__ import annotations

import json
import re
from collections.abc import Collection, Iterator, Mapping
from enum import StrEnum
from pathlib import Path
from string import Template

_TEMPLATE = Path(__file__).with_name("site.yaml.template")
_ONLY = re.compile(r"\s*#: ([a-z -]+)$")
_EITHER_UNIT = re.compile(r"<([^|<>]+)\|([^|<>]+)>")
_PLAIN = re.compile(r"[A-Za-z](?:[A-Za-z0-9 ,.()/'-]*[A-Za-z0-9.)])?")
_HALVES = "".join(map(chr, range(0xD800, 0xE000)))
"""Halves of surrogate pairs, left of words that are not UTF-8: no escape is for them, and no design may hold them."""
_NOT_TEXT = ("true", "false", "null")


class Dwelling(StrEnum):
    """Kinds of building."""

    ONE_FAMILY = "one-family"
    TWO_FAMILY = "two-family"
    MULTIFAMILY = "multifamily"
    COMMERCIAL = "commercial"


class Incoming(StrEnum):
    """Services that come in."""

    BROADBAND = "broadband"
    OFF_AIR = "off-air"


class Units(StrEnum):
    """Systems of units."""

    US = "us"
    METRIC = "metric"


_HOUSE = {"building": "house", "above": "attic", "above_exposure": "attic", "jacket": "indoor"}
_LARGE = {"above_exposure": "indoors", "jacket": "riser"}
_WORDS: Mapping[Dwelling, Mapping[str, str]] = {
    Dwelling.ONE_FAMILY: {
        **_HOUSE,
        "untitled": "Untitled one-family dwelling",
        "occupancy": "one-family dwelling",
        "first": "living room",
        "second": "bedroom",
    },
    Dwelling.TWO_FAMILY: {
        **_HOUSE,
        "untitled": "Untitled two-family dwelling",
        "occupancy": "two-family dwelling",
        "first": "lower flat",
        "second": "upper flat",
    },
    Dwelling.MULTIFAMILY: {
        **_LARGE,
        "untitled": "Untitled block of flats",
        "occupancy": "multifamily dwelling",
        "building": "flats",
        "above": "corridor",
        "first": "flat 1",
        "second": "flat 2",
    },
    Dwelling.COMMERCIAL: {
        **_LARGE,
        "untitled": "Untitled shop",
        "occupancy": "commercial",
        "building": "shop",
        "above": "corridor",
        "first": "sales floor",
        "second": "office",
    },
}


def starter(
    dwelling: Dwelling, ruleset: str, incoming: Collection[Incoming], title: str | None = None, units: Units = Units.US
) -> str:
    """The text of a design that is clear under review as it stands; ``ruleset`` such as ``us 2023``."""
    words = dict(_WORDS[dwelling])
    words["title"] = _title(title or words["untitled"])
    words["ruleset"] = ruleset
    lines = _lines(_TEMPLATE.read_text(encoding="utf-8").splitlines(), _conditions(incoming))
    text = "".join(f"{line}\n" for line in lines)
    text = _EITHER_UNIT.sub(lambda found: found.group(2 if units is Units.METRIC else 1), text)
    return Template(text).substitute(words)


def _conditions(incoming: Collection[Incoming]) -> set[str]:
    """What the marks of the template may say, of these services, for a line to be there."""
    holding = {service.value for service in incoming}
    if len(holding) == 1:
        holding |= {f"{service} only" for service in holding}
    else:
        holding.add("both")
    return holding


def _lines(template: list[str], conditions: set[str]) -> Iterator[str]:
    for line in template:
        mark = _ONLY.search(line)
        if mark is None:
            yield line
        elif mark.group(1) in conditions:
            yield line[: mark.start()]


def _title(title: str) -> str:
    """A title as YAML writes it: in quotes, unless it cannot be taken for anything but words."""
    if _PLAIN.fullmatch(title) and title not in _NOT_TEXT:
        return title
    quoted = json.dumps(title, ensure_ascii=False)
    return "".join(text if text.isprintable() or text in _HALVES else _escaped(text) for text in quoted)


def _escaped(character: str) -> str:
    number = ord(character)
    return f"\\u{number:04x}" if number <= 0xFFFF else f"\\U{number:08x}"
