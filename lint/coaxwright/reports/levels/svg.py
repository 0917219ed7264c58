"""The levels as a drawing: for each service its levels over frequency with the window shaded, and where loss goes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape
from math import ceil, floor, sqrt

from coaxwright.checks.phrasing import frequency, level_unit
from coaxwright.design.quantities import shown
from coaxwright.reports.levels.axis import Axis, spread_apart, ticks_db, ticks_hz
from coaxwright.reports.levels.gather import OutletRow, ServiceLevels, SiteLevels

WIDTH = 1080
MOST_OUTLETS = 12
"""More lines than a reader can tell apart; the outlets with the least to spare are drawn."""
_BLOCK = 440
_PLOT_LEFT, _PLOT_RIGHT = 64, 520
_PLOT_TOP, _PLOT_HEIGHT = 74, 300
_BARS_LEFT, _BARS_RIGHT = 740, 930
_LINES = ("#1b5e8c", "#b3541e", "#3f7d3a", "#7a4a8c", "#8c7a1b", "#1b8c86", "#8c1b4b", "#4b4b4b")
_CABLE, _DEVICE, _WINDOW, _INK, _FAINT = "#6f9fc4", "#c9a26b", "#e4f0e2", "#222222", "#cccccc"


def render(levels: SiteLevels, outlet: str | None = None) -> str:
    """One SVG document; ``outlet`` narrows it to one outlet."""
    blocks = [service for service in levels.services if any(row.points for row in service.outlets)]
    heights = [_height(service, outlet) for service in blocks]
    height = 70 + (sum(heights) or 60) + 30
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}" height="{height}" viewBox="0 0 {WIDTH} {height}" '
        'font-family="sans-serif" font-size="12">',
        f'<rect width="{WIDTH}" height="{height}" fill="#ffffff"/>',
        _text(24, 30, f"Levels: {levels.title}", size=17, weight="bold"),
        _text(24, 50, ", ".join((levels.file, *(f"supposing {one}" for one in levels.suppositions))), fill="#555555"),
    ]
    if not blocks:
        parts.append(_text(24, 90, "No level is known at any outlet."))
    for index, service in enumerate(blocks):
        parts.append(f'<g transform="translate(0 {70 + sum(heights[:index])})">')
        parts += _service(service, outlet)
        parts.append("</g>")
    parts.append(
        _text(24, height - 14, "Usual levels; the shaded line is what the tightest outlet can get. Losses are added in "
              "decibels.", fill="#555555")
    )  # fmt: skip
    return "\n".join((*parts, "</svg>")) + "\n"


def _height(service: ServiceLevels, outlet: str | None) -> int:
    """Of a service without a plot, as much as its bars take."""
    rows = [row for row in service.outlets if row.points and (outlet is None or row.tag == outlet)]
    if any(point.level_dbmv is not None for row in rows for point in row.points):
        return _BLOCK
    count = min(len(rows), MOST_OUTLETS)
    return _PLOT_TOP + 80 + int(min(30.0, _PLOT_HEIGHT / max(1, count)) * count)


def _service(service: ServiceLevels, outlet: str | None) -> Iterator[str]:
    rows = [row for row in service.outlets if row.points and (outlet is None or row.tag == outlet)]
    rows.sort(key=lambda row: _spare(row))
    drawn, left_out = rows[:MOST_OUTLETS], len(rows) - MOST_OUTLETS
    towards = "towards the outlets" if service.direction == "down" else "what the modems have to send"
    yield _text(24, 24, f"{service.tag}, {towards}", size=14, weight="bold")
    words = f"{service.kind}; {service.handoff}" if service.handoff else service.kind
    yield _text(24, 42, f"{words}; {'window ' + service.window if service.window else 'no window is known'}")
    if left_out > 0:
        yield _text(
            _PLOT_LEFT, 60, f"the {len(drawn)} outlets with the least to spare; {left_out} more", fill="#555555"
        )
    yield from _plot(service, drawn)
    yield from _bars(service, drawn)


def _spare(row: OutletRow) -> float:
    tightest = row.tightest
    return tightest.spare_db if tightest is not None and tightest.spare_db is not None else 1e9


def _plot(service: ServiceLevels, rows: Sequence[OutletRow]) -> Iterator[str]:
    """Levels over frequency, on the root of the frequency, as cable loses."""
    known = [point for row in rows for point in row.points if point.level_dbmv is not None]
    if not known:
        yield _text(_PLOT_LEFT, _PLOT_TOP + 40, "? " + next((p.unknown for row in rows for p in row.points), ""))
        return
    shift_db = _shift_db(service)
    edges = [edge for point in known for edge in (point.low_dbmv, point.high_dbmv) if edge is not None]
    values = [value for point in known if point.level_dbmv for value in (point.level_dbmv.low, point.level_dbmv.high)]
    low_db = floor((min((*values, *edges)) + shift_db - 1) / 5) * 5
    high_db = ceil((max((*values, *edges)) + shift_db + 1) / 5) * 5
    lowest_hz, highest_hz = min(point.freq_hz for point in known), max(point.freq_hz for point in known)
    if lowest_hz == highest_hz:
        lowest_hz, highest_hz = lowest_hz * 0.9, highest_hz * 1.1
    x = Axis(sqrt(lowest_hz), sqrt(highest_hz), _PLOT_LEFT, _PLOT_RIGHT)
    y = Axis(low_db, high_db, _PLOT_TOP + _PLOT_HEIGHT, _PLOT_TOP)
    lows = [point.low_dbmv for point in known if point.low_dbmv is not None]
    highs = [point.high_dbmv for point in known if point.high_dbmv is not None]
    if lows or highs:
        top = y.at(min(highs) + shift_db) if highs else _PLOT_TOP
        bottom = y.at(max(lows) + shift_db) if lows else _PLOT_TOP + _PLOT_HEIGHT
        yield (
            f'<rect x="{_PLOT_LEFT}" y="{top:.1f}" width="{_PLOT_RIGHT - _PLOT_LEFT}" '
            f'height="{max(0.0, bottom - top):.1f}" fill="{_WINDOW}"/>'
        )
    for tick_db in ticks_db(low_db, high_db):
        yield _rule(_PLOT_LEFT, y.at(tick_db), _PLOT_RIGHT, y.at(tick_db))
        yield _text(_PLOT_LEFT - 8, y.at(tick_db) + 4, shown(tick_db, 0), anchor="end")
    yield _text(_PLOT_LEFT - 8, _PLOT_TOP - 8, level_unit(service.unit), anchor="end")
    for tick_hz in ticks_hz(lowest_hz, highest_hz, x):
        yield _rule(x.at(sqrt(tick_hz)), _PLOT_TOP, x.at(sqrt(tick_hz)), _PLOT_TOP + _PLOT_HEIGHT)
        yield _text(x.at(sqrt(tick_hz)), _PLOT_TOP + _PLOT_HEIGHT + 18, frequency(tick_hz), anchor="middle")
    labels: list[tuple[float, str, str]] = []
    for index, row in reversed(list(enumerate(rows))):
        points = [(point.freq_hz, point.level_dbmv) for point in row.points if point.level_dbmv is not None]
        if not points:
            continue
        colour = _LINES[index % len(_LINES)]
        if index == 0:
            upper = [(x.at(sqrt(f)), y.at(level.high + shift_db)) for f, level in points]
            lower = [(x.at(sqrt(f)), y.at(level.low + shift_db)) for f, level in reversed(points)]
            yield f'<polygon points="{_points((*upper, *lower))}" fill="{colour}" fill-opacity="0.15"/>'
        line = [(x.at(sqrt(f)), y.at(level.nominal + shift_db)) for f, level in points]
        yield (
            f'<polyline points="{_points(line)}" fill="none" stroke="{colour}" '
            f'stroke-width="{2.4 if index == 0 else 1.4}"/>'
        )
        for cx, cy in line[:: max(1, len(line) - 1)]:
            yield f'<circle cx="{cx:.1f}" cy="{cy:.1f}" r="2.5" fill="{colour}"/>'
        labels.append((line[-1][1], row.tag, colour))
    for at, (wanted, tag, colour) in spread_apart(sorted(labels), 14, _PLOT_TOP + 4, _PLOT_TOP + _PLOT_HEIGHT):
        ends = f'x1="{_PLOT_RIGHT + 2}" y1="{wanted:.1f}" x2="{_PLOT_RIGHT + 14}" y2="{at:.1f}"'
        yield f'<line {ends} stroke="{colour}"/>'
        yield _text(_PLOT_RIGHT + 18, at + 4, _cut(tag, 16), fill=colour)


def _bars(service: ServiceLevels, rows: Sequence[OutletRow]) -> Iterator[str]:
    """Where the loss goes, at the highest frequency, one bar to an outlet; a gain is not drawn but written."""
    bars = [(row, _losses(row)) for row in rows if row.chain]
    longest = max((sum(loss for _, loss, _ in steps) for _, steps in bars), default=0.0)
    if not longest:
        return
    freq_hz = max(row.points[-1].freq_hz for row, _ in bars)
    yield _text(_BARS_LEFT, _PLOT_TOP - 8, f"where it is lost, at {frequency(freq_hz)}")
    x = Axis(0, longest, _BARS_LEFT, _BARS_RIGHT)
    height = min(30.0, _PLOT_HEIGHT / len(bars))
    for index, (row, steps) in enumerate(bars):
        top = _PLOT_TOP + index * height
        yield _text(_BARS_LEFT - 8, top + height / 2 + 2, _cut(row.tag, 14), anchor="end")
        at = 0.0
        for what, loss_db, is_cable in steps:
            left, right = x.at(at), x.at(at + loss_db)
            yield (
                f'<rect x="{left:.1f}" y="{top + 2:.1f}" width="{max(0.4, right - left):.1f}" '
                f'height="{height - 6:.1f}" fill="{_CABLE if is_cable else _DEVICE}" stroke="#ffffff">'
                f"<title>{escape(what)}: {shown(loss_db, 1)} dB</title></rect>"
            )
            if right - left > 7 * len(what) + 6 and height >= 20:
                yield _text((left + right) / 2, top + height / 2 + 2, what, anchor="middle", size=11)
            at += loss_db
        gained = _gains(row)
        note = f"{at:.1f} dB" + (f", gained {gained:.1f} dB" if gained else "")
        yield _text(_BARS_RIGHT + 8, top + height / 2 + 2, note, size=11)
    bottom = _PLOT_TOP + len(bars) * height + 18
    yield f'<rect x="{_BARS_LEFT}" y="{bottom - 10}" width="12" height="12" fill="{_CABLE}"/>'
    yield _text(_BARS_LEFT + 18, bottom, "cable")
    yield f'<rect x="{_BARS_LEFT + 70}" y="{bottom - 10}" width="12" height="12" fill="{_DEVICE}"/>'
    yield _text(_BARS_LEFT + 88, bottom, "device")


def _losses(row: OutletRow) -> list[tuple[str, float, bool]]:
    return [
        (step.what, loss, step.is_cable)
        for step in row.chain
        if step.losses_db and (loss := step.losses_db[-1]) is not None and loss > 0
    ]


def _gains(row: OutletRow) -> float:
    return -sum(loss for step in row.chain if step.losses_db and (loss := step.losses_db[-1]) is not None and loss < 0)


def _shift_db(service: ServiceLevels) -> float:
    return {"dBmV": 0.0, "dBm": -48.75}.get(level_unit(service.unit), 60.0)


def _points(points: Sequence[tuple[float, float]]) -> str:
    return " ".join(f"{x:.1f},{y:.1f}" for x, y in points)


def _cut(text: str, most: int) -> str:
    return text if len(text) <= most else f"{text[: most - 1]}…"


def _rule(x1: float, y1: float, x2: float, y2: float) -> str:
    return f'<line x1="{x1:.1f}" y1="{y1:.1f}" x2="{x2:.1f}" y2="{y2:.1f}" stroke="{_FAINT}"/>'


def _text(
    x: float, y: float, text: str, *, size: int = 12, fill: str = _INK, anchor: str = "start", weight: str = "normal"
) -> str:
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size}" fill="{fill}" text-anchor="{anchor}" '
        f'font-weight="{weight}">{escape(text)}</text>'
    )
