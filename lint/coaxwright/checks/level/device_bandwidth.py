"""Every frequency of a service that comes to a device passes to what it is wanted at behind it.

What the device is known to stop, and what lies above the band that it is made for. Below that band a small part is
seldom the limit, and what is missing there shows in the levels. Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from coaxwright.catalogue import Catalogue, DeviceEntry
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import PASSAGE
from coaxwright.design.value_types import FREQUENCY, TAG, TAGS, WORD, WORDS, list_of
from coaxwright.design.value_types import Values as ValueTypes
from coaxwright.network import DeviceNode, Unknown
from coaxwright.network.device_passages import Passage, PortPair
from coaxwright.network.devices import kind_of
from coaxwright.network.service_overlap import IN_HOME, in_home_band


def device_bandwidth(passage: Passage, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Every frequency of a service that comes to a device passes to what it is wanted at behind it."""
    node, entry = passage.device, passage.device.entry
    if entry is None or not passage.legs:
        yield DoesNotApply("begins here")
        return
    is_in_home = passage.service.service.kind == IN_HOME
    lost = list(_lost_in_home(passage, entry, context) if is_in_home else _lost(passage, entry))
    if not lost:
        return
    leg, freqs_hz = max(lost, key=lambda found: max(found[1]))
    values: dict[str, object] = {
        "device": node.tag,
        "kind": kind_of(node.device),
        "service": passage.service.tag,
        "behind": list(dict.fromkeys(device.tag for way, _ in lost for device in way.wanted)),
    }
    stopped = [freq_hz for freq_hz in freqs_hz if entry.passes(leg.one.name, leg.other.name, freq_hz) is False]
    if stopped and not is_in_home:
        turned = context.network.survey.backward(node.tag) is not None
        involved = (node.path,) if turned else ()
        yield NotMet("stops it", node.path, {**values, "stopped": stopped}, at_key=True, involved=involved)
        return
    top_hz, edge_hz, catalogue = max(freqs_hz), _edge_hz(entry, leg), context.network.catalogue
    if is_in_home:
        same, others = _made_for_in_home(node, entry, top_hz, catalogue)
    else:
        same, others = _made(node, entry, (leg.one.group, leg.other.group), passage.service.grid_hz("down"), catalogue)
    if not edge_hz or not (same or others):
        ports = {"device": node.tag, "one": leg.one.name, "other": leg.other.name, "frequency": top_hz}
        yield CannotJudge(Unknown("no figure of a way", node.path, ports))
        return
    values |= {"edge": edge_hz, "top": top_hz, "made": same or others}
    case = "in-home data" if is_in_home else "ends below" if same else "ends below, another size made"
    yield NotMet(case, node.path, values, at_key=True, excess=top_hz - edge_hz)


def _lost(passage: Passage, entry: DeviceEntry) -> Iterator[tuple[PortPair, tuple[float, ...]]]:
    """Frequencies that do not pass because they are stopped, or lie above all that the device is made for."""
    for leg in passage.legs:
        edge_hz = _edge_hz(entry, leg)
        freqs_hz = tuple(
            freq_hz
            for freq_hz in leg.missed_hz
            if freq_hz > edge_hz or entry.passes(leg.one.name, leg.other.name, freq_hz) is False
        )
        if freqs_hz:
            yield leg, freqs_hz


def _lost_in_home(
    passage: Passage, entry: DeviceEntry, context: CheckContext
) -> Iterator[tuple[PortPair, tuple[float, ...]]]:
    """The top of an in-home data band where nothing says what the device does to it, either way and past it."""
    top_hz = in_home_band(context.network, passage.service).high_hz
    for leg in passage.legs:
        near, far = leg.one.name, leg.other.name
        if entry.path(near, far, top_hz) is None and entry.isolation(near, far, top_hz) is None:
            yield leg, (top_hz,)


def _edge_hz(entry: DeviceEntry, leg: PortPair) -> float:
    """The top of what is said between two ports of a device [Hz]."""
    between = [path.high_hz for path in (*entry.paths, *entry.isolations) if path.ends.join(leg.one, leg.other)]
    return max(between, default=0.0)


def _made_for_in_home(
    node: DeviceNode, entry: DeviceEntry, top_hz: float, catalogue: Catalogue
) -> tuple[list[str], list[str]]:
    """Of what passes the top of the band, first of all what is made to let it pass between outputs."""
    same, others = _made(node, entry, None, (top_hz,), catalogue)
    return (
        [name for name in same if "in-home data" in name] or same,
        [name for name in others if "in-home data" in name] or others,
    )


def _made(
    node: DeviceNode, entry: DeviceEntry, ends: tuple[str, str] | None, freqs_hz: Sequence[float], catalogue: Catalogue
) -> tuple[list[str], list[str]]:
    """What is made of a kind and impedance that passes all of these frequencies: of the same size, and of others.

    ``ends``: the groups of ports between which it has to pass them; None for any.
    """
    impedances = {port.impedance_ohm for port in node.ports}
    same: list[str] = []
    others: list[str] = []
    for options, made in catalogue.made(node.device.kind).items():
        ways = set.intersection(
            *({(near.group, far.group) for near, far in made.passing(freq_hz)} for freq_hz in freqs_hz)
        )
        suits = bool(ways) if ends is None or ends[1] not in {port.group for port in made.ports} else ends in ways
        if suits and not made.is_seldom and {port.impedance_ohm for port in made.ports} <= impedances:
            is_same = replace(options, variant=None) == replace(entry.options, variant=None)
            (same if is_same else others).append(made.name)
    return same, others


_COMMON: ValueTypes = {"device": TAG, "kind": WORD, "service": TAG, "behind": TAGS}
_ENDS: ValueTypes = {**_COMMON, "edge": FREQUENCY, "top": FREQUENCY, "made": WORDS}

CHECK = Check(
    name="level.device-bandwidth",
    each=PASSAGE,
    judge=device_bandwidth,
    cases={
        "stops it": {**_COMMON, "stopped": list_of(FREQUENCY)},
        "ends below": _ENDS,
        "ends below, another size made": _ENDS,
        "in-home data": _ENDS,
    },
    does_not_apply={"begins here": {}},
)
