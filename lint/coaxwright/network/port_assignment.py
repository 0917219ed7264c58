"""Which way each cable runs, and which port each of its ends takes.

Decided from the parts, never from the order in the file: a source only sends, an outlet only receives, and what
follows from those; where the parts leave it open, ``from`` and ``to`` are taken as written. A bare tag takes the
next free port of its direction by the order of the cables' tags, if the ports that are left are alike. Of a tap or
directional coupler, a cable to where a way ends takes a port of its taps: the way through is the trunk's.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping

from coaxwright.catalogue import Direction, Port
from coaxwright.frozen_value import frozen_value
from coaxwright.network.faults import PortConflict, UndecidedPort
from coaxwright.network.tags import tag_order
from coaxwright.source import Path

IN, OUT, EITHER = Direction.IN, Direction.OUT, Direction.EITHER
_SORTS: Mapping[Direction, str] = {IN: "input", OUT: "output", EITHER: "port"}
_TAP = "tap"
"""The group of a tap's or directional coupler's ports that give a share of the signal to what is joined there."""
_TAP_SORT = "tap output"


@frozen_value
class Plug:
    """An end that wants a port: of a cable, or of a part screwed onto the device."""

    owner: str
    path: Path
    device: str
    port: Port | None
    """The port that is named; None where only the device is."""


@frozen_value
class Wire:
    """A cable as the assignment sees it; an end on an unknown device is None."""

    tag: str
    ends: tuple[Plug | None, Plug | None]


@frozen_value
class _Want:
    """What a bare tag asks of a device: a port of this sort, out of these."""

    sort: str
    ports: tuple[Port, ...]


class _Sets:
    """What the ports of a device are together; told once for all devices that have the very same ones."""

    def __init__(self, ports: Mapping[str, tuple[Port, ...]]) -> None:
        self._ports = ports
        self._to_problem: dict[int, _Set] = {}

    def of(self, device: str) -> _Set:
        ports = self._ports[device]
        told = self._to_problem.get(id(ports))
        if told is None:
            told = self._to_problem[id(ports)] = _Set(ports)
        return told


class _Set:
    """The ports of a device."""

    def __init__(self, ports: tuple[Port, ...]) -> None:
        self.ports = ports
        self.directions = {port.direction for port in ports}
        self.inputs = sum(port.direction is IN for port in ports)
        self.outputs = sum(port.direction is OUT for port in ports)
        self.is_joint = len(ports) == 2 and self.directions == {EITHER}
        self.only_receives = self.directions == {IN}
        taps = tuple(port for port in ports if port.group == _TAP)
        self.tap = _Want(_TAP_SORT, taps) if taps else None
        """What a cable asks for that leads from a tap to where a way ends."""
        self.want = {direction: self._want(direction) for direction in (IN, OUT)}

    def _want(self, direction: Direction) -> _Want:
        sort = _SORTS[direction if self.directions - {EITHER} else EITHER]
        return _Want(sort, tuple(port for port in self.ports if port.direction in (direction, EITHER)))


@frozen_value
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
    sets = _Sets(ports)
    turned = _turn(sets, wires)
    wants: dict[Path, _Want] = {}
    plugs: dict[str, list[Plug]] = defaultdict(list)
    for wire in wires:
        first, second = wire.ends
        leaving, arriving = (second, first) if wire.tag in turned else (first, second)
        for plug, other, direction in ((leaving, arriving, OUT), (arriving, leaving, IN)):
            if plug is not None:
                wants[plug.path] = _wanted(sets.of(plug.device), direction, sets.of(other.device) if other else None)
        for plug in wire.ends:
            if plug is not None:
                plugs[plug.device].append(plug)
    for plug in sorted(fittings, key=lambda plug: tag_order(plug.owner)):
        wants[plug.path] = _wanted(sets.of(plug.device), OUT, None)
        plugs[plug.device].append(plug)
    taken: dict[Path, Port] = {}
    undecided: list[UndecidedPort] = []
    conflicts: list[PortConflict] = []
    for device, waiting in plugs.items():
        _fill(device, ports[device], waiting, wants, taken, undecided, conflicts)
    return Assignment(frozenset(turned), taken, tuple(undecided), tuple(conflicts))


def _turn(sets: _Sets, wires: list[Wire]) -> set[str]:
    """The wires whose signal runs from their second end to their first.

    What only sends or only receives is asked first, then the ports that are named: a splitter may stand the other way
    round, as a combiner, and so may a part that was drawn by mistake.
    """
    at: dict[str, list[tuple[Wire, bool]]] = defaultdict(list)
    for wire in wires:
        for plug, first in zip(wire.ends, (True, False), strict=True):
            if plug is not None:
                at[plug.device].append((wire, first))
    way: dict[str, bool] = {}  # True: as written
    for vote in (_vote_of_device, _vote_of_port):
        for wire in wires:
            votes = {vote(sets, wire.ends[0], True), vote(sets, wire.ends[1], False)} - {None}
            if len(votes) == 1 and wire.tag not in way:
                way[wire.tag] = votes == {True}
        _follow(sets, wires, at, way, through_all=vote is _vote_of_port)
    return {tag for tag, as_written in way.items() if not as_written}


def _follow(
    sets: _Sets,
    wires: list[Wire],
    at: Mapping[str, list[tuple[Wire, bool]]],
    way: dict[str, bool],
    through_all: bool,
) -> None:
    """Decide the wires that follow from those decided; at first only through joints of two alike ports."""
    ends = {wire.tag: [plug.device for plug in wire.ends if plug is not None] for wire in wires}
    ballots: dict[str, set[bool]] = defaultdict(set)
    asked = {device for device in at if through_all or sets.of(device).is_joint}
    while asked:  # all devices at once in each round, so that no order of the file can show
        voted: set[str] = set()
        for device in asked:
            known = [way[wire.tag] == first for wire, first in at[device] if wire.tag in way]
            leaving = _direction_of_the_rest(sets.of(device), known)
            if leaving is not None:
                for wire, first in at[device]:
                    if wire.tag not in way:
                        ballots[wire.tag].add(first == leaving)
                        voted.add(wire.tag)
        decided = {tag: ballots[tag] == {True} for tag in voted if len(ballots[tag]) == 1}
        way.update(decided)
        # only there can more follow
        asked = {device for tag in decided for device in ends[tag] if through_all or sets.of(device).is_joint}


def _vote_of_device(sets: _Sets, plug: Plug | None, first: bool) -> bool | None:
    """Whether the device at one end, which only sends or only receives, says that the wire runs as written."""
    return None if plug is None else _vote(sets.of(plug.device).directions, first)


def _vote_of_port(sets: _Sets, plug: Plug | None, first: bool) -> bool | None:
    """Whether the port that is named at one end says so."""
    return None if plug is None or plug.port is None else _vote({plug.port.direction}, first)


def _vote(directions: set[Direction], first: bool) -> bool | None:
    if directions == {OUT}:
        return first
    return not first if directions == {IN} else None


def _direction_of_the_rest(of: _Set, leaving: list[bool]) -> bool | None:
    """What the wires decided so far say of the others at a device: they leave (True), arrive (False), or nothing."""
    arrived, left = leaving.count(False), leaving.count(True)
    if not of.inputs and not of.outputs:  # a joint of two alike ports: one in makes the other out
        return True if (arrived, left) == (1, 0) else False if (arrived, left) == (0, 1) else None
    if of.inputs and arrived >= of.inputs:
        return True
    if of.outputs and left >= of.outputs:
        return False
    return None


def _wanted(of: _Set, direction: Direction, beyond: _Set | None) -> _Want:
    """What an end of a cable asks for, by the way of the signal and by the ports of the device at the other end."""
    if direction is OUT and of.tap is not None and beyond is not None and beyond.only_receives:
        return of.tap
    return of.want[direction]


def _narrowed(want: _Want, claims: Mapping[str, list[Plug]]) -> _Want:
    """What is asked for where the way through a tap is another cable's by name: one of its taps."""
    taps = tuple(port for port in want.ports if port.group == _TAP)
    others = [port for port in want.ports if port.group != _TAP]
    return _Want(_TAP_SORT, taps) if taps and all(port.name in claims for port in others) else want


