"""The cable classes and devices of a design whose figures its author, or the author's firm, states."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Literal

from coaxwright.catalogue import CableType, Catalogue
from coaxwright.design.words import State
from coaxwright.frozen_value import frozen_value
from coaxwright.network.nodes import BondNode, CableLink, DeviceNode, ServiceNode
from coaxwright.source import Path

_OF_DEVICES = (
    *("gain", "loss", "noise figure", "isolation", "readings"),
    *("impedance", "ports", "input level", "output level"),
)
_OF_CABLES = ("measured loss", "readings", "listing", "fire class")
_OF_BONDS = ("readings",)
_OF_SERVICES = ("at outlets",)


@frozen_value
class AuthorValues:
    """An entry that no shipped catalogue has, or a figure that counts before one, and what in the design has it."""

    name: str
    kind: Literal["cable class", "device", "figure"]
    """A figure stands at things of the design, not in an entry of a catalogue."""
    file: str
    document: str
    """What its author names as the source of its figures."""
    used_by: tuple[str, ...]
    """Tags in the order of the network; none where nothing is made so."""


def author_values(
    catalogue: Catalogue, cables: Iterable[CableLink], devices: Iterable[DeviceNode]
) -> tuple[AuthorValues, ...]:
    """Every entry of a design's own or its firm's, cable classes first, in the order of the files."""
    if not catalogue.own:
        return ()
    users: dict[str, list[str]] = {}
    for link in cables:
        if isinstance(link.type, CableType):
            users.setdefault(link.type.cable_class.name, []).append(link.tag)
    for node in devices:
        if node.device.model is not None:
            users.setdefault(node.device.model, []).append(node.tag)
    found = [
        AuthorValues(
            name,
            "cable class" if name in catalogue.every_class else "device",
            entry.file,
            entry.document,
            tuple(users.get(name, ())),
        )
        for name, entry in catalogue.own.items()
    ]
    return tuple(sorted(found, key=lambda one: one.kind))


def stated_figures(
    cables: Iterable[CableLink],
    devices: Iterable[DeviceNode],
    services: Iterable[ServiceNode],
    bonds: Iterable[BondNode],
    file_of: Callable[[Path], str],
) -> tuple[AuthorValues, ...]:
    """What stands at single things and counts before the catalogue or excuses from a rule, by what it is and file.

    ``file_of`` gives the file in which a path is written.
    """
    users: dict[tuple[str, str], list[str]] = {}
    for figure, tag, path in _stated(cables, devices, services, bonds):
        users.setdefault((figure, file_of(path)), []).append(tag)
    return tuple(
        AuthorValues(figure, "figure", file, f"the author of {file}", tuple(tags))
        for (figure, file), tags in sorted(users.items())
    )


def _stated(
    cables: Iterable[CableLink],
    devices: Iterable[DeviceNode],
    services: Iterable[ServiceNode],
    bonds: Iterable[BondNode],
) -> Iterator[tuple[str, str, Path]]:
    for link in cables:
        yield from _of(link.cable, _OF_CABLES, link.tag, link.path)
        yield from _state(link.cable.state, link.tag, link.path)
    for node in devices:
        yield from _of(node.device, _OF_DEVICES, node.tag, node.path)
        yield from _state(node.device.state, node.tag, node.path)
    for service in services:
        yield from _of(service.service, _OF_SERVICES, service.tag, ("services", service.tag))
    for bond in bonds:
        yield from _of(bond.item, _OF_BONDS, bond.tag, bond.path)
        yield from _state(bond.item.state, bond.tag, bond.path)


def _of(thing: object, figures: Iterable[str], tag: str, path: Path) -> Iterator[tuple[str, str, Path]]:
    for figure in figures:
        if getattr(thing, figure.replace(" ", "_")) is not None:
            yield figure, tag, (*path, figure)


def _state(state: State, tag: str, path: Path) -> Iterator[tuple[str, str, Path]]:
    """What is existing is judged more gently, what is in reserve need not be fed, what is abandoned is hardly asked."""
    if state != "new":
        yield f"state {state}", tag, (*path, "state")
