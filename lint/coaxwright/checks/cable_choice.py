"""Is the cable of a class and a shield that suit what it carries and where it runs?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.analysis import Joint, joint
from coaxwright.analysis.other_classes import in_class, smallest, with_option
from coaxwright.catalogue import CableType, UnknownWords
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, Correction, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import frequency, in_system, length_text, listed
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import accompanied
from coaxwright.design.quantities import Decibels, Frequency, Length, LengthPair
from coaxwright.network import CableLink, Neighbour, Segment, ServiceNode, Unknown
from coaxwright.physics.comparison import at_least, at_most

_BEST_SCREENED = frozenset(("quad", "foil and braid", "double braid"))
"""Shields that need no more: four layers, and the close braids of feeders. Source: common practice, no source."""
_TELEVISION_OHM = 75.0
_WELL_SCREENED = frozenset(("A+", "A++"))
"""Classes that suit the neighbourhood of a transmitter. Source: EN 50117, from memory."""


def class_suits_service(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A cable's class is made for what it carries: up to the top of the band, and not too thin for a new service.

    A class whose impedance does not suit the ports it joins is told there.
    """
    services = context.network.services_on(link.tag)
    if not services:
        yield DoesNotApply("no service is known to run over it")
        return
    if isinstance(link.type, UnknownWords):
        yield CannotJudge(Unknown(f"the type of {link.tag} is not understood", (*link.path, "type")))
        return
    alone = limits.decibels("return loss")
    assert alone is not None
    joints = [] if link.is_matched else [here for end in link.ends if isinstance(here := joint(link, end), Joint)]
    if any(not at_least(here.return_loss_db, alone.ratio_db) for here in joints):
        yield DoesNotApply("its impedance does not suit the ports it joins, which is told there")
        return
    name = link.type.cable_class.name
    highest = limits.quantity(Frequency, "highest", name)
    edges_hz = context.analysis.band_edges_hz(link)
    if highest is not None and edges_hz is not None and not at_most(edges_hz[1], highest.freq_hz):
        service = max(services, key=lambda one: (_top_hz(one), one.tag))
        values = {"service": service.tag, "highest": highest.text}
        yield _in_other_class("not made so high", link, link.type, values, context, limits, (("highest", name),))
        return
    if link.cable.state != "existing":
        yield from _too_thin(link, link.type, services, context, limits)


def _too_thin(
    link: CableLink, of: CableType, services: tuple[ServiceNode, ...], context: CheckContext, limits: Limits
) -> Iterator[Verdict]:
    """A class that is for short leads only where a service is new."""
    name = of.cable_class.name
    for service in services:
        longest = limits.length("longest lead", name, service.service.kind)
        if longest is None:
            continue
        if isinstance(link.length, Unknown):
            yield CannotJudge(link.length)
            return
        limit = longest.for_author(link.length.is_metric)
        if at_most(in_system(link.length, link.length.is_metric), in_system(limit, link.length.is_metric)):
            continue
        case = "too thin" if limit.length_m else "never"
        values = {
            "service": service.tag,
            "service_kind": service.service.kind,
            "length": length_text(link.length, limit),
            "longest": limit.text,
        }
        cites = (("longest lead", name, service.service.kind),)
        yield _in_other_class(case, link, of, values, context, limits, cites)
        return


def _in_other_class(
    case: str,
    link: CableLink,
    of: CableType,
    values: dict[str, str],
    context: CheckContext,
    limits: Limits,
    cites: tuple[tuple[str, ...], ...],
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
    values |= {"cable": link.tag, "class": of.cable_class.name, "top": frequency(top_hz)}
    at = (*link.path, "type")
    if found is None:
        return NotMet("none made", at, values, cites=cites)
    suiting = in_class(of, found.name, context.network.catalogue)
    return NotMet(case, at, values | {"suiting": suiting}, mend=Correction(at, suiting), cites=cites)


def _top_hz(service: ServiceNode) -> float:
    grids = (service.grid_hz("down"), service.grid_hz("up"))
    return max((grid[-1] for grid in grids if grid), default=0.0)


def shield_coverage(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A cable beside a stated transmitter has the densest shield of its class; elsewhere any shield of a drop does."""
    near = limits.length("near")
    assert near is not None
    beside = [(segment, one) for segment in link.segments for one in segment.neighbours if _is_near(one, near)]
    if not beside:
        yield DoesNotApply("no transmitter is stated beside it")
        return
    if isinstance(link.type, UnknownWords):
        yield CannotJudge(Unknown(f"the type of {link.tag} is not understood", (*link.path, "type")))
        return
    shield = link.type.shield
    if shield.name in _BEST_SCREENED or shield.screening_class in _WELL_SCREENED:
        return
    values = {
        "cable": link.tag,
        "shield": shield.name,
        "places": listed(list(dict.fromkeys(_where(segment, one) for segment, one in beside))),
        "near": near.text,
    }
    at = (*link.path, "type")
    related = tuple((one.path, "the transmitter") for _, one in beside)
    suiting = with_option(link.type, "quad", link.type.cable_class.shields, context.network.catalogue)
    if suiting is None:
        yield NotMet("beside a transmitter, not made", at, values, related=related, cites=(("near",),))
        return
    values["suiting"] = suiting
    yield NotMet("beside a transmitter", at, values, mend=Correction(at, suiting), related=related, cites=(("near",),))


def _is_near(one: Neighbour, near: LengthPair) -> bool:
    """Whether it is a transmitter at no more than the distance; one without a distance is beside the cable."""
    if one.what != "transmitter":
        return False
    if one.distance is None:
        return True
    limit = near.for_author(one.distance.is_metric)
    return at_most(in_system(one.distance, limit.is_metric), in_system(limit, limit.is_metric))


def _where(segment: Segment, one: Neighbour) -> str:
    distance: Length | None = one.distance
    return f"{segment.tag}, {distance.text} off" if distance is not None else segment.tag


_SUITS = ("cable", "class", "service")
_LEAD = (*_SUITS, "service_kind", "suiting")

CHECKS = (
    Check(
        name="class-suits-service",
        each=CABLE,
        judge=class_suits_service,
        cases={
            "not made so high": (*_SUITS, "top", "highest", "suiting"),
            "too thin": (*_LEAD, "length", "longest"),
            "never": _LEAD,
            "none made": (*_SUITS, "top"),
        },
        reads=(
            "cables.*.type",
            "cables.*.route",
            "cables.*.length",
            "cables.*.state",
            "services.*.kind",
            "services.*.down",
            "services.*.up",
            "services.*.channels",
            "devices.*.impedance",
        ),
        limits={
            "highest": LimitKind(Frequency, by=("cable class",)),
            "longest lead": LimitKind(LengthPair, by=("cable class", "service")),
            "return loss": LimitKind(Decibels),
        },
    ),
    Check(
        name="shield-coverage",
        each=CABLE,
        judge=shield_coverage,
        applies_to=accompanied,
        cases={
            "beside a transmitter": ("cable", "shield", "places", "near", "suiting"),
            "beside a transmitter, not made": ("cable", "shield", "places", "near"),
        },
        reads=("cables.*.type", "cables.*.route", "places.*.beside"),
        limits={"near": LimitKind(LengthPair)},
    ),
)
