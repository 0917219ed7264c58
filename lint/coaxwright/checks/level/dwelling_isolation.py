"""Two outlets of different dwellings are parted by at least the limit where the signal to them divides.

isolation of the two ports + loss from each port to its outlet >= least, at every frequency of the service.
Source: 47 CFR 76.605(b)(9) until 2018, between any two terminals, from memory.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.analysis.isolation import Isolations, dwelling_of
from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, Verdict
from coaxwright.checks.level._shared import LEAST_ISOLATION, PARTED, isolation_verdicts
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import PASSAGE
from coaxwright.network.device_passages import Passage


def dwelling_isolation(passage: Passage, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Two outlets of different dwellings are parted by at least the limit where the signal to them divides."""
    if len({dwelling_of(outlet) for leg in passage.legs for outlet in leg.wanted}) < 2:
        yield DoesNotApply("one dwelling")
        return
    yield from isolation_verdicts(passage, context, limits, Isolations.between_dwellings)


CHECK = Check(
    name="level.dwelling-isolation",
    each=PASSAGE,
    judge=dwelling_isolation,
    cases={"close": PARTED},
    does_not_apply={"one dwelling": {}, "nothing divided": {}, "none parted": {}},
    limits=LEAST_ISOLATION,
)
