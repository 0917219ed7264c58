"""The cable classes and devices of a design whose figures its author, or the author's firm, states."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

from coaxwright.catalogue import CableType, Catalogue
from coaxwright.plant.parts import CableLink, DeviceNode
from coaxwright.unchanging import unchanging


@unchanging
class OwnFigures:
    """An entry that no shipped catalogue has, and what in the design is made as it says."""

    name: str
    kind: Literal["cable class", "device"]
    file: str
    document: str
    """What its author names as the source of its figures."""
    used_by: tuple[str, ...]
    """Tags in the order of the plant; none where nothing is made so."""


def own_figures(
    catalogue: Catalogue, cables: Iterable[CableLink], devices: Iterable[DeviceNode]
) -> tuple[OwnFigures, ...]:
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
        OwnFigures(
            name,
            "cable class" if name in catalogue.every_class else "device",
            entry.file,
            entry.document,
            tuple(users.get(name, ())),
        )
        for name, entry in catalogue.own.items()
    ]
    return tuple(sorted(found, key=lambda one: one.kind))
