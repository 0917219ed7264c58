"""Levels over frequency, on the root of the frequency, as cable loses; the window lies behind them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from math import ceil, floor, sqrt

from coaxwright.design.quantities import shown
from coaxwright.design.sentences import frequency, level_unit
from coaxwright.reports.levels.alike import AlikeRows
from coaxwright.reports.levels.axis import Axis, spread_apart, ticks_db, ticks_hz
from coaxwright.reports.levels.drawing import FAINT_INK, all_of, fitted, name_of, places, rule, text
from coaxwright.reports.levels.gather import Point, ServiceLevels
from coaxwright.reports.levels.units import shift_db

PLOT_LEFT, PLOT_RIGHT = 64, 560
PLOT_TOP, PLOT_HEIGHT = 78, 300
_LABELS, _LABEL_ROOM = PLOT_RIGHT + 18, 130
_LINES = ("#1b5e8c", "#b3541e", "#3f7d3a", "#7a4a8c", "#8c7a1b", "#1b8c86", "#8c1b4b", "#4b4b4b")
_WINDOW = "#e4f0e2"
_SEEN = 28
"""Least width of the window of a single channel."""
_BOTTOM = PLOT_TOP + PLOT_HEIGHT


def plot(service: ServiceLevels, rows: Sequence[AlikeRows]) -> Iterator[str]:
    """The window, the axes and one line to an outlet, the first with what its level can be."""
    points = [point for alike in rows for point in alike.first.points]
    known = [point for point in points if point.level_dbmv is not None]
    if not known:
        for number, cause in enumerate(list(dict.fromkeys(point.unknown for point in points))[:2]):
            yield text(PLOT_LEFT, PLOT_TOP + 20 + 18 * number, f"? {cause}", fill=FAINT_INK, room=_LABELS + 40)
        return
    x, y = _axes(service, known)
    usual = [point for alike in rows if not alike.first.own_window for point in alike.first.points]
    yield from _window(service, usual or points, x, y)
    yield from _grid(service, x, y)
    shift = shift_db(service.unit)
    labels: list[tuple[float, str, str]] = []
    for index, alike in reversed(list(enumerate(rows))):
        levels = [(p.freq_hz, p.level_dbmv) for p in alike.first.points if p.level_dbmv is not None]
        if not levels:
            continue
        color = _LINES[index % len(_LINES)]
        if index == 0:
            upper = [(x.at(sqrt(f)), y.at(level.high + shift)) for f, level in levels]
            lower = [(x.at(sqrt(f)), y.at(level.low + shift)) for f, level in reversed(levels)]
            yield f'<polygon points="{places((*upper, *lower))}" fill="{color}" fill-opacity="0.15"/>'
        line = [(x.at(sqrt(f)), y.at(level.nominal + shift)) for f, level in levels]
        yield (
            f'<polyline points="{places(line)}" fill="none" stroke="{color}" '
            f'stroke-width="{2.4 if index == 0 else 1.4}"><title>{fitted(all_of(alike), 10_000)}</title></polyline>'
        )
        for (freq_hz, _), (cx, cy) in zip(levels, line, strict=True):
            if freq_hz in service.stated_hz:
                yield f'<circle cx="{cx:.1f}" cy="{cy:.1f}" r="2.5" fill="{color}"/>'
        labels.append((line[-1][1], name_of(alike), color))
    for at, (wanted, name, color) in spread_apart(sorted(labels), 14, PLOT_TOP + 4, _BOTTOM):
        ends = f'x1="{PLOT_RIGHT + 2}" y1="{wanted:.1f}" x2="{PLOT_RIGHT + 14}" y2="{at:.1f}"'
        yield f'<line {ends} stroke="{color}"/>'
        yield text(_LABELS, at + 4, name, fill=color, room=_LABEL_ROOM)


def _axes(service: ServiceLevels, known: Sequence[Point]) -> tuple[Axis, Axis]:
    shift = shift_db(service.unit)
    edges = [edge for point in known for edge in (point.low_dbmv, point.high_dbmv) if edge is not None]
    values = [value for point in known if point.level_dbmv for value in (point.level_dbmv.low, point.level_dbmv.high)]
    low_db = floor((min((*values, *edges)) + shift - 1) / 5) * 5
    high_db = ceil((max((*values, *edges)) + shift + 1) / 5) * 5
    lowest_hz, highest_hz = min(point.freq_hz for point in known), max(point.freq_hz for point in known)
    if lowest_hz == highest_hz:
        lowest_hz, highest_hz = lowest_hz * 0.9, highest_hz * 1.1
    return Axis(sqrt(lowest_hz), sqrt(highest_hz), PLOT_LEFT, PLOT_RIGHT), Axis(low_db, high_db, _BOTTOM, PLOT_TOP)


def _window(service: ServiceLevels, points: Sequence[Point], x: Axis, y: Axis) -> Iterator[str]:
    """The narrowest window at these points; one rectangle to each stretch of the band that has another one."""
    shift = shift_db(service.unit)
    freqs = sorted({point.freq_hz for point in points if x.low <= sqrt(point.freq_hz) <= x.high})
    windows = []
    for freq_hz in freqs:
        lows = [p.low_dbmv for p in points if p.freq_hz == freq_hz and p.low_dbmv is not None]
        highs = [p.high_dbmv for p in points if p.freq_hz == freq_hz and p.high_dbmv is not None]
        windows.append((max(lows, default=None), min(highs, default=None)))
    index = 0
    has_gaps = (None, None) in windows
    for (low, high), stretch in groupby(windows):
        last = index + len(list(stretch)) - 1
        left = x.start if index == 0 else x.at((sqrt(freqs[index - 1]) + sqrt(freqs[index])) / 2)
        right = x.end if last == len(freqs) - 1 else x.at((sqrt(freqs[last]) + sqrt(freqs[last + 1])) / 2)
        index = last + 1
        if low is None and high is None:
            continue
        if has_gaps and right - left < _SEEN:  # of one channel among frequencies that have none: wide enough to be seen
            middle = min(max((left + right) / 2, x.start + _SEEN / 2), x.end - _SEEN / 2)
            left, right = middle - _SEEN / 2, middle + _SEEN / 2
        top = y.at(high + shift) if high is not None else y.end
        bottom = y.at(low + shift) if low is not None else y.start
        yield (
            f'<rect class="window" x="{left:.1f}" y="{top:.1f}" width="{right - left:.1f}" '
            f'height="{max(0.0, bottom - top):.1f}" fill="{_WINDOW}"/>'
        )


def _grid(service: ServiceLevels, x: Axis, y: Axis) -> Iterator[str]:
    for tick_db in ticks_db(int(y.low), int(y.high)):
        yield rule(PLOT_LEFT, y.at(tick_db), PLOT_RIGHT, y.at(tick_db))
        yield text(PLOT_LEFT - 8, y.at(tick_db) + 4, shown(tick_db, 0), anchor="end")
    yield text(PLOT_LEFT - 8, PLOT_TOP - 8, level_unit(service.unit), anchor="end")
    stated = [freq_hz for freq_hz in service.stated_hz if x.low <= sqrt(freq_hz) <= x.high]
    ends = (x.low**2, x.high**2) if len(stated) > 1 else (stated[0], stated[0]) if stated else (x.low**2, x.high**2)
    for tick_hz in ticks_hz(*ends, x):
        yield rule(x.at(sqrt(tick_hz)), PLOT_TOP, x.at(sqrt(tick_hz)), _BOTTOM)
        yield text(x.at(sqrt(tick_hz)), _BOTTOM + 18, frequency(tick_hz), anchor="middle")
