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
)


def render(levels: SiteLevels) -> str:
    """The table; an unknown figure is an empty cell, and the last column says why."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(COLUMNS)
    for service in levels.services:
        for row in service.outlets:
            head = (levels.file, service.tag, service.direction, row.tag, row.place)
            for point in row.points:
                writer.writerow((*head, *_cells(point)))
            for freq_hz in row.missed_hz:
                writer.writerow((*head, f"{freq_hz / 1e6:.6g}", *[""] * 9, "does not reach this outlet"))
    return out.getvalue()


def _cells(point: Point) -> tuple[str, ...]:
    level = point.level_dbmv
    figures = (None,) * 5 if level is None else (level.low, level.hot, level.nominal, level.cold, level.high)
    loss = None if point.loss_db is None else point.loss_db.nominal
    numbers = (loss, *figures, point.low_dbmv, point.high_dbmv, point.spare_db)
    return (
        f"{point.freq_hz / 1e6:.6g}",
        *("" if one is None else f"{one + 0.0:.2f}" for one in numbers),
        point.unknown,
    )
