"""What several checks of bonding share: tables of sizes, electrodes, and places that a design may leave unnamed."""

from __future__ import annotations

from coaxwright.design.value_types import TAG, WORD, Phrase, phrase
from coaxwright.network import Bondable, BondNode, Network, PlaceNode, Unknown

TERMINATION = "intersystem bonding termination"
PLACE = phrase(named={"tag": TAG}, unnamed={})
BUILDING = phrase(named={"tag": TAG}, unnamed={})
BONDING_POINT = phrase(shown={"tag": TAG, "kind": WORD, "place": TAG}, missing={})


def line_of(bondable: Bondable) -> str:
    """Which of the two tables of sizes binds: the antenna's or the shield's."""
    return "antenna" if bondable.line == "antenna" else "shield"


def place_of(place: PlaceNode | None) -> Phrase:
    """Where something stands, as far as the design says it."""
    return Phrase("named", {"tag": place.tag}) if place is not None else Phrase("unnamed")


def building_named(tag: str | None) -> Phrase:
    """A building by its tag; without one, the only one."""
    return Phrase("named", {"tag": tag}) if tag else Phrase("unnamed")


def nearest_bonding_point(bondable: Bondable, network: Network) -> Phrase:
    """The building's termination, else its electrode, by tag and place; or that the design shows none."""
    node = network.bonding_point(bondable.device.place.building if bondable.device.place is not None else None)
    if node is None or node.place is None:
        return Phrase("missing")
    return Phrase("shown", {"tag": node.tag, "kind": node.item.kind, "place": node.place.tag})


def relying_on(network: Network, electrode: str) -> list[str]:
    """What is bonded to an electrode, and the terminations that are joined to it, by what they say or by a wire."""
    bonded = [bondable.reference for bondable in network.bonded_at(electrode)]
    return [*bonded, *network.survey.terminations_on(electrode)]


def leads_to_nothing(conductor: BondNode, network: Network) -> Unknown:
    """What is missing where a bonding conductor leads to a tag that names nothing."""
    at, written = network.loose_reference(conductor)
    return Unknown("leads to nothing", at, {"conductor": conductor.tag, "written": written})
