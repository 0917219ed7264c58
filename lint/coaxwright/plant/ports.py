"""Which way each cable runs, and which port each of its ends takes.

Decided from the parts, never from the order in the file: a source only sends, an outlet only receives, and what
follows from those; where the parts leave it open, ``from`` and ``to`` are taken as written. A bare tag takes the
next free port of its direction by the order of the cables' tags, if the ports that are left are alike.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from coaxwright.catalogue import Direction, Port
from coaxwright.plant.faults import PortConflict, UndecidedPort
from coaxwright.plant.tags import tag_order
from coaxwright.source import Path

IN, OUT, EITHER = Direction.IN, Direction.OUT, Direction.EITHER
_SORTS: Mapping[Direction, str] = {IN: "input", OUT: "output", EITHER: "port"}


@dataclass(frozen=True, slots=True)
class Plug:
    """An end that wants a port: of a cable, or of a part screwed onto the device."""

    owner: str
    path: Path
    device: str
    port: Port | None
    """The port that is named; None where only the device is."""


@dataclass(frozen=True, slots=True)
class Wire:
    """A cable as the assignment sees it; an end on an unknown device is None."""

    tag: str
    ends: tuple[Plug | None, Plug | None]


@dataclass(frozen=True, slots=True)
class Assignment:
    """The result: turned cables, taken ports, and what did not fit."""

    turned: frozenset[str]
    """Cables whose signal runs from ``to`` to ``from``."""
    ports: Mapping[Path, Port]
    undecided: tuple[UndecidedPort, ...]
    conflicts: tuple[PortConflict, ...]


def assign(ports: Mapping[str, tuple[Port, ...]], wires: Iterable[Wire], fittings: Iterable[Plug]) -> Assignment:
    """Turn every wire and give every plug a port.

    ``ports`` are each device's; ``fittings`` are parts without a cable, such as terminators, which come last.
    """
    wires = sorted(wires, key=lambda wire: tag_order(wire.tag))
    turned = _turn(ports, wires)
    sends: dict[Path, Direction] = {}  # whether the signal leaves or enters the device at this plug
    plugs: dict[str, list[Plug]] = defaultdict(list)
    for wire in wires:
        away: tuple[Direction, Direction] = (IN, OUT) if wire.tag in turned else (OUT, IN)
        for plug, direction in zip(wire.ends, away, strict=True):
            if plug is not None:
                sends[plug.path] = direction
                plugs[plug.device].append(plug)
    for plug in sorted(fittings, key=lambda plug: tag_order(plug.owner)):
        sends[plug.path] = OUT
        plugs[plug.device].append(plug)
    taken: dict[Path, Port] = {}
    undecided: list[UndecidedPort] = []
    conflicts: list[PortConflict] = []
    for device, waiting in plugs.items():
        _fill(device, ports[device], waiting, sends, taken, undecided, conflicts)
    return Assignment(frozenset(turned), taken, tuple(undecided), tuple(conflicts))


def _turn(ports: Mapping[str, tuple[Port, ...]], wires: list[Wire]) -> set[str]:
    """The wires whose signal runs from their second end to their first."""
    way: dict[str, bool] = {}  # True: as written
    for wire in wires:
        votes = {_vote(ports, wire.ends[0], True), _vote(ports, wire.ends[1], False)} - {None}
        if len(votes) == 1:
            way[wire.tag] = votes == {True}
    at: dict[str, list[tuple[Wire, bool]]] = defaultdict(list)
    for wire in wires:
        for plug, first in zip(wire.ends, (True, False), strict=True):
            if plug is not None:
                at[plug.device].append((wire, first))
    ends = {wire.tag: [plug.device for plug in wire.ends if plug is not None] for wire in wires}
    ballots: dict[str, set[bool]] = defaultdict(set)
    asked = set(at)
    while asked:  # all devices at once in each round, so that no order of the file can show
        voted: set[str] = set()
        for device in asked:
            known = [way[wire.tag] == first for wire, first in at[device] if wire.tag in way]
            leaving = _direction_of_the_rest(ports[device], known)
            if leaving is not None:
                for wire, first in at[device]:
                    if wire.tag not in way:
                        ballots[wire.tag].add(first == leaving)
                        voted.add(wire.tag)
        decided = {tag: ballots[tag] == {True} for tag in voted if len(ballots[tag]) == 1}
        way.update(decided)
        asked = {device for tag in decided for device in ends[tag]}  # only there can more follow
    return {tag for tag, as_written in way.items() if not as_written}


def _vote(ports: Mapping[str, tuple[Port, ...]], plug: Plug | None, first: bool) -> bool | None:
    """Whether the parts at one end alone say that the wire runs as written."""
    if plug is None:
        return None
    directions = {plug.port.direction} if plug.port else {port.direction for port in ports[plug.device]}
    if directions == {OUT}:
        return first
    return not first if directions == {IN} else None


def _direction_of_the_rest(ports: tuple[Port, ...], leaving: list[bool]) -> bool | None:
    """What the wires decided so far say of the others at a device: they leave (True), arrive (False), or nothing."""
    inputs = sum(port.direction is IN for port in ports)
    outputs = sum(port.direction is OUT for port in ports)
    arrived, left = leaving.count(False), leaving.count(True)
    if not inputs and not outputs:  # a joint of two alike ports: one in makes the other out
        return True if (arrived, left) == (1, 0) else False if (arrived, left) == (0, 1) else None
    if inputs and arrived >= inputs:
        return True
    if outputs and left >= outputs:
        return False
    return None


def _fill(
    device: str,
    ports: tuple[Port, ...],
    waiting: list[Plug],
    sends: Mapping[Path, Direction],
    taken: dict[Path, Port],
    undecided: list[UndecidedPort],
    conflicts: list[PortConflict],
) -> None:
    free = list(ports)
    claims: dict[str, list[Plug]] = defaultdict(list)
    for plug in waiting:
        if plug.port is not None:
            claims[plug.port.name].append(plug)
    for port in ports:
        if port.name in claims:
            free.remove(port)
            taken[claims[port.name][0].path] = port
    tenants: dict[str, list[Plug]] = defaultdict(list)
    homeless: dict[str, list[Plug]] = defaultdict(list)
    for plug in waiting:
        if plug.port is not None:
            continue
        direction = sends[plug.path]
        fitting = [port for port in free if port.direction in (direction, EITHER)]
        sort = _SORTS[EITHER if all(port.direction is EITHER for port in ports) else direction]
        tenants[sort].append(plug)
        if not fitting:
            homeless[sort].append(plug)
        elif len({port.group for port in fitting}) > 1:
            undecided.append(UndecidedPort(plug.path, device, tuple(port.name for port in fitting)))
        else:
            taken[plug.path] = fitting[0]
            free.remove(fitting[0])
    for name, plugs in claims.items():
        if len(plugs) > 1:
            group = next(port.group for port in ports if port.name == name)
            alike = tuple(port.name for port in free if port.group == group)
            conflicts.append(_conflict(device, (name,), name, plugs, plugs[1:], alike))
    for sort, plugs in homeless.items():
        wanted = [port for port in ports if _SORTS[port.direction] == sort]
        everyone = [*tenants[sort], *(plug for port in wanted for plug in claims[port.name])]
        conflicts.append(_conflict(device, tuple(port.name for port in wanted), sort, everyone, plugs, ()))


def _conflict(
    device: str, names: tuple[str, ...], wanted: str, everyone: list[Plug], homeless: list[Plug], free: tuple[str, ...]
) -> PortConflict:
    owners = sorted((plug.owner for plug in everyone), key=tag_order)
    return PortConflict(device, names, wanted, tuple(owners), tuple(plug.path for plug in homeless), free)
