"""Two outlets of one dwelling are parted by at least the limit where the signal to them divides.

isolation of the two ports + loss from each port to its outlet >= least, at every frequency of the service.
Source: the limit's own; common practice but for cable broadband.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.analysis.isolation import Isolations
from coaxwright.checks.contract import Check, CheckContext, Verdict
from coaxwright.checks.level._shared import LEAST_ISOLATION, PARTED, isolation_verdicts
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import PASSAGE
from coaxwright.network.device_passages import Passage


def isolation(passage: Passage, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Two outlets of one dwelling are parted by at least the limit where the signal to them divides."""
    yield from isolation_verdicts(passage, context, limits, Isolations.within_dwellings)


CHECK = Check(
    name="level.isolation",
    each=PASSAGE,
    judge=isolation,
    cases={"close": PARTED},
    does_not_apply={"nothing divided": {}, "none parted": {}},
    limits=LEAST_ISOLATION,
)
