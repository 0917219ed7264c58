"""Does each input of a multiswitch get what it is named for?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.phrasing import listed
from coaxwright.checks.selectors import DEVICE
from coaxwright.checks.subject_filters import kinds
from coaxwright.network import DeviceNode, Network
from coaxwright.network.signals import Arrival

_SWITCH = "multiswitch"
_QUARTERS = frozenset(("vertical-low", "vertical-high", "horizontal-low", "horizontal-high"))
"""The ports of converters and switches that are named for a polarisation and half of the band."""


def inputs_match(node: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """What comes to an input of a multiswitch begins at the output of the converter that has its name.

    A receiver asks for one of the four by voltage and tone, and the switch gives it the input of that name.
    """
    if node.device.kind != _SWITCH:
        yield DoesNotApply("it is no multiswitch")
        return
    came = {arrival.port.name: arrival for arrival in _named(node, context.network)}
    crossed = [came[port.name] for port in node.ports if port.name in came and _sent(came[port.name]) != port.name]
    if not crossed:
        return
    wrong, right, cables = [], [], []
    for arrival in crossed:
        assert arrival.cable is not None  # only what comes over a cable is looked at
        cables.append(arrival.cable)
        wrong.append(f"{_sent(arrival)} comes to {arrival.port.name} over {arrival.cable.tag}")
        right.append(f"{arrival.cable.tag} to {node.tag}.{_sent(arrival)}")
    first, *others = cables
    related = tuple((cable.path, "and this one") for cable in others)
    values = {"switch": node.tag, "wrong": listed(wrong), "right": listed(right)}
    yield NotMet("crossed", first.path, values, at_key=True, related=related, excess=len(crossed))


def _named(node: DeviceNode, network: Network) -> Iterator[Arrival]:
    """What comes over a cable to an input named for a quarter, from an output named for one."""
    for service in network.services:
        for arrival in network.signal(service, "down").at(node.tag):
            if arrival.cable is not None and arrival.port.name in _QUARTERS and _sent(arrival) in _QUARTERS:
                yield arrival


def _sent(arrival: Arrival) -> str:
    return arrival.way[0].port.name


CHECKS = (
    Check(
        name="inputs-match",
        each=DEVICE,
        judge=inputs_match,
        applies_to=kinds(_SWITCH),
        cases={"crossed": ("switch", "wrong", "right")},
        reads=("services.*.from", "services.*.down", "devices.*.kind", "cables.*.from", "cables.*.to"),
    ),
)
