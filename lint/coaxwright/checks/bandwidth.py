"""Does every device on the way pass the whole band of a service?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from coaxwright.catalogue import Catalogue, DeviceEntry
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.phrasing import article, frequency, listed
from coaxwright.checks.selectors import PASSAGE
from coaxwright.network import DeviceNode, Unknown
from coaxwright.network.device_passages import Passage, PortPair
from coaxwright.network.devices import kind_of
from coaxwright.network.service_overlap import IN_HOME, in_home_band


def device_bandwidth(passage: Passage, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Every frequency of a service that comes to a device passes to what it is wanted at behind it.

    What the device is known to stop, and what lies above the band that it is made for. Below that band a small part is
    seldom the limit, and the rules of levels ask for what is missing there.
    """
    node = passage.device
    entry = node.entry
    if entry is None or not passage.legs:
        yield DoesNotApply("the service begins at it, and passes none of its ways")
        return
    is_in_home = passage.service.service.kind == IN_HOME
    lost = list(_lost_in_home(passage, context) if is_in_home else _lost(passage))
    if not lost:
        return
    leg, freqs_hz = max(lost, key=lambda one: max(one[1]))
    stopped = [freq_hz for freq_hz in freqs_hz if entry.passes(leg.one.name, leg.other.name, freq_hz) is False]
    values = {
        "device": node.tag,
        "kind": article(kind_of(node.device)),
        "service": passage.service.tag,
        "behind": listed(list(dict.fromkeys(device.tag for one, _ in lost for device in one.wanted))),
    }
    if stopped and not is_in_home:
        values["stopped"] = listed([frequency(freq_hz) for freq_hz in stopped])
        yield NotMet("stops it", node.path, values, at_key=True)
        return
    top_hz = max(freqs_hz)
    wanted_hz = (top_hz,) if is_in_home else passage.service.grid_hz("down")
    ends = None if is_in_home else (leg.one.group, leg.other.group)
    same, others = _made(node, entry, ends, wanted_hz, context.network.catalogue)
    edge_hz = _edge_hz(entry, leg)
    if not edge_hz or not (same or others):
        at, ways = frequency(top_hz), f"{leg.one.name} to {leg.other.name}"
        yield CannotJudge(Unknown(f"no figure says what {node.tag} does from {ways} at {at}", node.path))
        return
    values |= {"edge": frequency(edge_hz), "top": frequency(top_hz), "made": listed(same or others, "or")}
    if is_in_home:  # of what passes it, first of all what is made to let it pass between outputs
        same = [name for name in same if "in-home data" in name] or same
        others = [name for name in others if "in-home data" in name] or others
        values["made"] = listed(same or others, "or")
    case = "in-home data" if is_in_home else "ends below" if same else "ends below, another size made"
    yield NotMet(case, node.path, values, at_key=True, excess=top_hz - edge_hz)


def _lost(passage: Passage) -> Iterator[tuple[PortPair, tuple[float, ...]]]:
    """Frequencies that do not pass because they are stopped, or lie above all that the device is made for."""
    entry = passage.device.entry
    assert entry is not None
    for leg in passage.legs:
        edge_hz = _edge_hz(entry, leg)
        freqs_hz = tuple(
            freq_hz
            for freq_hz in leg.missed_hz
            if freq_hz > edge_hz or entry.passes(leg.one.name, leg.other.name, freq_hz) is False
        )
        if freqs_hz:
            yield leg, freqs_hz


def _lost_in_home(passage: Passage, context: CheckContext) -> Iterator[tuple[PortPair, tuple[float, ...]]]:
    """The top of an in-home data band where nothing says what the device does to it, either way and past it."""
    entry = passage.device.entry
    assert entry is not None
    top_hz = in_home_band(context.network, passage.service).high_hz
    for leg in passage.legs:
        one, other = leg.one.name, leg.other.name
        if entry.path(one, other, top_hz) is None and entry.isolation(one, other, top_hz) is None:
            yield leg, (top_hz,)


def _edge_hz(entry: DeviceEntry, leg: PortPair) -> float:
    """The top of what is said between two ports of a device [Hz]."""
    between = [path.high_hz for path in (*entry.paths, *entry.isolations) if path.ends.join(leg.one, leg.other)]
    return max(between, default=0.0)


def _made(
    node: DeviceNode, entry: DeviceEntry, ends: tuple[str, str] | None, freqs_hz: Sequence[float], catalogue: Catalogue
) -> tuple[list[str], list[str]]:
    """What is made of a kind and impedance that passes all of these frequencies: of the same size, and of others.

    ``ends``: the groups of ports between which it has to pass them; None for any.
    """
    impedances = {port.impedance_ohm for port in node.ports}
    same: list[str] = []
    others: list[str] = []
    for options, other in catalogue.made(node.device.kind).items():
        ways = set.intersection(
            *({(one.group, to.group) for one, to in other.passing(freq_hz)} for freq_hz in freqs_hz)
        )
        suits = bool(ways) if ends is None or ends[1] not in {port.group for port in other.ports} else ends in ways
        if suits and not other.is_seldom and {port.impedance_ohm for port in other.ports} <= impedances:
            is_same = replace(options, variant=None) == replace(entry.options, variant=None)
            (same if is_same else others).append(other.name)
    return same, others


_COMMON = ("device", "kind", "service", "behind")
_ENDS = (*_COMMON, "edge", "top", "made")

CHECKS = (
    Check(
        name="device-bandwidth",
        each=PASSAGE,
        judge=device_bandwidth,
        cases={
            "stops it": (*_COMMON, "stopped"),
            "ends below": _ENDS,
            "ends below, another size made": _ENDS,
            "in-home data": _ENDS,
        },
        reads=(
            "services.*.from",
            "services.*.kind",
            "services.*.down",
            "services.*.channels",
            "devices.*.kind",
            "devices.*.variant",
            "devices.*.ways",
            "devices.*.outputs",
            "devices.*.value",
            "devices.*.model",
            "devices.*.split",
            "devices.*.serves",
            "cables.*.from",
            "cables.*.to",
        ),
    ),
)
