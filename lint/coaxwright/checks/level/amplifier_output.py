"""Each carrier leaves an amplifier or switch with no more than it can put out, where the design states how much.

level <= rating, of each carrier. Where more than it takes is sure to come in, the fault lies there, and the output
says nothing of its own. Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, Verdict
from coaxwright.checks.level._shared import (
    FORMER_OF_CARRIERS,
    STRADDLES,
    TOO_STRONG,
    at_inputs,
    at_outputs,
    beyond,
    carrier_verdicts,
)
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import PASSAGE
from coaxwright.checks.subject_filters import those
from coaxwright.network.device_passages import Passage


def amplifier_output(passage: Passage, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Each carrier leaves a device with no more than the device can put out, where the design states how much."""
    rating, taken = passage.device.device.output_level, passage.device.device.input_level
    if rating is None:
        yield DoesNotApply("no output level")
        return
    if taken is not None:
        coming = beyond(None, taken.high, at_inputs(passage, context))
        if any(carrier.is_certain for carrier in coming):
            yield DoesNotApply("input too strong")
            return
    yield from carrier_verdicts(passage, None, rating.high, at_outputs(passage, context), context)


CHECK = Check(
    name="level.amplifier-output",
    each=PASSAGE,
    judge=amplifier_output,
    applies_to=those(lambda passage: passage.device.device.output_level is not None),
    cases={"strong": TOO_STRONG},
    cannot_judge={"straddles": STRADDLES},
    does_not_apply={"no output level": {}, "input too strong": {}},
    former_values=FORMER_OF_CARRIERS,
)
