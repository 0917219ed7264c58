"""A cable laid indoors has the class that its country asks of every building, and the one usual in its use.

Source: EN 50575, class by national rule, from memory.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import get_args

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import all_if
from coaxwright.design.quantities import FireClassAtLeast
from coaxwright.design.value_types import QUANTITY, TAG, WORD
from coaxwright.design.words import FireClass
from coaxwright.network import CableLink, Network, Unknown


def reaction_to_fire(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """In each building that a cable runs in, its class is not worse than that of the country, nor than is usual."""
    asked = list(_asked(link, context.network, limits))
    if not asked:
        yield DoesNotApply("no such country")
        return
    stated = link.cable.fire_class
    at = (*link.path, "fire class")
    if stated is None:
        yield CannotJudge(Unknown("no class", at, {"cable": link.tag}))
        return
    for building, country, least in asked:
        values: dict[str, object] = {"cable": link.tag, "class": stated, "country": country}
        if _is_worse(stated, least):
            yield NotMet("below", at, values | {"least": least}, facet=building, cites=(("least", country),))
            continue
        use = context.network.occupancy(building)
        usual = limits.row(FireClassAtLeast, "usual", use) if isinstance(use, str) else None
        if usual is not None and _is_worse(stated, usual):
            values |= {"usual": usual, "use": use}
            yield NotMet("below what is usual", at, values, facet=building, cites=(("usual", str(use)),))


def _asked(link: CableLink, network: Network, limits: Limits) -> Iterator[tuple[str, str, FireClassAtLeast]]:
    """The buildings of a cable, each with its country and the class that this asks for, where it asks for one."""
    for building in _buildings(link):
        node = network.buildings.get(building)
        country = (node.building.country if node is not None else None) or network.design.basis.country
        least = limits.row(FireClassAtLeast, "least", country) if country is not None else None
        if country is not None and least is not None:
            yield building, country, least


def _buildings(link: CableLink) -> tuple[str, ...]:
    """The buildings that a cable runs in; without a route, those that its ends stand in."""
    ends = [end.device.place for end in link.ends if end.device is not None]
    places = [segment.place for segment in link.segments] if link.segments else ends
    inside = [place for place in places if place is not None and not place.is_outside]
    return tuple(dict.fromkeys(place.building or "" for place in inside))


def _names_a_country(network: Network) -> bool:
    return any(node.building.country for node in network.buildings.values()) or bool(network.design.basis.country)


def _is_worse(stated: str, wanted: FireClassAtLeast) -> bool:
    return _BEST_FIRST.index(stated) > _BEST_FIRST.index(wanted.fire_class)


_BEST_FIRST: tuple[str, ...] = get_args(FireClass)
"""Source: EN 13501-6, from memory: Aca burns least, Fca is not tested."""
_VALUES = {"cable": TAG, "class": WORD, "country": WORD}

CHECK = Check(
    name="jacket.reaction-to-fire",
    each=CABLE,
    judge=reaction_to_fire,
    applies_to=all_if(_names_a_country),
    cases={
        "below": _VALUES | {"least": QUANTITY},
        "below what is usual": _VALUES | {"usual": QUANTITY, "use": WORD},
    },
    cannot_judge={"no class": {"cable": TAG}},
    does_not_apply={"no such country": {}},
    limits={
        "least": LimitKind(FireClassAtLeast, by=("country",)),
        "usual": LimitKind(FireClassAtLeast, by=("occupancy",)),
    },
)
