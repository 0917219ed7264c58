"""The cables in use by what is drawn of their stretches, told for all of them at once."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping

from coaxwright.design.words import Exposure
from coaxwright.frozen_value import frozen_value
from coaxwright.network.nodes import CableLink


@frozen_value
class Stretches:
    """Cables in tag order; one stands wherever any of its stretches does."""

    described: tuple[CableLink, ...]
    """More is said of a stretch than its length."""
    accompanied: tuple[CableLink, ...]
    """Something runs or stands beside a stretch, or shares its raceway."""
    in_raceway: tuple[CableLink, ...]
    by_exposure: Mapping[Exposure, tuple[CableLink, ...]]
    unplaced: tuple[CableLink, ...]
    """No route is drawn, or a place on it names nothing."""

    def at(self, exposures: Iterable[Exposure]) -> tuple[CableLink, ...]:
        """Those with a stretch of one of these exposures, each once."""
        found = {link.tag: link for exposure in exposures for link in self.by_exposure.get(exposure, ())}
        return tuple(found.values())


def stretches(links: Iterable[CableLink]) -> Stretches:
    """Gather what is drawn of the stretches of all cables in use."""
    described: dict[str, CableLink] = {}
    accompanied: dict[str, CableLink] = {}
    in_raceway: dict[str, CableLink] = {}
    unplaced: dict[str, CableLink] = {}
    by_exposure: dict[Exposure, dict[str, CableLink]] = defaultdict(dict)
    for link in links:
        if not link.in_use:
            continue
        tag = link.tag
        if not link.segments:
            unplaced[tag] = link
        for segment in link.segments:
            place, leg, raceway = segment.place, segment.leg, segment.raceway
            if place is None:
                unplaced[tag] = link
            else:
                by_exposure[place.place.exposure][tag] = link
                if place.place.beside:
                    accompanied[tag] = link
            if leg is not None:
                described[tag] = link
                if leg.beside:
                    accompanied[tag] = link
            if raceway is not None:
                in_raceway[tag] = link
                if raceway.holds:
                    accompanied[tag] = link
    return Stretches(
        tuple(described.values()),
        tuple(accompanied.values()),
        tuple(in_raceway.values()),
        {exposure: tuple(found.values()) for exposure, found in by_exposure.items()},
        tuple(unplaced.values()),
    )
