"""A mast that falls stays short of the power line: distance over the ground >= height.

Equal is just short of it. The height is what stands above the foot, as the design gives it; a mast on a roof may fall
further, which the distance with its margin is for.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.antenna._shared import BESIDE_A_LINE, NOT_BESIDE, NOT_KNOWN, MastByLine, mast_by_line
from coaxwright.checks.contract import Check, CheckContext, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import DEVICE
from coaxwright.checks.subject_filters import kinds
from coaxwright.network import DeviceNode


def power_line_fall(antenna: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The line is away by the height of the mast."""
    mast = mast_by_line(antenna)
    if not isinstance(mast, MastByLine):
        yield mast
    elif not mast.is_clear_by(1.0):
        yield NotMet("falls into it", mast.at, mast.values(1.0))


CHECK = Check(
    name="antenna.power-line-fall",
    each=DEVICE,
    judge=power_line_fall,
    applies_to=kinds("antenna", "dish"),
    cases={"falls into it": BESIDE_A_LINE},
    cannot_judge=NOT_KNOWN,
    does_not_apply=NOT_BESIDE,
)
