"""The levels as a drawing: for each service its levels over frequency with the window shaded, and where loss goes."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.reports.levels.alike import AlikeRows, merge_units
from coaxwright.reports.levels.drawing import FAINT_INK, SIDE, WIDTH, fitted, text
from coaxwright.reports.levels.gather import OutletRow, ServiceLevels, SiteLevels
from coaxwright.reports.levels.svg_bars import bars, bars_height
from coaxwright.reports.levels.svg_plot import PLOT_HEIGHT, PLOT_LEFT, PLOT_TOP, plot
from coaxwright.reports.levels.units import level_figure

MOST_OUTLETS = 12
"""More lines than a reader can tell apart; the outlets with the least to spare are drawn."""
_LINE = 18
_BELOW = 66
"""Room below a plot for its frequencies, and to the next service."""
_NOTE = "Usual levels; the shaded line is what the tightest outlet can get. Losses are added in decibels."


def render(levels: SiteLevels) -> str:
    """One SVG document."""
    head = [levels.file, *(f"supposing {supposition}" for supposition in levels.suppositions)]
    blocks = [(service, _drawn(service)) for service in levels.services]
    foot = [f"{left.tag} is left out: {left.because}." for left in levels.left_out]
    if blocks:
        has_alike = any(alike.others for _, drawn in blocks for alike in drawn)
        foot.append(_NOTE + (" +1 stands for one more unit that comes out alike." if has_alike else ""))
    top = 34 + _LINE * len(head) + 10
    heights = [_height(service, drawn) for service, drawn in blocks]
    bottom = top + (sum(heights) or 40)
    height = bottom + _LINE * len(foot) + 12
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}" height="{height}" viewBox="0 0 {WIDTH} {height}" '
        'font-family="sans-serif" font-size="12" role="img">',
        f"<title>{fitted(f'Levels: {levels.title}', 10_000)}</title>",
        f'<rect width="{WIDTH}" height="{height}" fill="#ffffff"/>',
        text(SIDE, 32, f"Levels: {levels.title}", size=17, weight="bold"),
        *(text(SIDE, 34 + _LINE * number, one, fill=FAINT_INK) for number, one in enumerate(head, 1)),
    ]
    if not blocks:
        parts.append(text(SIDE, top + 20, "There is no service whose levels could be told."))
    for index, (service, drawn) in enumerate(blocks):
        parts.append(f'<g transform="translate(0 {top + sum(heights[:index])})">')
        parts += _service(service, drawn)
        parts.append("</g>")
    parts += [text(SIDE, bottom + _LINE * number, one, fill=FAINT_INK) for number, one in enumerate(foot, 1)]
    return "\n".join((*parts, "</svg>")) + "\n"


def _drawn(service: ServiceLevels) -> list[AlikeRows]:
    """The outlets with something to draw, the least to spare first, those of units that are alike once."""

    def told(row: OutletRow) -> tuple[object, ...]:
        levels = (point.level_dbmv for point in row.points)
        figures = (None if level is None else level_figure(level.nominal, service.unit) for level in levels)
        losses = (None if point.loss_db is None else f"{point.loss_db.nominal:.1f}" for point in row.points)
        return (*figures, *losses)

    return sorted(
        merge_units([row for row in service.outlets if row.points], told),
        key=lambda merge_unit: _spare_db(merge_unit.first),
    )


def _spare_db(row: OutletRow) -> float:
    tightest = row.tightest
    return tightest.spare_db if tightest is not None and tightest.spare_db is not None else 1e9


def _height(service: ServiceLevels, drawn: list[AlikeRows]) -> int:
    """Of a service without a plot, as much as its bars take."""
    plotted = PLOT_HEIGHT if service.is_levelled else 40
    return PLOT_TOP + max(plotted, bars_height(min(len(drawn), MOST_OUTLETS))) + _BELOW


def _service(service: ServiceLevels, rows: list[AlikeRows]) -> Iterator[str]:
    drawn, left_out = rows[:MOST_OUTLETS], rows[MOST_OUTLETS:]
    towards = "downstream" if service.direction == "down" else "upstream, what the modems have to send"
    yield text(SIDE, 24, f"{service.tag}, {towards}", size=14, weight="bold")
    words = f"{service.kind}; {service.handoff}" if service.handoff else service.kind
    asked = "window" if service.direction == "down" else "at most"
    window = f"{asked} {service.window}" if service.window else "no window is known"
    yield text(SIDE, 42, f"{words}; {window}")
    if left_out:
        more = sum(1 + len(service.others) for service in left_out)
        yield text(PLOT_LEFT, 60, f"the outlets with the least margin; {more} more are not drawn", fill=FAINT_INK)
    if not rows:
        yield text(PLOT_LEFT, PLOT_TOP + 20, "Nothing of it comes to any outlet.")
    yield from plot(service, drawn)
    if service.is_levelled and (caution := _not_enough(service)):
        yield text(PLOT_LEFT, PLOT_TOP + PLOT_HEIGHT + 38, caution, fill=FAINT_INK)
    yield from bars(drawn)


def _not_enough(service: ServiceLevels) -> str:
    """What a drawing of sums leaves out, where adding decibels is not enough; empty where it is."""
    solved = service.solved
    if solved is None or not (solved.doubts or solved.not_solved):
        return ""
    if not solved.departures:
        return "Adding decibels is not enough here, and the network is not solved."
    most = max(solved.departures, key=lambda departure: max(abs(departure.least_db), abs(departure.most_db)))
    off_db = max(abs(most.least_db), abs(most.most_db))
    return f"Adding decibels is not enough here: levels lie up to {off_db:.1f} dB beside, most at {most.device.tag}."
