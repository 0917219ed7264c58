"""Each carrier comes to an amplifier or switch with a level that it takes, where the design states which.

low edge <= level <= high edge, at the usual figures and the temperature that is worse; a level that the spread of the
published figures alone takes beyond an edge is left open. Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, Verdict
from coaxwright.checks.level._shared import (
    CARRIER,
    FORMER_OF_CARRIERS,
    STRADDLES,
    TOO_STRONG,
    at_inputs,
    carrier_verdicts,
)
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import PASSAGE
from coaxwright.checks.subject_filters import those
from coaxwright.design.value_types import DECIBELS, TAG, WORD
from coaxwright.network.device_passages import Passage


def amplifier_input(passage: Passage, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Each carrier comes to a device with a level that the device takes, where the design states which."""
    window = passage.device.device.input_level
    if window is None:
        yield DoesNotApply("no input level")
        return
    yield from carrier_verdicts(passage, window.low, window.high, at_inputs(passage, context), context)


CHECK = Check(
    name="level.amplifier-input",
    each=PASSAGE,
    judge=amplifier_input,
    applies_to=those(lambda passage: passage.device.device.input_level is not None),
    cases={
        "strong": TOO_STRONG,
        "weak": {**CARRIER, "start": TAG},
        "weak, larger class": {**CARRIER, "cable": TAG, "class": WORD, "gain": DECIBELS},
    },
    cannot_judge={"straddles": STRADDLES},
    does_not_apply={"no input level": {}},
    former_values=FORMER_OF_CARRIERS,
)
