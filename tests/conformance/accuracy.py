"""How far the product is from published figures: every comparison is noted here, and printed on docs/accuracy.md.

A file of values has the columns quantity, given, expected, unit, allowed, source, confidence; ``given`` holds
``name=value`` pairs, parted by spaces, and ``allowed`` a plain figure in the unit, or per cent of what is expected.
"""

from __future__ import annotations

import csv
from collections import defaultdict
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from decimal import ROUND_UP, Decimal
from pathlib import Path

DATA = Path(__file__).parent / "data"
PAGE = Path(__file__).parents[2] / "docs" / "accuracy.md"
NOTHING = 1e-8
"""Deviations below this are rounding, which differs from one machine to another."""

HEAD = """# How accurate the computed figures are

Every figure below was compared with a published one, or with one that a general-purpose library computes. A deviation
is the largest of its row, rounded up; the tests fail beyond what is allowed. Where a document prints few digits, most
of a deviation is its own rounding. `computed apart` is a figure that was computed outside the project by another way;
`from memory` guards against slips and proves nothing. The tests write the page:
`COAXWRIGHT_WRITE_ACCURACY=1 pytest tests/conformance`.

| topic | document | values | largest deviation | allowed |
|---|---|---|---|---|
"""


@dataclass(frozen=True)
class Note:
    topic: str
    document: str
    deviation: float
    unit: str
    allowed: float


NOTES: list[Note] = []
"""Of this run of the tests."""


def note(topic: str, document: str, deviation: float, unit: str, allowed: float) -> None:
    """Notes one comparison, and asserts that it is within what is allowed."""
    NOTES.append(Note(topic, document, deviation, unit, allowed))
    assert deviation <= allowed, f"{document}: off by {deviation:g} {unit}, {allowed:g} {unit} is allowed"


def near(topic: str, document: str, computed: float, expected: float, unit: str, allowed: float) -> None:
    """Notes the difference of two figures; with the unit ``%`` in per cent of the expected one."""
    difference = abs(computed - expected)
    note(topic, document, 100 * difference / abs(expected) if unit == "%" else difference, unit, allowed)


def rows(name: str) -> list[dict[str, str]]:
    return list(csv.DictReader((DATA / name).read_text(encoding="utf-8").splitlines()))


def named(row: Mapping[str, str]) -> str:
    return f"{row['quantity']}-{row['given']}-{row['expected']}"


def compare(topic: str, row: Mapping[str, str], quantities: Mapping[str, Callable[..., float]]) -> None:
    """Computes the quantity of a row from what is given, and compares it."""
    given = {name: float(value) for name, value in (pair.split("=") for pair in row["given"].split())}
    computed, expected = quantities[row["quantity"]](**given), float(row["expected"])
    figure, _, unit = row["allowed"].partition(" ")
    near(topic, row["source"], computed, expected, unit or row["unit"], float(figure))


def rounded_up(value: float) -> str:
    """Two significant digits, upwards, in plain writing; the same whatever the last bits of the value are."""
    if value < NOTHING:
        return "0"
    decimal = Decimal(f"{value:.6g}")
    step = Decimal(1).scaleb(decimal.adjusted() - 1)
    return f"{decimal.quantize(step, rounding=ROUND_UP).normalize():f}"


def page(notes: list[Note]) -> str:
    """docs/accuracy.md; a row for each topic, document and unit, the allowed figure the widest of the row."""
    groups: defaultdict[tuple[str, str, str], list[Note]] = defaultdict(list)
    for one in notes:
        groups[one.topic, one.document, one.unit].append(one)
    lines = []
    for (topic, document, unit), group in sorted(groups.items()):
        largest, allowed = max(one.deviation for one in group), max(one.allowed for one in group)
        cells = (topic, document, str(len(group)), f"{rounded_up(largest)} {unit}", f"{Decimal(str(allowed)):f} {unit}")
        lines.append("| " + " | ".join(map(str.rstrip, cells)) + " |\n")
    return HEAD + "".join(lines)
