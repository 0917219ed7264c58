"""Where the loss goes, at the highest frequency, one bar to an outlet; a gain is not drawn but written."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coaxwright.design.quantities import shown
from coaxwright.design.sentences import frequency
from coaxwright.reports.levels.alike import AlikeRows
from coaxwright.reports.levels.axis import Axis
from coaxwright.reports.levels.drawing import fitted, name_of, text, text_width
from coaxwright.reports.levels.gather import OutletRow
from coaxwright.reports.levels.svg_plot import PLOT_HEIGHT, PLOT_TOP

_LEFT, _RIGHT = 836, 976
_NAME_ROOM = 116
_TALLEST = 26.0
_LEGEND = 24
_CABLE, _DEVICE = "#6f9fc4", "#c9a26b"


def bars_height(number: int) -> int:
    """How much room so many bars take, with what stands below them."""
    return int(_tall(number) * number) + _LEGEND if number else 0


def _tall(number: int) -> float:
    return min(_TALLEST, PLOT_HEIGHT / max(1, number))


def bars(rows: Sequence[AlikeRows]) -> Iterator[str]:
    """A bar to each outlet, its cables and devices in the order of the way."""
    drawn = [(alike, _losses(alike.first)) for alike in rows if alike.first.chain]
    longest = max((sum(loss_db for _, loss_db, _ in steps) for _, steps in drawn), default=0.0)
    if not longest:
        return
    freq_hz = max(alike.first.points[-1].freq_hz for alike, _ in drawn)
    yield text(_LEFT, PLOT_TOP - 8, f"loss budget, at {frequency(freq_hz)}")
    x = Axis(0, longest, _LEFT, _RIGHT)
    tall = _tall(len(drawn))
    for index, (alike, steps) in enumerate(drawn):
        top = PLOT_TOP + index * tall
        middle = top + tall / 2 + 2
        yield text(_LEFT - 8, middle, name_of(alike), anchor="end", room=_NAME_ROOM)
        at = 0.0
        for what, loss_db, is_cable in steps:
            left, right = x.at(at), x.at(at + loss_db)
            yield (
                f'<rect x="{left:.1f}" y="{top + 2:.1f}" width="{max(0.4, right - left):.1f}" '
                f'height="{tall - 6:.1f}" fill="{_CABLE if is_cable else _DEVICE}" stroke="#ffffff" '
                f'stroke-width="0.5"><title>{fitted(what, 10_000)}: {shown(loss_db, 1)} dB</title></rect>'
            )
            if right - left > text_width(what, 11) + 4 and tall >= 20:
                yield text((left + right) / 2, middle, what, anchor="middle", size=11)
            at += loss_db
        yield text(_RIGHT + 8, middle, _sum(alike.first, at), size=11)
    bottom = PLOT_TOP + len(drawn) * tall + 16
    for left, color, word in ((_LEFT, _CABLE, "cable"), (_LEFT + 70, _DEVICE, "device")):
        yield f'<rect x="{left}" y="{bottom - 10:.1f}" width="12" height="12" fill="{color}"/>'
        yield text(left + 18, bottom, word)


def _losses(row: OutletRow) -> list[tuple[str, float, bool]]:
    return [
        (step.what, loss_db, step.is_cable)
        for step in row.chain
        if step.losses_db and (loss_db := step.losses_db[-1]) is not None and loss_db > 0
    ]


def _sum(row: OutletRow, lost_db: float) -> str:
    """What is lost and gained; with a sign where a step is not known."""
    last = [step.losses_db[-1] for step in row.chain if step.losses_db]
    gained_db = -sum(loss_db for loss_db in last if loss_db is not None and loss_db < 0)
    unknown = " and ?" if None in last and row.points[-1].loss_db is None else ""
    return f"{lost_db:.1f} dB{unknown}" + (f", gained {gained_db:.1f} dB" if gained_db else "")
