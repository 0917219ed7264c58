"""Is a home wired from one point, with no splitters handed on from room to room?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coaxwright.catalogue import Direction
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import count, listed
from coaxwright.checks.selectors import DEVICE
from coaxwright.design.quantities import Spots
from coaxwright.network import CableLink, DeviceNode, Network, Split, Unknown
from coaxwright.network.other_splitters import larger_splitter, spare_outputs, splitter_with


def home_run(node: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """No room is fed through another: a splitter beside an outlet hands nothing on to other rooms.

    A splitter of the same dwelling ahead of it, with at least as many outlets of its own, is the distribution point.
    Taps on a trunk, loop-through outlets, multiswitches and single-cable satellite are handed on by their nature.
    """
    split = context.network.survey.split(node.tag)
    if split is None:
        yield DoesNotApply("no service is divided in it on its way to an outlet")
        return
    hubs = [hub for hub in split.ahead if _one_dwelling(hub, node, context.network)]
    if hubs and node.place is None and len(split.feeds) > 1:
        yield CannotJudge(_no_place(node))
        return
    found = _handed_on(split, context.network)
    if found is None:
        return
    hub, remote = found
    free = spare_outputs(hub, context.network)
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
    larger = larger_splitter(hub, len(cables) - free, context.network)
    values["larger"] = larger or ""
    yield NotMet("larger made" if larger else "no larger", node.path, values, at_key=True)


def _dividing(nodes: Sequence[DeviceNode], network: Network) -> Sequence[DeviceNode]:
    return [node for node in nodes if network.survey.split(node.tag) is not None]


def _handed_on(split: Split, network: Network) -> tuple[DeviceNode, list[tuple[CableLink, DeviceNode]]] | None:
    """The distribution point, and the outlets of other rooms that a splitter beside an outlet feeds instead of it."""
    node = split.splitter
    if node.place is None or not any(_is_outlet(one) and one.place is node.place for _, one in split.feeds):
        return None
    remote = [
        (link, one)
        for link, one in split.feeds
        if one.place is not None and one.place is not node.place and one.place.building == node.place.building
    ]
    hubs = [hub for hub in split.ahead if _one_dwelling(hub, node, network)]
    if not remote or not hubs:
        return None
    building = node.place.building
    hub = max(reversed(hubs), key=lambda one: _own_outlets(one, building, network))
    return (hub, remote) if _own_outlets(hub, building, network) >= len(remote) else None


def _own_outlets(hub: DeviceNode, building: str | None, network: Network) -> int:
    """The outlets that a splitter feeds itself in a building, which is its own where its place is named."""
    split = network.survey.split(hub.tag)
    return sum(
        _is_outlet(one) and one.place is not None and one.place.building == building
        for _, one in (split.feeds if split is not None else ())
    )


def splitter_depth(node: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Passive splitters stand at few spots on the way to an outlet; those at one spot count once.

    An amplifier between begins the count anew, and so does another building or another dwelling.
    """
    split = context.network.survey.split(node.tag)
    if split is None:
        yield DoesNotApply("no service is divided in it on its way to an outlet")
        return
    most = limits.quantity(Spots, "most")
    assert most is not None
    owner = node.device.owner
    ahead = [
        one for one in split.unamplified if one.device.owner == owner and _one_dwelling(one, node, context.network)
    ]
    if len(ahead) < most.number:
        return
    if _handed_on(split, context.network) is not None:
        yield DoesNotApply("what it hands on to other rooms is told by another rule")
        return
    unplaced = next((one for one in (node, *ahead) if one.place is None), None)
    if unplaced is not None:
        yield CannotJudge(_no_place(unplaced))
        return
    spots = dict.fromkeys(one.place.tag for one in ahead if one.place is not None)
    assert node.place is not None
    if node.place.tag in spots or len(spots) < most.number:
        return
    before = ahead[-1]
    outputs = _used_outputs(before, context.network) - 1 + _used_outputs(node, context.network)
    single = splitter_with(outputs, before, context.network)
    values = {
        "splitter": node.tag,
        "place": node.place.tag,
        "before": before.tag,
        "before_place": _place(before),
        "spots": count(len(spots) + 1, "spot"),
        "most": most.text,
        "outputs": count(outputs, "output"),
        "single": single or "",
    }
    yield NotMet("single made" if single else "no single", node.path, values, at_key=True, cites=(("most",),))


def _used_outputs(node: DeviceNode, network: Network) -> int:
    taken = network.tenants(node.tag)
    outputs = [port for port in node.ports if port.direction is Direction.OUT]
    return sum(port.name in taken and taken[port.name] not in network.fittings for port in outputs)


def _one_dwelling(one: DeviceNode, other: DeviceNode, network: Network) -> bool:
    """Whether two devices are of one dwelling: of one building, and of one unit where several live in it.

    One of which nobody says where it is may be.
    """
    if one.place is not None and other.place is not None and one.place.building != other.place.building:
        return False
    units = [node.tag.rpartition("/")[0] for node in (one, other)]
    occupancy = network.occupancy(_building(one) or _building(other))
    is_single = isinstance(occupancy, Unknown) or occupancy in ("one-family dwelling", "mobile home")
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
        applies_to=_dividing,
        cases={"free outputs": _HOME_RUN, "larger made": _HOME_RUN, "no larger": _HOME_RUN},
        reads=_READS,
    ),
    Check(
        name="splitter-depth",
        each=DEVICE,
        judge=splitter_depth,
        applies_to=_dividing,
        cases={"single made": _DEPTH, "no single": _DEPTH},
        reads=(*_READS, "devices.*.owner"),
        limits={"most": LimitKind(Spots)},
    ),
)
