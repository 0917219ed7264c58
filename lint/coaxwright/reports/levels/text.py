"""The levels as text: what each outlet gets, where the loss goes, how long a run may be, what a modem has to send."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coaxwright.design.sentences import count, decibels, frequency, level_unit, listed
from coaxwright.network.service_overlap import IN_HOME
from coaxwright.reports.instances import units as ranges
from coaxwright.reports.levels.alike import AlikeRows, merge_units
from coaxwright.reports.levels.budgets import handoff
from coaxwright.reports.levels.chains import chain
from coaxwright.reports.levels.gather import OutletRow, Point, ServiceLevels, SiteLevels
from coaxwright.reports.levels.grid import Column, table
from coaxwright.reports.levels.isolation_table import between
from coaxwright.reports.levels.reach import runs
from coaxwright.reports.levels.solved import doubtful
from coaxwright.reports.levels.units import level_figure, loss_figure
from coaxwright.reports.network_report.page import Page

FEW = 6
"""So many frequencies are shown with what a level can be; of more only the usual level is."""
_MOST_CAUSES = 8
_DIRECTIONS = {"down": "downstream", "up": "upstream"}
_NOTE = (
    "A level is the usual one, with what it can be between the coldest and the hottest day and within the spread of "
    "published figures in brackets. Margin is what the usual level has left inside the window on those days. Losses "
    "are added in decibels; where that is not enough, it is said."
)


def render(levels: SiteLevels, width: int) -> str:
    """The page, within ``width`` columns."""
    page = Page(width)
    page.paragraph(f"Levels of {levels.file}", hang=2)
    sheet = (
        levels.title,
        f"sheet {levels.sheet}" if levels.sheet else "",
        f"revision {levels.revision}" if levels.revision else "",
    )
    page.paragraph(", ".join(part for part in sheet if part), hang=2)
    for supposition in levels.suppositions:
        page.paragraph(f"supposing {supposition}; the file is not changed", hang=2)
    for service in levels.services:
        _service(page, service)
    if not levels.services:
        page.gap()
        page.paragraph("There is no service whose levels could be told.")
    if levels.left_out:
        page.gap()
    for left in levels.left_out:
        page.paragraph(f"{left.tag} is left out: {left.because}.", hang=2)
    if levels.services:
        page.gap()
        page.paragraph(_NOTE)
    for words in _own_words(levels):
        page.paragraph(words)
    return page.text()


def _own_words(levels: SiteLevels) -> Iterator[str]:
    for author_value in levels.author_values:
        yield f"The figures of {author_value.name} are those of {author_value.document}, stated in {author_value.file}."


def _service(page: Page, service: ServiceLevels) -> None:
    if service.kind == IN_HOME:
        page.heading(f"{service.tag}, from station to station")
        page.paragraph(service.kind, 2)
        between(page, service)
        return
    page.heading(f"{service.tag}, {_DIRECTIONS[service.direction]}")
    stated = f" with {service.handoff}" if service.handoff else ""
    way = "from" if service.direction == "down" else "to"
    page.paragraph(f"{service.kind} {way} {service.start}{stated}", 2, hang=2)
    if service.window:
        words = "required at the outlets" if service.direction == "down" else "a modem sends at most"
        source = f" ({service.source})" if service.source else ""
        page.paragraph(f"{words}: {service.window}{source}", 2, hang=2)
    else:
        page.paragraph(
            "no window is known: the rulesets name none for it, or its channels state no standard", 2, hang=2
        )
    page.gap()
    _table(page, service)
    handoff(page, service)
    worst = _worst(service.outlets)
    if worst is not None:
        chain(page, service, worst)
    if service.direction == "down":
        runs(page, service.outlets)
    between(page, service)
    doubtful(page, service)


def _table(page: Page, service: ServiceLevels) -> None:
    is_levelled, has_few = service.is_levelled, len(service.grid_hz) <= FEW
    unit = level_unit(service.unit) if is_levelled else "lost"
    if not is_levelled and any(point.loss_db is not None for row in service.outlets for point in row.points):
        page.paragraph("no level is known, so the losses on the way are shown", 2, hang=2)
    elif not has_few:
        number = count(len(service.grid_hz), "frequency", "frequencies")
        page.paragraph(f"usual levels at {number}, in {unit}; --as csv gives what they can be", 2, hang=2)
        page.gap()
    usual = {
        (row.tag, point.freq_hz): _usual(point, service, is_levelled) for row in service.outlets for point in row.points
    }
    wide = max((len(text) for text in usual.values()), default=0)
    cells = {
        (row.tag, point.freq_hz): usual[row.tag, point.freq_hz].rjust(wide) + _spread(point, service, has_few)
        for row in service.outlets
        for point in row.points
    }

    def cell(row: OutletRow, freq_hz: float) -> str:
        return cells.get((row.tag, freq_hz), "-".rjust(wide))

    rows = merge_units(
        service.outlets, lambda row: (*(cell(row, hz) for hz in service.grid_hz), _spare(row), row.own_window)
    )
    heads = [frequency(freq_hz) + (f", {unit}" if has_few and is_levelled else "") for freq_hz in service.grid_hz]
    figures = [
        Column(head, [cell(alike.first, freq_hz) for alike in rows])
        for head, freq_hz in zip(heads, service.grid_hz, strict=True)
    ]
    spare = [_spare(alike.first) for alike in rows]
    tags = [alike.first.tag for alike in rows]
    table(
        page,
        "outlet",
        tags,
        [*figures, *([Column("margin", spare)] if any(spare) else ())],
        notes=[_note(alike, service) for alike in rows],
    )
    _explained(page, service, rows)


def _no_figure(service: ServiceLevels, freq_hz: float) -> str:
    """Why it cannot be told how a frequency goes on."""
    tags = service.no_figure[freq_hz]
    return f"no figure says what {listed(tags)} {'does' if len(tags) == 1 else 'do'} at {frequency(freq_hz)}"


def _note(alike: AlikeRows, service: ServiceLevels) -> str:
    own = alike.first.own_window
    words = f"takes {own} itself" if service.direction == "down" else f"sends {own} itself"
    return "; ".join(part for part in (words if own else "", alike.also) if part)


def _usual(point: Point, service: ServiceLevels, is_levelled: bool) -> str:
    if not is_levelled:
        return "?" if point.loss_db is None else loss_figure(point.loss_db.nominal)
    return "?" if point.level_dbmv is None else level_figure(point.level_dbmv.nominal, service.unit)


def _spread(point: Point, service: ServiceLevels, has_few: bool) -> str:
    level = point.level_dbmv
    if level is None or not has_few:
        return ""
    low, high = (level_figure(value, service.unit) for value in (level.low, level.high))
    return "" if low == high else f" ({low} to {high})"


def _explained(page: Page, service: ServiceLevels, rows: Sequence[AlikeRows]) -> None:
    """What the signs in the table stand for."""
    missed = {freq_hz for row in service.outlets for freq_hz in row.missed_hz}
    if missed:
        page.gap()
    if missed - service.no_figure.keys():
        page.paragraph("-  nothing of it comes to this outlet", 2, hang=3)
    for freq_hz in sorted(missed & service.no_figure.keys()):
        page.paragraph(f"-  {_no_figure(service, freq_hz)}", 2, hang=3)
    causes: dict[str, list[str]] = {}
    for row in service.outlets:
        for cause in dict.fromkeys(point.unknown for point in row.points if point.unknown):
            causes.setdefault(cause, []).append(row.tag)
    if not causes:
        return
    page.gap()
    known_to = len([row for row in service.outlets if row.points])
    for cause, tags in list(causes.items())[:_MOST_CAUSES]:
        where = "" if len(tags) == known_to else f" ({ranges(tags)})"
        page.paragraph(f"?  {cause}{where}", 2, hang=3)
    if len(causes) > _MOST_CAUSES:
        page.paragraph(f"   and {len(causes) - _MOST_CAUSES} figures more that are not known", 2, hang=3)


def _spare(row: OutletRow) -> str:
    tightest = row.tightest
    if tightest is None or tightest.spare_db is None:
        return ""
    at = f" at {frequency(tightest.freq_hz)}" if len(row.points) > 1 else ""
    text = f"{abs(tightest.spare_db):.1f}"
    if tightest.spare_db < 0:
        return f"{decibels(-tightest.spare_db) if text == '0.0' else f'{text} dB'} out{at}"
    return f"{text} dB{at}"


def _worst(rows: Sequence[OutletRow]) -> OutletRow | None:
    """The outlet with the least to spare; where that is not known, the one that loses most."""
    spare = {index: db for index, row in enumerate(rows) if (db := _spare_db(row)) is not None}
    if spare:
        return rows[min(spare, key=lambda index: (spare[index], index))]
    lost = {
        index: max(losses) for index, row in enumerate(rows) if row.chain and (losses := list(_losses_db(row)))
    }  # fmt: skip
    if lost:
        return rows[max(lost, key=lambda index: (lost[index], -index))]
    return next((row for row in rows if row.chain), None)


def _spare_db(row: OutletRow) -> float | None:
    return row.tightest.spare_db if row.tightest is not None else None


def _losses_db(row: OutletRow) -> Iterator[float]:
    yield from (point.loss_db.nominal for point in row.points if point.loss_db is not None)
