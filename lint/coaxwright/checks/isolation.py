"""Are outlets kept apart, so that what one set sends back does not disturb another?"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from coaxwright.analysis.isolation import Isolations, OutletIsolation, dwelling_of
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import decibels, frequency
from coaxwright.checks.selectors import PASSAGE
from coaxwright.design.quantities import Decibels
from coaxwright.network import Unknown
from coaxwright.network.device_passages import Passage
from coaxwright.physics.comparison import at_least

_DIVIDING = frozenset(("splitter", "tap", "directional coupler", "drop amplifier", "outlet"))
"""Kinds whose outputs data sheets keep apart by so much; those of a multiswitch are switched, each on its own."""


def isolation(passage: Passage, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Two outlets of one dwelling are parted by at least the limit where the signal to them divides."""
    return _judged(passage, context, limits, Isolations.within_dwellings)


def dwelling_isolation(passage: Passage, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Two outlets of different dwellings are parted by at least the limit where the signal to them divides."""
    if len({dwelling_of(outlet) for leg in passage.legs for outlet in leg.wanted}) < 2:
        return iter((DoesNotApply("it feeds one dwelling"),))
    return _judged(passage, context, limits, Isolations.between_dwellings)


def _judged(
    passage: Passage,
    context: CheckContext,
    limits: Limits,
    parted: Callable[[Isolations, Passage], Iterator[OutletIsolation | Unknown]],
) -> Iterator[Verdict]:
    """By the usual figures, as isolation is published; the worst pair of outlets is named."""
    kind = passage.service.service.kind
    least = limits.decibels("least", kind)
    if least is None or passage.device.device.kind not in _DIVIDING or len(passage.legs) < 2:
        yield DoesNotApply("nothing is divided here that has to be kept apart")
        return
    found = list(parted(context.analysis.isolations(passage.service.tag), passage))
    pairs = [apart for apart in found if isinstance(apart, OutletIsolation)]
    near = [apart for apart in pairs if not at_least(apart.isolation_db, least.ratio_db)]
    certain = [apart for apart in near if apart.missing is None]
    unknown = next((apart for apart in found if isinstance(apart, Unknown)), None)
    missing = unknown or next((apart.missing for apart in near), None)
    if certain:
        worst = min(certain, key=lambda apart: apart.isolation_db)
        missing_db = least.ratio_db - worst.isolation_db
        values = {
            "device": passage.device.tag,
            "service": passage.service.tag,
            "one": worst.one.tag,
            "other": worst.other.tag,
            "isolation": decibels(worst.isolation_db, least.ratio_db),
            "frequency": frequency(worst.freq_hz),
            "least": least.text,
            "missing": decibels(missing_db),
        }
        yield NotMet("close", passage.device.path, values, at_key=True, cites=(("least", kind),), excess=missing_db)
    elif missing is not None:
        yield CannotJudge(missing)
    elif not pairs:
        yield DoesNotApply("no two such outlets are parted here")


_READS = (
    "services.*.from",
    "services.*.kind",
    "services.*.down",
    "services.*.channels",
    "devices.*.kind",
    "devices.*.ways",
    "devices.*.outputs",
    "devices.*.value",
    "devices.*.model",
    "devices.*.loss",
    "devices.*.serves",
    "cables.*.from",
    "cables.*.to",
    "cables.*.type",
    "cables.*.route",
    "cables.*.length",
)
_VALUES = ("device", "service", "one", "other", "isolation", "frequency", "least", "missing")
_LIMITS = {"least": LimitKind(Decibels, by=("service",))}

CHECKS = (
    Check(name="isolation", each=PASSAGE, judge=isolation, cases={"close": _VALUES}, reads=_READS, limits=_LIMITS),
    Check(
        name="dwelling-isolation",
        each=PASSAGE,
        judge=dwelling_isolation,
        cases={"close": _VALUES},
        reads=_READS,
        limits=_LIMITS,
    ),
)
