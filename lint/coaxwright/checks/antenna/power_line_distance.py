"""The power line is away by the height of the mast with a margin: distance >= times height."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.antenna._shared import BESIDE_A_LINE, NOT_BESIDE, NOT_KNOWN, MastByLine, mast_by_line
from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import DEVICE
from coaxwright.checks.subject_filters import kinds
from coaxwright.design.quantities import Times
from coaxwright.design.value_types import QUANTITY
from coaxwright.network import DeviceNode


def power_line_distance(antenna: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The line is away by so many times the height of the mast."""
    mast = mast_by_line(antenna)
    margin = limits.one(Times, "margin")
    if not isinstance(mast, MastByLine):
        yield mast
    elif not mast.is_clear_by(1.0):
        yield DoesNotApply("falls into it")
    elif not mast.is_clear_by(margin.factor):
        yield NotMet("near", mast.at, {**mast.values(margin.factor), "margin": margin})


CHECK = Check(
    name="antenna.power-line-distance",
    each=DEVICE,
    judge=power_line_distance,
    applies_to=kinds("antenna", "dish"),
    cases={"near": {**BESIDE_A_LINE, "margin": QUANTITY}},
    cannot_judge=NOT_KNOWN,
    does_not_apply={**NOT_BESIDE, "falls into it": {}},
    limits={"margin": LimitKind(Times)},
)
