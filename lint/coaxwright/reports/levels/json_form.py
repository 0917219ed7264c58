"""The levels as data for programs, described by ``levels-1.schema.json``."""

from __future__ import annotations

import json
from typing import Any

from coaxwright.analysis import Figures
from coaxwright.reports.levels.gather import OutletRow, Point, ServiceLevels, SiteLevels

FORMAT = 1


def render(levels: SiteLevels) -> str:
    """The whole page as JSON; frequencies in hertz, levels in dBmV in 75 ohm, losses in dB, lengths in metres."""
    data = {
        "levels": FORMAT,
        "file": levels.file,
        "title": levels.title,
        "sheet": levels.sheet,
        "revision": levels.revision,
        "rulesets": list(levels.rulesets),
        "suppositions": list(levels.suppositions),
        "own_figures": [
            {
                "name": one.name,
                "kind": one.kind,
                "file": one.file,
                "document": one.document,
                "used_by": list(one.used_by),
            }
            for one in levels.own_figures
        ],
        "services": [_service(service) for service in levels.services],
        "left_out": [{"service": left.tag, "because": left.because} for left in levels.left_out],
    }
    return json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def _service(service: ServiceLevels) -> dict[str, Any]:
    return {
        "service": service.tag,
        "kind": service.kind,
        "direction": service.direction,
        "from": service.start,
        "handoff": service.handoff,
        "window": service.window,
        "source": service.source,
        "frequencies_hz": list(service.grid_hz),
        "outlets": [_outlet(row) for row in service.outlets],
    }


def _outlet(row: OutletRow) -> dict[str, Any]:
    return {
        "outlet": row.tag,
        "unit": row.unit,
        "kind": row.kind,
        "place": row.place,
        "own_window": row.own_window,
        "points": [_point(point) for point in row.points],
        "missed_hz": list(row.missed_hz),
        "chain": [
            {"what": step.what, "kind": step.kind, "losses_db": [_rounded(loss) for loss in step.losses_db]}
            for step in row.chain
        ],
        "longest_runs": None
        if row.longest is None
        else {
            "cable": row.longest.cable.tag,
            "length_m": _rounded(row.longest.length_m),
            "by_class_m": {name: _rounded(most_m) for name, most_m in row.longest.by_class.items()},
            "smallest_class": row.longest.smallest,
        },
    }


def _point(point: Point) -> dict[str, Any]:
    return {
        "frequency_hz": point.freq_hz,
        "loss_db": _figures(point.loss_db),
        "level_dbmv": _figures(point.level_dbmv),
        "window_dbmv": {"low": _rounded(point.low_dbmv), "high": _rounded(point.high_dbmv)},
        "spare_db": _rounded(point.spare_db),
        "unknown": point.unknown,
    }


def _figures(figures: Figures | None) -> dict[str, float | None] | None:
    if figures is None:
        return None
    return {name: _rounded(value) for name, value in figures._asdict().items()}


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(value, 4) + 0.0
