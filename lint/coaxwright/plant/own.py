"""The cable classes and devices of a design whose figures its author, or the author's firm, states."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import Literal

from coaxwright.catalogue import CableType, Catalogue
from coaxwright.plant.parts import CableLink, DeviceNode
from coaxwright.source import Path
from coaxwright.unchanging import unchanging

_OF_DEVICES = ("gain", "loss", "noise figure", "isolation", "readings")
_OF_CABLES = ("measured loss", "readings")


@unchanging
class OwnFigures:
    """An entry that no shipped catalogue has, or a figure that counts before one, and what in the design has it."""

    name: str
    kind: Literal["cable class", "device", "figure"]
    """A figure stands at things of the design, not in an entry of a catalogue."""
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


def stated_figures(
    cables: Iterable[CableLink], devices: Iterable[DeviceNode], file_of: Callable[[Path], str]
) -> tuple[OwnFigures, ...]:
    """Figures that stand at cables and devices and count before the catalogue's, by figure and file.

    ``file_of`` gives the file in which a path is written.
    """
    users: dict[tuple[str, str], list[str]] = {}
    for figure, tag, path in _stated(cables, devices):
        users.setdefault((figure, file_of(path)), []).append(tag)
    return tuple(
        OwnFigures(figure, "figure", file, f"the author of {file}", tuple(tags))
        for (figure, file), tags in sorted(users.items())
    )


def _stated(cables: Iterable[CableLink], devices: Iterable[DeviceNode]) -> Iterator[tuple[str, str, Path]]:
    for link in cables:
        for figure in _OF_CABLES:
            if getattr(link.cable, figure.replace(" ", "_")) is not None:
                yield figure, link.tag, (*link.path, figure)
    for node in devices:
        for figure in _OF_DEVICES:
            if getattr(node.device, figure.replace(" ", "_")) is not None:
                yield figure, node.tag, (*node.path, figure)
