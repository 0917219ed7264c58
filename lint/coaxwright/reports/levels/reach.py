"""How long the last run to each outlet could be in each class of cable, and the smallest class that would do."""

from __future__ import annotations

from collections.abc import Sequence
from math import floor

from coaxwright.analysis.longest import LongestRuns
from coaxwright.design.quantities import Length, in_feet, in_meters
from coaxwright.design.sentences import listed
from coaxwright.reports.levels.alike import merge_units
from coaxwright.reports.levels.gather import OutletRow
from coaxwright.reports.levels.grid import Column, table
from coaxwright.reports.levels.windows import CLASS_RULE
from coaxwright.reports.network_report.page import Page


def runs(page: Page, rows: Sequence[OutletRow]) -> None:
    """Write how long the last run to each outlet could be."""
    known = {row.tag: row.longest for row in rows if row.longest is not None}
    if not known:
        return
    page.gap()
    page.paragraph("how long the last run could be inside the window, and the smallest sufficient class", 2)
    classes = list(dict.fromkeys(name for longest in known.values() for name in longest.by_class))

    def told(row: OutletRow) -> tuple[str, ...]:
        longest = known[row.tag]
        reach = (_at_most(longest, name) for name in classes)
        return (_own(row, longest), _now(longest), *reach, longest.smallest or "none")

    once = merge_units([row for row in rows if row.tag in known], told)
    cells = list(zip(*(told(alike.first) for alike in once), strict=True))
    heads = ["run", "now", *classes, "smallest sufficient"]
    table(
        page,
        "outlet",
        [alike.first.tag for alike in once],
        [
            Column(head, column, to_the_right=0 < index < len(heads) - 1)
            for index, (head, column) in enumerate(zip(heads, cells, strict=True))
        ],
        indent=4,
        notes=[alike.also for alike in once],
    )
    held = [name for name in classes if any(name in longest.held for longest in known.values())]
    if held:
        page.gap()
        page.paragraph(
            f"{listed(held)} may be no longer than that for this service, whatever the level ({CLASS_RULE})", 4, hang=2
        )


def _own(row: OutletRow, longest: LongestRuns) -> str:
    """The run, without the unit that its outlet belongs to as well."""
    return longest.cable.tag.removeprefix(f"{row.unit}/") if row.unit else longest.cable.tag


def _now(longest: LongestRuns) -> str:
    return _length(longest.length_m, longest, 1)


def _at_most(longest: LongestRuns, name: str) -> str:
    """Whole feet or meters, never more than would do."""
    most_m = longest.by_class.get(name)
    if most_m is None:
        return "?"
    unit_m = 1.0 if _is_metric(longest) else 0.3048
    return _length(floor(most_m / unit_m + 1e-9) * unit_m, longest, 0)


def _length(length_m: float, longest: LongestRuns, decimals: int) -> str:
    return (in_meters(length_m, decimals) if _is_metric(longest) else in_feet(length_m / 0.3048, decimals)).text


def _is_metric(longest: LongestRuns) -> bool:
    length = longest.cable.length
    assert isinstance(length, Length)  # of a run without one nothing is told
    return length.is_metric
