"""The levels as data for programs, described by ``levels-1.schema.json``."""

from __future__ import annotations

import json
from typing import Any

from coaxwright.analysis import LossRange
from coaxwright.analysis.budget import Bound
from coaxwright.analysis.reflections import Mismatch, SolvedService
from coaxwright.analysis.stations import StationLoss
from coaxwright.network import Unknown
from coaxwright.reports.levels.budgets import budgets
from coaxwright.reports.levels.gather import OutletRow, Point, ServiceLevels, SiteLevels
from coaxwright.reports.levels.solved import why_not
from coaxwright.rules.phrase_book import cause_text

FORMAT = 1


def render(levels: SiteLevels) -> str:
    """The whole page as JSON; frequencies in hertz, levels in dBmV in 75 ohm, losses in dB, lengths in meters."""
    data = {
        "levels": FORMAT,
        "file": levels.file,
        "title": levels.title,
        "sheet": levels.sheet,
        "revision": levels.revision,
        "rulesets": list(levels.rulesets),
        "suppositions": list(levels.suppositions),
        "author_supplied_values": (supplied := _author_supplied(levels)),
        "own_figures": supplied,
        "services": [_service(service) for service in levels.services],
        "left_out": [{"service": left.tag, "because": left.because} for left in levels.left_out],
    }
    return json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False) + "\n"


def _author_supplied(levels: SiteLevels) -> list[dict[str, Any]]:
    return [
        {
            "name": value.name,
            "kind": value.kind,
            "file": value.file,
            "document": value.document,
            "used_by": list(value.used_by),
        }
        for value in levels.author_values
    ]


def _service(service: ServiceLevels) -> dict[str, Any]:
    return {
        "service": service.tag,
        "kind": service.kind,
        "direction": service.direction,
        "from": service.start,
        "demarcation_point": service.handoff,
        "handoff": service.handoff,
        "window": service.window,
        "source": service.source,
        "frequencies_hz": list(service.grid_hz),
        "outlets": [_outlet(row) for row in service.outlets],
        "no_figure": [
            {"frequency_hz": freq_hz, "devices": list(tags)} for freq_hz, tags in sorted(service.no_figure.items())
        ],
        "budget": [
            {"frequency_hz": budget.freq_hz, "least": _bound(budget.least), "most": _bound(budget.most)}
            for budget in budgets(service)
        ],
        "between": [_between(pair) for pair in service.apart],
        "solved": None if service.solved is None else _solved(service.solved),
    }


def _bound(bound: Bound | None) -> dict[str, Any] | None:
    return None if bound is None else {"level_dbmv": _rounded(bound.level_dbmv), "outlet": bound.tag}


def _between(station_loss: StationLoss) -> dict[str, Any]:
    loss_db = station_loss.loss_db
    return {
        "one": station_loss.one.tag,
        "other": station_loss.other.tag,
        "loss_db": _figures(loss_db) if isinstance(loss_db, LossRange) else None,
        "unknown": cause_text(loss_db) if isinstance(loss_db, Unknown) else "",
        "parted_by": station_loss.parted_by.tag if station_loss.parted_by is not None else "",
    }


def _solved(solved: SolvedService) -> dict[str, Any]:
    return {
        "doubts": [
            {"kind": doubt.kind, "tag": doubt.tag, "port": doubt.port, "return_loss_db": _rounded(doubt.return_loss_db)}
            for doubt in solved.doubts
        ],
        "mismatches": [_mismatch(mismatche) for mismatche in solved.mismatches],
        "departures": [
            {
                "outlet": departure.device.tag,
                "least_db": _rounded(departure.least_db),
                "least_at_hz": departure.least_at_hz,
                "most_db": _rounded(departure.most_db),
                "most_at_hz": departure.most_at_hz,
            }
            for departure in solved.departures
        ],
        "not_solved": why_not(solved),
    }


def _mismatch(mismatch: Mismatch) -> dict[str, Any]:
    ripple = mismatch.ripple
    return {
        "cable": mismatch.cable.tag,
        "cable_ohm": mismatch.ends[0][1].cable_ohm,
        "ends": [
            {
                "device": end.device.tag,
                "port_ohm": joint.port_ohm,
                "return_loss_db": _rounded(joint.return_loss_db),
                "reflected_share": _rounded(joint.reflected_share),
            }
            for end, joint in mismatch.ends
            if end.device is not None
        ],
        "ripple": None
        if ripple is None
        else {
            "down_db": _rounded(ripple.down_db),
            "up_db": _rounded(ripple.up_db),
            "period_hz": round(ripple.period_hz),
        },
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


def _figures(figures: LossRange | None) -> dict[str, float | None] | None:
    if figures is None:
        return None
    return {name: _rounded(value) for name, value in figures._asdict().items()}


def _rounded(value: float | None) -> float | None:
    return None if value is None else round(value, 4) + 0.0
