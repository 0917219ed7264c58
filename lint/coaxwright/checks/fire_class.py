"""Has a cable the reaction-to-fire class that its country uses?"""

from __future__ import annotations

from collections.abc import Iterator
from typing import get_args

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import all_if
from coaxwright.design.quantities import FireClassAtLeast
from coaxwright.design.words import FireClass
from coaxwright.network import CableLink, Network, Unknown

BEST_FIRST: tuple[str, ...] = get_args(FireClass)
"""Source: EN 13501-6, from memory: Aca burns least, Fca is not tested."""


def reaction_to_fire(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A cable laid indoors has the class that the country asks of every building, and the one usual in its use."""
    buildings = _buildings(link)
    judged = [
        (building, country) for building in buildings if (country := _country(building, context.network)) is not None
    ]
    asked = [(building, country) for building, country in judged if (country,) in limits.keys("least")]
    if not asked:
        yield DoesNotApply("it runs in no building of a country that uses such classes")
        return
    stated = link.cable.fire_class
    at = (*link.path, "fire class")
    if stated is None:
        yield CannotJudge(Unknown(f"{link.tag} states no reaction-to-fire class", at))
        return
    for building, country in asked:
        least = limits.quantity(FireClassAtLeast, "least", country)
        assert least is not None
        values = {"cable": link.tag, "class": stated, "country": country}
        if _is_worse(stated, least):
            yield NotMet("below", at, values | {"least": least.text}, facet=building, cites=(("least", country),))
            continue
        use = context.network.occupancy(building)
        usual = limits.quantity(FireClassAtLeast, "usual", use) if isinstance(use, str) else None
        if usual is not None and _is_worse(stated, usual):
            more = {"usual": usual.text, "use": str(use)}
            yield NotMet("below what is usual", at, values | more, facet=building, cites=(("usual", str(use)),))


def _buildings(link: CableLink) -> tuple[str, ...]:
    """The buildings that a cable runs in; without a route, those that its ends stand in."""
    ends = [end.device.place for end in link.ends if end.device is not None]
    places = [segment.place for segment in link.segments] if link.segments else ends
    inside = [place for place in places if place is not None and not place.is_outside]
    return tuple(dict.fromkeys(place.building or "" for place in inside))


def _country(building: str, network: Network) -> str | None:
    node = network.buildings.get(building)
    own = node.building.country if node is not None else None
    return own or network.design.basis.country


def _names_a_country(network: Network) -> bool:
    return any(node.building.country for node in network.buildings.values()) or bool(network.design.basis.country)


def _is_worse(stated: str, wanted: FireClassAtLeast) -> bool:
    return BEST_FIRST.index(stated) > BEST_FIRST.index(wanted.fire_class)


_VALUES = ("cable", "class", "country")

CHECKS = (
    Check(
        name="reaction-to-fire",
        each=CABLE,
        judge=reaction_to_fire,
        applies_to=all_if(_names_a_country),
        cases={"below": (*_VALUES, "least"), "below what is usual": (*_VALUES, "usual", "use")},
        reads=(
            "basis.country",
            "basis.occupancy",
            "buildings.*.country",
            "buildings.*.occupancy",
            "cables.*.fire class",
            "cables.*.route",
            "cables.*.from",
            "cables.*.to",
            "places.*.exposure",
            "devices.*.place",
        ),
        limits={
            "least": LimitKind(FireClassAtLeast, by=("country",)),
            "usual": LimitKind(FireClassAtLeast, by=("occupancy",)),
        },
    ),
)
