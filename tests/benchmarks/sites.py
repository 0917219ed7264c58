"""The designs that are measured: the README's example, with more findings, many times over, and as one large site."""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path

EXAMPLE = Path(__file__).parents[2] / "examples" / "tern-cottage"
CORRECTED = (EXAMPLE / "corrected.coax.yaml").read_text(encoding="utf-8")
AS_DRAWN = (EXAMPLE / "as-drawn.coax.yaml").read_text(encoding="utf-8")
_RENAMED = ("buildings", "places", "services", "devices", "cables", "bonding")


def with_more_findings(count: int) -> str:
    """The example as it was first drawn, with cables that lead nowhere."""
    more = "".join(f"  X-{number}: {{from: SP1, to: NOWHERE-{number}, type: series 6}}\n" for number in range(count))
    return AS_DRAWN.replace("\ncables:\n", f"\ncables:\n{more}", 1)


def write_many(folder: Path, count: int) -> None:
    """So many small designs in folders of two hundred."""
    for number in range(count):
        home = folder / f"{number // 200:03}"
        home.mkdir(exist_ok=True)
        text = CORRECTED.replace("job: QH-07", f"job: QH-{number}")
        (home / f"{number:05}.coax.yaml").write_text(text, encoding="utf-8")


def site_of(houses: int) -> str:
    """One site that repeats the house of the example: fifteen devices to a house."""
    sections: dict[str, list[str]] = {}
    head = CORRECTED[: CORRECTED.index("buildings:")]
    body = CORRECTED[CORRECTED.index("buildings:") :]
    pieces = re.split(r"(?m)^([a-z]+):\n", body)[1:]
    own = sorted(_names(pieces), key=len, reverse=True)
    pattern = re.compile(r"(?<!exposure: )(?<!cable )(?<![\w-])(" + "|".join(map(re.escape, own)) + r")(?![\w-])")
    for house in range(houses):
        for section, content in zip(pieces[::2], pieces[1::2], strict=True):
            sections.setdefault(section, []).append(
                pattern.sub(rf"\1-{house}", content) if section in _RENAMED else content
            )
    return head + "".join(
        f"{section}:\n{''.join(contents)}" if section in _RENAMED else f"{section}:\n{contents[0]}"
        for section, contents in sections.items()
    )


def _names(pieces: Sequence[str]) -> set[str]:
    """Every tag, place, building and service that a house has of its own."""
    names: set[str] = set()
    for content in pieces[1::2]:
        names |= set(re.findall(r"(?m)^  ([\w][\w -]*?):", content))
    return names


def tree_of(devices: int) -> str:
    """One service over a tree of four-way splitters with an outlet on every leg that splits no further."""
    lines = ["coaxwright: 1", "title: a tree (invented)", "basis: {rulesets: [trade 1]}", "services:"]
    lines.append("  net: {kind: cable broadband, from: N-0, down: {band: 54 to 1002 MHz}}")
    parts, cables = ["  N-0: {kind: coax drop}"], ["  C-1: {from: N-0, to: N-1.in, type: series 11, length: 90 ft}"]
    splitters = max(1, (devices - 2) // 4)
    for number in range(1, splitters + 1):
        parts.append(f"  N-{number}: {{kind: splitter, ways: 4}}")
    count = splitters
    for number in range(1, splitters + 1):
        for leg in range(1, 5):
            child = 4 * (number - 1) + leg + 1
            port = f"N-{child}.in" if child <= splitters else f"N-{child}"
            if child > splitters:
                parts.append(f"  N-{child}: {{kind: outlet, serves: [net]}}")
                count += 1
            length = 20 + child % 70
            cables.append(
                f"  C-{child}: {{from: N-{number}.out-{leg}, to: {port}, type: series 6, length: {length} ft}}"
            )
    return "\n".join([*lines, "devices:", *parts, "cables:", *cables, ""])
