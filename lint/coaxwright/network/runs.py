"""Runs: cables joined end to end through parts that neither divide nor amplify, and the way down from an antenna."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from coaxwright.design.quantities import Length, total
from coaxwright.frozen_value import frozen_value
from coaxwright.network.nodes import CableEnd, CableLink, DeviceNode
from coaxwright.network.tags import tag_order
from coaxwright.network.values import Unknown

if TYPE_CHECKING:
    from coaxwright.network.network import Network


@frozen_value
class Run:
    """Cables in the order of the signal; most runs are one cable."""

    cables: tuple[CableLink, ...]

    @property
    def first(self) -> CableLink:
        """The cable that stands for the run: the first by tag."""
        return min(self.cables, key=lambda link: tag_order(link.tag))

    @property
    def tags(self) -> str:
        return " + ".join(link.tag for link in self.cables)

    @property
    def length(self) -> Length | Unknown:
        """The whole length, or what is missing to tell it."""
        return total_length(self.cables)


def total_length(cables: tuple[CableLink, ...]) -> Length | Unknown:
    """The length of several cables together."""
    lengths: list[Length] = []
    for link in cables:
        if isinstance(link.length, Unknown):
            return link.length
        lengths.append(link.length)
    return total(lengths)


def runs(network: Network) -> Iterator[Run]:
    """Every run of cables in use, by the tag of its first cable; each cable is in one run."""
    done: set[str] = set()
    for tag, link in network.cables.items():
        if tag in done or not link.in_use:
            continue
        chain = [*reversed(_onwards(network, link, link.near.device)), link, *_onwards(network, link, link.far.device)]
        unique = tuple(dict.fromkeys(chain_link.tag for chain_link in chain))
        done.update(unique)
        yield Run(tuple(network.cables[member] for member in unique))


def is_joint(node: DeviceNode) -> bool:
    """Whether a device only joins two cables: two ports, no gain."""
    return node.entry is not None and len(node.ports) == 2 and node.entry.gain is None


def _onwards(network: Network, link: CableLink, device: DeviceNode | None) -> list[CableLink]:
    """The cables that follow ``link`` through joints, beginning at ``device``."""
    found: list[CableLink] = []
    seen = {link.tag}
    while device is not None and is_joint(device):
        others = [other for other in network.cables_at(device.tag) if other.in_use and other.tag not in seen]
        if len(others) != 1:
            break
        link = others[0]
        seen.add(link.tag)
        found.append(link)
        device = link.other_end(device.tag).device
    return found


@frozen_value
class LeadIn:
    """The coax from an outdoor antenna to its first protector, or to where it enters a building without one."""

    cables: tuple[CableLink, ...]
    protector: DeviceNode | None
    building: str | None
    """The building that the coax comes into at its end, where it does."""
    loose_end: CableEnd | None = None
    """The end at which the way is lost, because it names no device."""

    @property
    def length(self) -> Length | Unknown:
        return total_length(self.cables)


def lead_in(network: Network, antenna: DeviceNode) -> LeadIn:
    """Follow the coax of an antenna down to its first protector or to the end of the outdoor part."""
    cables: list[CableLink] = []
    entering = {entry.cable.tag: entry for entry in network.entries}
    device: DeviceNode | None = antenna
    building: str | None = None
    while device is not None:
        here = device.tag
        others = [
            link
            for link in network.cables_at(here)
            if link.in_use and link not in cables and link.near.device is not None and link.near.device.tag == here
        ]
        if not others:
            break
        link = others[0]
        cables.append(link)
        device = link.far.device
        if device is None:
            return LeadIn(tuple(cables), None, None, link.far)
        if link.tag in entering:
            building = entering[link.tag].building
        if device.protects and device.in_use:
            return LeadIn(tuple(cables), device, building or _building_of(device))
        if building is not None or (device.place is not None and not device.place.is_outside):
            break
    return LeadIn(tuple(cables), None, building)


def _building_of(device: DeviceNode) -> str | None:
    return device.place.building if device.place is not None else None
