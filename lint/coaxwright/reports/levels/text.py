"""The levels as text: what each outlet gets, where the loss goes, how long a run may be, what a modem has to send."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coaxwright.checks.phrasing import decibels, frequency, level_number, level_unit
from coaxwright.design.quantities import Length, in_feet, in_metres
from coaxwright.reports.excerpt import columns
from coaxwright.reports.levels.gather import OutletRow, Point, ServiceLevels, SiteLevels
from coaxwright.reports.understood_page import Page

_GAP = 2
_WIDEST_TAG = 18
_DIRECTIONS = {"down": "towards the outlets", "up": "from the outlets"}
_NOTES = (
    "A level is the usual one, with what it can be between the coldest and the hottest day and within the spread of "
    "published figures in brackets. Losses are added in decibels.",
)


def render(levels: SiteLevels, width: int, outlet: str | None = None) -> str:
    """The page; ``outlet`` narrows the loss chains to one outlet, else the one with the least to spare is shown."""
    page = Page(width)
    page.paragraph(f"Levels of {levels.file}")
    sheet = ", ".join(
        part
        for part in (
            levels.title,
            f"sheet {levels.sheet}" if levels.sheet else "",
            f"revision {levels.revision}" if levels.revision else "",
        )
        if part
    )
    page.paragraph(sheet)
    for supposition in levels.suppositions:
        page.paragraph(f"supposing {supposition}; the file is not changed")
    if not levels.services:
        page.gap()
        page.paragraph("No service with frequencies is wanted at any outlet.")
    for service in levels.services:
        _service(page, service, outlet)
    page.gap()
    for note in (*_NOTES, *_own_words(levels)):
        page.paragraph(note)
    return page.text()


def _own_words(levels: SiteLevels) -> Iterator[str]:
    for one in levels.own_figures:
        yield f"The figures of {one.name} are those of {one.document}, stated in {one.file}."


def _service(page: Page, service: ServiceLevels, outlet: str | None) -> None:
    page.heading(f"{service.tag}, {_DIRECTIONS[service.direction]}")
    stated = f" with {service.handoff}" if service.handoff else ""
    page.paragraph(
        f"{service.kind} {'from' if service.direction == 'down' else 'to'} {service.start}{stated}", 2, hang=2
    )
    if service.window:
        words = "wanted at the outlets" if service.direction == "down" else "a modem sends at most"
        page.paragraph(f"{words}: {service.window} ({service.source})", 2, hang=2)
    else:
        page.paragraph(
            "no window is known: the rulesets name none for it, or its channels state no standard", 2, hang=2
        )
    rows = [row for row in service.outlets if outlet is None or row.tag == outlet]
    _table(page, service, rows)
    worst = _worst(rows)
    if worst is not None:
        _chain(page, service, worst)
    if service.direction == "down":
        _runs(page, rows)


def _table(page: Page, service: ServiceLevels, rows: Sequence[OutletRow]) -> None:
    unit = level_unit(service.unit)
    tags = max((min(columns(row.tag), _WIDEST_TAG) for row in rows), default=6)
    tags = max(tags, len("outlet"))
    cells = {(row.tag, point.freq_hz): _cell(point, service) for row in rows for point in row.points}
    widest = max((len(cell) for cell in cells.values()), default=10)
    widest = max(widest, *(len(f"{frequency(freq_hz)}, {unit}") for freq_hz in service.grid_hz))
    spare = max((len(_spare(row)) for row in rows), default=0)
    room = page.width - 2 - tags - _GAP - spare
    across = max(1, room // (widest + _GAP))
    for first in range(0, len(service.grid_hz), across):
        some = service.grid_hz[first : first + across]
        is_last = first + across >= len(service.grid_hz)
        page.gap()
        heads = [f"{frequency(freq_hz)}, {unit}" for freq_hz in some]
        page.lines.append(_line("outlet", tags, heads, widest, "to spare" if is_last else ""))
        for row in rows:
            own = [cells.get((row.tag, freq_hz), "-" if freq_hz in row.missed_hz else "") for freq_hz in some]
            page.lines.append(_line(row.tag, tags, own, widest, _spare(row) if is_last else ""))
    for cause in dict.fromkeys(point.unknown for row in rows for point in row.points if point.unknown):
        page.gap()
        page.paragraph(f"? {cause}", 2, hang=2)


def _line(tag: str, tags: int, cells: Sequence[str], widest: int, end: str) -> str:
    parts = [f"  {tag}{' ' * (tags - columns(tag))}"]
    parts += [f"{cell}{' ' * (widest - len(cell))}" for cell in cells]
    return (" " * _GAP).join((*parts, end)).rstrip()


def _cell(point: Point, service: ServiceLevels) -> str:
    level = point.level_dbmv
    if level is None:
        return "?"
    usual, low, high = (level_number(value, service.unit) for value in (level.nominal, level.low, level.high))
    return usual if low == high else f"{usual} ({low} to {high})"


def _spare(row: OutletRow) -> str:
    tightest = row.tightest
    if tightest is None or tightest.spare_db is None:
        return ""
    at = f" at {frequency(tightest.freq_hz)}" if len(row.points) > 1 else ""
    if tightest.spare_db < 0:
        return f"{decibels(-tightest.spare_db)} out{at}"
    return f"{decibels(tightest.spare_db)}{at}"


def _worst(rows: Sequence[OutletRow]) -> OutletRow | None:
    known = [(row.tightest.spare_db or 0.0, index) for index, row in enumerate(rows) if row.tightest is not None]
    if known:
        return rows[min(known)[1]]
    return next((row for row in rows if row.chain), None)


def _chain(page: Page, service: ServiceLevels, row: OutletRow) -> None:
    """Where the loss goes on the way to one outlet, at the lowest and highest frequency."""
    points = row.points
    if not points or not row.chain:
        return
    ends = [0] if len(points) == 1 else [0, len(points) - 1]
    page.gap()
    page.paragraph(f"where it is lost on the way {'to' if service.direction == 'down' else 'from'} {row.tag}", 2)
    what = max(columns(step.what) for step in row.chain)
    what = max(what, len("together"))
    heads = [frequency(points[index].freq_hz) for index in ends]
    widest = max(9, *map(len, heads))
    page.lines.append(f"    {' ' * what}  {'  '.join(head.rjust(widest) for head in heads)}")
    for step in row.chain:
        figures = [_loss(step.losses_db[index]) for index in ends]
        kind_room = page.width - 4 - what - (widest + 2) * len(ends) - 2
        line = f"    {step.what}{' ' * (what - columns(step.what))}  {'  '.join(one.rjust(widest) for one in figures)}"
        page.lines.append(f"{line}  {step.kind[: max(0, kind_room)]}".rstrip())
    sums = []
    for index in ends:
        loss = points[index].loss_db
        sums.append(_loss(loss.nominal if loss is not None else None))
    page.lines.append(f"    {'together'.ljust(what)}  {'  '.join(one.rjust(widest) for one in sums)}")


def _loss(loss_db: float | None) -> str:
    return "?" if loss_db is None else f"{loss_db + 0.0:.1f} dB"


def _runs(page: Page, rows: Sequence[OutletRow]) -> None:
    """How long the last run to each outlet could be, in each class."""
    known = [row for row in rows if row.longest is not None]
    if not known:
        return
    page.gap()
    page.paragraph("longest last run that still meets the window, at the level ahead of it", 2)
    lines = list(_run_lines(known))
    for label, words in lines:
        page.paragraph(words, 4, label, hang=max(min(columns(one) for one, _ in lines), 4) + 14)


def _run_lines(rows: Sequence[OutletRow]) -> Iterator[tuple[str, str]]:
    for row in rows:
        longest = row.longest
        assert longest is not None
        length = longest.cable.length
        assert isinstance(length, Length)  # of a run without one nothing is told
        is_metric = length.is_metric
        reach = ", ".join(f"{_length(most_m, is_metric)} of {name}" for name, most_m in longest.by_class.items())
        own = _length(longest.length_m, is_metric)
        smallest = longest.smallest
        verdict = f"{smallest} would do" if smallest is not None else "no class does at this length"
        yield f"{row.tag} by {longest.cable.tag}", f"now {own}; {reach}; {verdict}"


def _length(length_m: float, is_metric: bool) -> str:
    return in_metres(length_m, 0).text if is_metric else in_feet(length_m / 0.3048, 0).text