def _fill(
    device: str,
    ports: tuple[Port, ...],
    waiting: list[Plug],
    wants: Mapping[Path, _Want],
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
    bare = [plug for plug in waiting if plug.port is None]
    asked = {plug.path: _narrowed(wants[plug.path], claims) for plug in bare}
    # Taps first: where they are all taken, what is left is the way through, and a trunk's cable is decided.
    for plug in sorted(bare, key=lambda plug: asked[plug.path].sort != _TAP_SORT):
        want = asked[plug.path]
        fitting = [port for port in want.ports if port in free]
        tenants[want.sort].append(plug)
        if not fitting:
            homeless[want.sort].append(plug)
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
        wanted = [port for port in asked[plugs[0].path].ports if sort == _TAP_SORT or _SORTS[port.direction] == sort]
        others = [plug for port in wanted for plug in claims[port.name]]
        seated = [plug for plug in bare if plug not in tenants[sort] and taken.get(plug.path) in wanted]
        conflicts.append(
            _conflict(device, tuple(port.name for port in wanted), sort, [*tenants[sort], *others, *seated], plugs, ())
        )


def _conflict(
    device: str, names: tuple[str, ...], wanted: str, everyone: list[Plug], homeless: list[Plug], free: tuple[str, ...]
) -> PortConflict:
    owners = sorted((plug.owner for plug in everyone), key=tag_order)
    return PortConflict(device, names, wanted, tuple(owners), tuple(plug.path for plug in homeless), free)
