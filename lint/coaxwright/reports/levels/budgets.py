"""What the demarcation point has to be, where the design does not state it."""

from __future__ import annotations

from coaxwright.analysis.budget import Bound, Budget, HeldLevel, budget
from coaxwright.design.sentences import frequency, level_unit
from coaxwright.reports.instances import units as ranges
from coaxwright.reports.levels.gather import ServiceLevels
from coaxwright.reports.levels.units import level_figure
from coaxwright.reports.network_report.page import Page

FEW = 6
"""Of more frequencies the lowest and the highest are told."""


def budgets(service: ServiceLevels) -> tuple[Budget, ...]:
    """The budget of a service at the frequencies where losses are known and levels are not."""
    held = (
        HeldLevel(row.tag, point.freq_hz, point.loss_db, point.low_dbmv, point.high_dbmv)
        for row in service.outlets
        for point in row.points
        if point.loss_db is not None and point.level_dbmv is None
    )
    return budget(held, upstream=service.direction == "up")


def handoff(page: Page, service: ServiceLevels) -> None:
    """Write what the demarcation point has to be; nothing where it is stated."""
    found = budgets(service)
    if not found:
        return
    page.gap()
    if service.direction == "down":
        page.paragraph("what has to come in for every outlet to be inside its window, hot and cold", 2)
    else:
        page.paragraph("what is sure to arrive at the demarcation point when the modems send their most", 2)
    told = found if len(found) <= FEW else (found[0], found[-1])
    page.table(
        [(frequency(budget.freq_hz), f"{_words(budget, service)}{_without(budget, service)}") for budget in told],
        indent=4,
    )


def _words(budget: Budget, service: ServiceLevels) -> str:
    unit = level_unit(service.unit)
    least, most = budget.least, budget.most

    def at(bound: Bound) -> str:
        return level_figure(bound.level_dbmv, service.unit)

    if service.direction == "up":
        assert most is not None
        return f"{at(most)} {unit}, from {most.tag}"
    if least is None:
        assert most is not None
        return f"at most {at(most)} {unit}, which {most.tag} takes"
    if most is None:
        return f"at least {at(least)} {unit}, which {least.tag} needs"
    if not budget.is_possible:
        return f"no level does: {least.tag} needs {at(least)} {unit}, and {most.tag} takes {at(most)} {unit} at most"
    return f"{at(least)} {unit}, which {least.tag} needs, to {at(most)} {unit}, which {most.tag} takes"


def _without(budget: Budget, service: ServiceLevels) -> str:
    """The outlets that could not be counted."""
    lost = [
        row.tag
        for row in service.outlets
        if any(point.freq_hz == budget.freq_hz and point.loss_db is None for point in row.points)
    ]
    return f"; without {ranges(lost)}, where the loss is not known" if lost else ""
