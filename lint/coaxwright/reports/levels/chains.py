"""Where the loss goes on the way to one outlet, step by step, at the lowest and the highest frequency."""

from __future__ import annotations

from coaxwright.analysis import LossRange
from coaxwright.design.sentences import frequency
from coaxwright.reports.levels.gather import OutletRow, ServiceLevels
from coaxwright.reports.levels.grid import Column, table
from coaxwright.reports.levels.units import loss_figure
from coaxwright.reports.network_report.page import Page


def chain(page: Page, service: ServiceLevels, row: OutletRow) -> None:
    """Write the steps of the way to an outlet, or from it."""
    points = row.points
    if not points or not row.chain:
        return
    ends = [0] if len(points) == 1 else [0, len(points) - 1]
    page.gap()
    page.paragraph(f"loss budget {'to' if service.direction == 'down' else 'from'} {row.tag}", 2)
    sums = [points[index].loss_db for index in ends]
    figures = [
        Column(
            frequency(points[index].freq_hz),
            [
                *(_figure(step.losses_db[index], whole) for step in row.chain),
                _figure(whole.nominal if whole else None, whole),
            ],
            to_the_right=True,
        )
        for index, whole in zip(ends, sums, strict=True)
    ]
    labels = [*(step.what for step in row.chain), "total"]
    table(page, "", labels, figures, indent=4, tails=[*(step.kind for step in row.chain), ""])


def _figure(loss_db: float | None, whole: LossRange | None) -> str:
    """A figure that is missing though the whole is known is that of a way which the frequency does not come."""
    if loss_db is None:
        return "?" if whole is None else "-"
    return loss_figure(loss_db)
