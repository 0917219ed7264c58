"""Is a home wired from one point, with no splitters handed on from room to room, and with room to spare?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.catalogue import Direction
from coaxwright.checks.contract import CannotJudge, Check, DoesNotApply, NotMet, Site, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import count, listed
from coaxwright.checks.selectors import DEVICE, ITEM, Item
from coaxwright.design.quantities import Spots
from coaxwright.plant import CableLink, DeviceNode, Plant, Split, Unknown, tag_order

_DIVIDING = frozenset(("splitter", "tap", "multiswitch", "drop amplifier"))
"""Kinds at whose outputs an outlet can be joined later."""


def home_run(node: DeviceNode, site: Site, limits: Limits) -> Iterator[Verdict]:
    """No room is fed through another: a splitter beside an outlet hands nothing on to other rooms.

    A splitter of the same dwelling ahead of it, with at least as many outlets of its own, is the distribution point.
    Taps on a trunk, loop-through outlets, multiswitches and single-cable satellite are handed on by their nature.
    """
    split = site.plant.survey.split(node.tag)
    if split is None:
        yield DoesNotApply("no service is divided in it on its way to an outlet")
        return
    hubs = [hub for hub in split.ahead if _one_dwelling(hub, node, site.plant)]
    if hubs and node.place is None and len(split.feeds) > 1:
        yield CannotJudge(_no_place(node))
        return
    found = _handed_on(split, site.plant)
    if found is None:
        return
    hub, remote = found
    free = len([port for port in site.plant.free_ports(hub.tag) if port.direction is Direction.OUT])
    cables = list(dict.fromkeys(link.tag for link, _ in remote))
    values = {
        "splitter": node.tag,
        "place": _place(node),
        "beside": listed([one.tag for _, one in split.feeds if one.place is node.place and _is_outlet(one)]),
        "outlets": listed([one.tag for _, one in remote]),
        "cables": listed(cables),
        "hub": hub.tag,
        "hub_place": _place(hub),
        "free": count(free, "free output"),
    }
    if free >= len(cables):
        yield NotMet("free outputs", node.path, values, at_key=True)
        return
    larger = _larger(hub, len(cables) - free, site.plant)
    values["larger"] = larger or ""
    yield NotMet("larger made" if larger else "no larger", node.path, values, at_key=True)


def _handed_on(split: Split, plant: Plant) -> tuple[DeviceNode, list[tuple[CableLink, DeviceNode]]] | None:
    """The distribution point, and the outlets of other rooms that a splitter beside an outlet feeds instead of it."""
    node = split.splitter
    if node.place is None or not any(_is_outlet(one) and one.place is node.place for _, one in split.feeds):
        return None
    remote = [
        (link, one)
        for link, one in split.feeds
        if one.place is not None and one.place is not node.place and one.place.building == node.place.building
    ]
    hubs = [hub for hub in split.ahead if _one_dwelling(hub, node, plant)]
    if not remote or not hubs:
        return None
    hub = max(reversed(hubs), key=lambda one: _own_outlets(one, plant))
    return (hub, remote) if _own_outlets(hub, plant) >= len(remote) else None


def _own_outlets(hub: DeviceNode, plant: Plant) -> int:
    """The outlets that a splitter feeds itself, in its own building."""
    split = plant.survey.split(hub.tag)
    building = hub.place.building if hub.place is not None else None
    return sum(
        _is_outlet(one) and one.place is not None and one.place.building == building
        for _, one in (split.feeds if split is not None else ())
    )


def splitter_depth(node: DeviceNode, site: Site, limits: Limits) -> Iterator[Verdict]:
    """Passive splitters stand at few spots on the way to an outlet; those at one spot count once.

    An amplifier between begins the count anew, and so does another building or another dwelling.
    """
    split = site.plant.survey.split(node.tag)
    if split is None:
        yield DoesNotApply("no service is divided in it on its way to an outlet")
        return
    most = limits.quantity(Spots, "most")
    assert most is not None
    owner = node.device.owner
    ahead = [one for one in split.unamplified if one.device.owner == owner and _one_dwelling(one, node, site.plant)]
    if len(ahead) < most.number:
        return
    if _handed_on(split, site.plant) is not None:
        yield DoesNotApply("what it hands on to other rooms is told by another rule")
        return
    unplaced = next((one for one in (*ahead, node) if one.place is None), None)
    if unplaced is not None:
        yield CannotJudge(_no_place(unplaced))
        return
    spots = dict.fromkeys(one.place.tag for one in ahead if one.place is not None)
    assert node.place is not None
    if node.place.tag in spots or len(spots) < most.number:
        return
    before = ahead[-1]
    outputs = _used_outputs(before, site.plant) - 1 + _used_outputs(node, site.plant)
    ways = next((one for one in site.plant.catalogue.ways("splitter", before.device.variant) if one >= outputs), None)
    values = {
        "splitter": node.tag,
        "place": node.place.tag,
        "before": before.tag,
        "before_place": _place(before),
        "spots": count(len(spots) + 1, "spot"),
        "most": most.text,
        "outputs": count(outputs, "output"),
        "single": f"{ways}-way splitter" if ways else "",
    }
    yield NotMet("single made" if ways else "no single", node.path, values, at_key=True, cites=(("most",),))


def spare_capacity(item: Item, site: Site, limits: Limits) -> Iterator[Verdict]:
    """An outlet kept in reserve finds a free output, and a raceway kept in reserve a string to pull by.

    Only what a design keeps in reserve is asked about.
    """
    if getattr(item.thing, "state", "") != "reserve":
        yield DoesNotApply("it is not kept in reserve")
        return
    if item.section == "raceways":
        string = site.plant.raceways[item.tag].raceway.pull_string
        if string is None:
            yield CannotJudge(
                Unknown(f"{item.tag} does not say whether it has a pull string", (*item.path, "pull string"))
            )
        elif not string:
            yield NotMet("no string", (*item.path, "pull string"), {"raceway": item.tag})
        return
    node = site.plant.devices.get(item.tag) if item.section == "devices" else None
    if node is None or not _is_outlet(node):
        yield DoesNotApply("it is neither an outlet nor a raceway")
        return
    if any(link.in_use for link in site.plant.cables_at(node.tag)):
        return  # it has its port
    yield from _port_to_spare(node, site.plant)


def _port_to_spare(node: DeviceNode, plant: Plant) -> Iterator[Verdict]:
    """Whether a free output is left for an outlet in reserve, after those before it in tag order."""
    building = _building(node)
    here = [one for one in plant.devices.values() if one.in_use and _building(one) == building]
    dividing = [one for one in here if one.device.kind in _DIVIDING]
    if not dividing:
        yield DoesNotApply("nothing divides a signal in its building")
        return
    spare = sum(_spare_outputs(one, plant) for one in dividing)
    waiting = [
        one for one in here if _is_outlet(one) and one.device.state == "reserve" and not plant.cables_at(one.tag)
    ]
    if waiting.index(node) < spare:
        return
    hub = max(dividing, key=lambda one: (one.device.kind == "splitter", len(one.ports)))
    values = {
        "outlet": node.tag,
        "spare": count(spare, "free output"),
        "reserved": count(len(waiting), "outlet"),
        "hub": hub.tag,
    }
    larger = _larger(hub, len(waiting) - spare, plant)
    values["larger"] = larger or ""
    yield NotMet("no output" if larger else "no output, no larger", node.path, values, at_key=True)


def _spare_outputs(node: DeviceNode, plant: Plant) -> int:
    """The outputs of a divider that are free or only closed; of a tap not the way through."""
    taken = plant.tenants(node.tag)
    closed = {port for port, tenant in taken.items() if tenant in plant.fittings}
    outputs = [port for port in node.ports if port.direction is Direction.OUT]
    taps = [port for port in outputs if port.group == "tap"]
    return sum(port.name not in taken or port.name in closed for port in taps or outputs)


def _larger(hub: DeviceNode, more: int, plant: Plant) -> str | None:
    """A splitter of the same sort with so many more outputs."""
    if hub.device.kind != "splitter" or hub.device.ways is None:
        return None
    needed = hub.device.ways + more
    ways = next((one for one in plant.catalogue.ways("splitter", hub.device.variant) if one >= needed), None)
    return f"{ways}-way splitter" if ways is not None else None


def _used_outputs(node: DeviceNode, plant: Plant) -> int:
    taken = plant.tenants(node.tag)
    outputs = [port for port in node.ports if port.direction is Direction.OUT]
    return sum(port.name in taken and taken[port.name] not in plant.fittings for port in outputs)


def _one_dwelling(one: DeviceNode, other: DeviceNode, plant: Plant) -> bool:
    """Whether two devices are of one dwelling: of one building, and of one unit where several live in it."""
    if _building(one) != _building(other):
        return False
    units = [node.tag.rpartition("/")[0] for node in (one, other)]
    occupancy = plant.occupancy(_building(one))
    is_single = isinstance(occupancy, Unknown) or occupancy == "one-family dwelling"
    return units[0] == units[1] and (is_single or units[0] != "")


def _building(node: DeviceNode) -> str | None:
    return node.place.building if node.place is not None else None


def _is_outlet(node: DeviceNode) -> bool:
    return node.device.kind == "outlet"


def _place(node: DeviceNode) -> str:
    return node.place.tag if node.place is not None else "no place named"


def _no_place(node: DeviceNode) -> Unknown:
    return Unknown(f"{node.tag} names no place", (*node.path, "place"))


_HOME_RUN = ("splitter", "place", "beside", "outlets", "cables", "hub", "hub_place", "free", "larger")
_DEPTH = ("splitter", "place", "before", "before_place", "spots", "most", "outputs", "single")
_SPARE = ("outlet", "spare", "reserved", "hub", "larger")
_READS = (
    "basis.occupancy",
    "places.*.building",
    "services.*.from",
    "services.*.kind",
    "services.*.down",
    "services.*.channels",
    "devices.*.kind",
    "devices.*.ways",
    "devices.*.variant",
    "devices.*.place",
    "devices.*.serves",
    "cables.*.from",
    "cables.*.to",
)

CHECKS = (
    Check(
        name="home-run",
        each=DEVICE,
        judge=home_run,
        cases={"free outputs": _HOME_RUN, "larger made": _HOME_RUN, "no larger": _HOME_RUN},
        reads=_READS,
    ),
    Check(
        name="splitter-depth",
        each=DEVICE,
        judge=splitter_depth,
        cases={"single made": _DEPTH, "no single": _DEPTH},
        reads=(*_READS, "devices.*.owner"),
        limits={"most": LimitKind(Spots)},
    ),
    Check(
        name="spare-capacity",
        each=ITEM,
        judge=spare_capacity,
        cases={"no output": _SPARE, "no output, no larger": _SPARE, "no string": ("raceway",)},
        reads=(
            "places.*.building",
            "devices.*.kind",
            "devices.*.ways",
            "devices.*.place",
            "devices.*.state",
            "devices.*.on",
            "cables.*.from",
            "cables.*.to",
            "raceways.*.state",
            "raceways.*.pull string",
        ),
    ),
)
