"""The levels as a table for a spreadsheet: one row for each service, direction, outlet and frequency."""

from __future__ import annotations

import csv
import io

from coaxwright.reports.levels.gather import Point, SiteLevels

COLUMNS = (
    "file",
    "service",
    "direction",
    "outlet",
    "place",
    "frequency_mhz",
    "loss_db",
    "level_low_dbmv",
    "level_hot_dbmv",
    "level_usual_dbmv",
    "level_cold_dbmv",
    "level_high_dbmv",
    "window_low_dbmv",
    "window_high_dbmv",
    "spare_db",
    "unknown",
    "supposing",
)


def render(levels: SiteLevels) -> str:
    """The table; an unknown figure is an empty cell, and the column ``unknown`` says why."""
    supposing = "; ".join(levels.suppositions)
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(COLUMNS)
    for service in levels.services:
        for row in service.outlets:
            head = (levels.file, service.tag, service.direction, row.tag, row.place)
            cells = {point.freq_hz: _cells(point) for point in row.points}
            for freq_hz in service.grid_hz:
                lacks = service.no_figure.get(freq_hz)
                why = f"no figure says what {' or '.join(lacks)} does" if lacks else "does not come to this outlet"
                missed = (_mhz(freq_hz), *[""] * 9, why)
                writer.writerow((*head, *cells.get(freq_hz, missed), supposing))
    return out.getvalue()


def _cells(point: Point) -> tuple[str, ...]:
    level = point.level_dbmv
    figures = (None,) * 5 if level is None else (level.low, level.hot, level.nominal, level.cold, level.high)
    loss = None if point.loss_db is None else point.loss_db.nominal
    numbers = (loss, *figures, point.low_dbmv, point.high_dbmv, point.spare_db)
    return (
        _mhz(point.freq_hz),
        *("" if number is None else _hundredths(number) for number in numbers),
        point.unknown,
    )


def _mhz(freq_hz: float) -> str:
    return f"{freq_hz / 1e6:.6f}".rstrip("0").rstrip(".")


def _hundredths(value: float) -> str:
    text = f"{value:.2f}"
    return "0.00" if text == "-0.00" else text
