"""A cable's class is made for what it carries: up to the top of the band, and not too thin for a new service.

top of what it carries <= what the class is made for; length of a new lead <= the longest for the service.
Source of the limits: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.analysis.other_classes import in_class, smallest
from coaxwright.catalogue import CableType, UnknownWords
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, Correction, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import CABLE
from coaxwright.design.quantities import Frequency, LengthPair, is_at_most
from coaxwright.design.value_types import FREQUENCY, LENGTH, QUANTITY, TAG, TEXT, WORD
from coaxwright.network import CableLink, ServiceNode, Unknown
from coaxwright.physics.comparison import at_least, at_most

_TELEVISION_OHM = 75.0


def class_suits_service(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Its class is made for every service on it."""
    services = context.network.services_on(link.tag)
    if not services:
        yield DoesNotApply("no service")
        return
    if isinstance(link.type, UnknownWords):
        yield CannotJudge(Unknown("type not understood", (*link.path, "type"), {"cable": link.tag}))
        return
    name = link.type.cable_class.name
    highest = limits.row(Frequency, "highest", name)
    edges_hz = context.analysis.band_edges_hz(link)
    if highest is not None and edges_hz is not None and not at_most(edges_hz[1], highest.freq_hz):
        service = max(services, key=lambda carried: (_top_hz(carried), carried.tag))
        values = {"service": service.tag, "highest": highest}
        yield _in_other_class("not made so high", link, link.type, values, context, limits, ("highest", name))
        return
    if link.cable.state != "existing":
        yield from _too_thin(link, link.type, services, context, limits)


def _too_thin(
    link: CableLink, of: CableType, services: tuple[ServiceNode, ...], context: CheckContext, limits: Limits
) -> Iterator[Verdict]:
    """A class that is for short leads only where a service is new."""
    name = of.cable_class.name
    for service in services:
        longest = limits.row(LengthPair, "longest lead", name, service.service.kind)
        if longest is None:
            continue
        if isinstance(link.length, Unknown):
            yield CannotJudge(link.length)
            return
        limit = longest.for_author(link.length.is_metric)
        if is_at_most(link.length, limit):
            continue
        values: dict[str, object] = {"service": service.tag, "service_kind": service.service.kind}
        cite = ("longest lead", name, service.service.kind)
        if limit.length_m:
            values |= {"length": link.length, "longest": limit}
            yield _in_other_class("too thin", link, of, values, context, limits, cite)
        else:
            yield _in_other_class("never", link, of, values, context, limits, cite)
        return


def _in_other_class(
    case: str,
    link: CableLink,
    of: CableType,
    values: dict[str, object],
    context: CheckContext,
    limits: Limits,
    cite: tuple[str, ...],
) -> NotMet:
    """With the smallest class that may carry all that this cable does."""
    kinds = {service.service.kind for service in context.network.services_on(link.tag)}
    thin = {name for name, kind in limits.keys("longest lead") if kind in kinds}
    edges_hz = context.analysis.band_edges_hz(link)
    top_hz = edges_hz[1] if edges_hz is not None else 0.0
    found = smallest(
        _TELEVISION_OHM if case == "never" else of.impedance_ohm,
        context.network.catalogue,
        lambda made: made.name not in thin and at_least(made.attenuation.highest_hz, top_hz),
    )
    at, own = (*link.path, "type"), {"cable": link.tag, "class": of.cable_class.name}
    if found is None:
        return NotMet("none made", at, {**own, "service": values["service"], "top": top_hz}, cites=(cite,))
    suiting = in_class(of, found.name, context.network.catalogue)
    if case == "not made so high":
        values["top"] = top_hz
    return NotMet(case, at, {**own, **values, "suiting": suiting}, mend=Correction(at, suiting), cites=(cite,))


def _top_hz(service: ServiceNode) -> float:
    grids = (service.grid_hz("down"), service.grid_hz("up"))
    return max((grid[-1] for grid in grids if grid), default=0.0)


_SUITS = {"cable": TAG, "class": WORD, "service": TAG}
_LEAD = {**_SUITS, "service_kind": WORD, "suiting": TEXT}

CHECK = Check(
    name="cable.class-suits-service",
    each=CABLE,
    judge=class_suits_service,
    cases={
        "not made so high": {**_SUITS, "top": FREQUENCY, "highest": QUANTITY, "suiting": TEXT},
        "too thin": {**_LEAD, "length": LENGTH, "longest": LENGTH},
        "never": _LEAD,
        "none made": {**_SUITS, "top": FREQUENCY},
    },
    does_not_apply={"no service": {}},
    limits={
        "highest": LimitKind(Frequency, by=("cable class",)),
        "longest lead": LimitKind(LengthPair, by=("cable class", "service")),
    },
    former_limits=("return loss",),
)
