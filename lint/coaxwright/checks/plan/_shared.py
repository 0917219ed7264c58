"""What several checks of the drawing share."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from coaxwright.design.value_types import TAG, Phrase, phrase
from coaxwright.network import DeviceNode, Network, Split, Unknown

PLACE = phrase(named={"tag": TAG}, unnamed={})
NO_PLACE = {"no place": {"device": TAG}}
_LAST_FIGURES = re.compile(r"^(.*?)([0-9]+)(\D*)$")


def next_free(tag: str, is_taken: Callable[[str], bool]) -> str:
    """The tag with the next number that is free: ``C-104`` to ``C-105``; with a number where it has none."""
    match = _LAST_FIGURES.match(tag)
    before, figures, after = match.groups() if match is not None else (tag + "-", "1", "")
    number = int(figures)
    while True:
        number += 1
        candidate = before + str(number).zfill(len(figures)) + after
        if not is_taken(candidate):
            return candidate


def place_of(node: DeviceNode) -> Phrase:
    """Where a device stands, as far as the design says it."""
    return Phrase("named", {"tag": node.place.tag}) if node.place is not None else Phrase("unnamed")


def no_place(node: DeviceNode) -> Unknown:
    """What is missing where a device names no place."""
    return Unknown("no place", (*node.path, "place"), {"device": node.tag})


def dividing(nodes: Sequence[DeviceNode], network: Network) -> Sequence[DeviceNode]:
    """The devices in which a service is divided on its way to an outlet."""
    return [node for node in nodes if network.survey.split(node.tag) is not None]


def are_in_one_dwelling(node: DeviceNode, other: DeviceNode, network: Network) -> bool:
    """Whether two devices are of one dwelling: of one building, and of one unit where several live in it.

    One of which nobody says where it is may be.
    """
    if node.place is not None and other.place is not None and node.place.building != other.place.building:
        return False
    units = [device.tag.rpartition("/")[0] for device in (node, other)]
    occupancy = network.occupancy(building_of(node) or building_of(other))
    is_single = isinstance(occupancy, Unknown) or occupancy in ("one-family dwelling", "mobile home")
    return units[0] == units[1] and (is_single or units[0] != "")


def building_of(node: DeviceNode) -> str | None:
    """The building in which a device stands, where its place names one."""
    return node.place.building if node.place is not None else None


def is_outlet(node: DeviceNode) -> bool:
    """Whether a device is an outlet."""
    return node.device.kind == "outlet"


def handed_on(split: Split, network: Network) -> tuple[DeviceNode, list[tuple[str, DeviceNode]]] | None:
    """The distribution point, and the outlets of other rooms that a splitter beside an outlet feeds instead of it.

    Each outlet with the cable that leads to it.
    """
    node = split.splitter
    if node.place is None or not any(is_outlet(fed) and fed.place is node.place for _, fed in split.feeds):
        return None
    remote = [
        (link.tag, fed)
        for link, fed in split.feeds
        if fed.place is not None and fed.place is not node.place and fed.place.building == node.place.building
    ]
    hubs = [hub for hub in split.ahead if are_in_one_dwelling(hub, node, network)]
    if not remote or not hubs:
        return None
    building = node.place.building
    hub = max(reversed(hubs), key=lambda ahead: _own_outlets(ahead, building, network))
    return (hub, remote) if _own_outlets(hub, building, network) >= len(remote) else None


def _own_outlets(hub: DeviceNode, building: str | None, network: Network) -> int:
    """The outlets that a splitter feeds itself in a building, which is its own where its place is named."""
    split = network.survey.split(hub.tag)
    return sum(
        is_outlet(fed) and fed.place is not None and fed.place.building == building
        for _, fed in (split.feeds if split is not None else ())
    )
