"""What comes to an input of a multiswitch begins at the output of the converter that has its name.

A receiver asks for one of the four by voltage and tone, and the switch gives it the input of that name.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.catalogue import Port
from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import DEVICE
from coaxwright.checks.subject_filters import kinds
from coaxwright.design.value_types import TAG, Phrase, list_of, phrase
from coaxwright.frozen_value import frozen_value
from coaxwright.network import CableLink, DeviceNode, Network

_SWITCH = "multiswitch"
_QUARTERS = frozenset(("vertical-low", "vertical-high", "horizontal-low", "horizontal-high"))
"""The ports of converters and switches that are named for a polarization and half of the band."""


def inputs_match(node: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """What comes to an input of a multiswitch begins at the output of the converter that has its name."""
    if node.device.kind != _SWITCH:
        yield DoesNotApply("no multiswitch")
        return
    leads = {lead.port.name: lead for lead in _leads(node, context.network)}
    crossed = [leads[port.name] for port in node.ports if port.name in leads and leads[port.name].sent != port.name]
    if not crossed:
        return
    first, *others = (lead.cable for lead in crossed)
    values = {
        "switch": node.tag,
        "wrong": [
            Phrase("comes", {"sent": lead.sent, "input": lead.port.name, "cable": lead.cable.tag}) for lead in crossed
        ],
        "right": [
            Phrase("belongs", {"cable": lead.cable.tag, "switch": node.tag, "input": lead.sent}) for lead in crossed
        ],
    }
    related = tuple((cable.path, "another") for cable in others)
    yield NotMet("crossed", first.path, values, at_key=True, related=related, excess=len(crossed))


@frozen_value
class _Lead:
    """A cable to an input, and the port of the converter at which begins what comes over it."""

    port: Port
    cable: CableLink
    sent: str


def _leads(node: DeviceNode, network: Network) -> Iterator[_Lead]:
    """What comes over a cable to an input named for a quarter, from an output named for one."""
    for service in network.services:
        for arrival in network.signal(service, "down").at(node.tag):
            sent = arrival.way[0].port.name
            if arrival.cable is not None and arrival.port.name in _QUARTERS and sent in _QUARTERS:
                yield _Lead(arrival.port, arrival.cable, sent)


CHECK = Check(
    name="satellite.inputs-match",
    each=DEVICE,
    judge=inputs_match,
    applies_to=kinds(_SWITCH),
    cases={
        "crossed": {
            "switch": TAG,
            "wrong": list_of(phrase(comes={"sent": TAG, "input": TAG, "cable": TAG})),
            "right": list_of(phrase(belongs={"cable": TAG, "switch": TAG, "input": TAG})),
        }
    },
    does_not_apply={"no multiswitch": {}},
    related=("another",),
)
