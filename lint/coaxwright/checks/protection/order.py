"""What comes from outdoors is on the line terminal of a surge protector, where the design names its terminals.

A ground block is a through joint, and has no sides. What enters past the protector, behind a splitter before it, is the
business of that entry.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import ENTRY
from coaxwright.design.value_types import TAG, WORD
from coaxwright.network import CableEnd, DeviceNode, Entry, Network

LINE, EQUIPMENT = "in", "out"
"""The terminals of a protector in the catalogue: for the line, and for the equipment."""


def order(entry: Entry, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The outdoor cable is on the line terminal, the indoor one on the other."""
    found = _at_a_surge_protector(entry, context.network)
    if found is None:
        yield DoesNotApply("no surge protector")
        return
    end, protector = found
    if end.port is None or not end.written.endswith("." + end.port.name):
        yield DoesNotApply("terminal not said")
        return
    wanted = LINE if end is entry.inside_end else EQUIPMENT
    if end.port.name != wanted:
        values = {
            "cable": entry.cable.tag,
            "protector": protector.tag,
            "port": end.port.name,
            "wanted": wanted,
            "side": "outdoors" if wanted == LINE else "indoors",
        }
        yield NotMet("turned round", end.path, values)


def _at_a_surge_protector(entry: Entry, network: Network) -> tuple[CableEnd, DeviceNode] | None:
    """The end of an entry's cable at the surge protector that serves the entry."""
    protector = network.protector_at(entry)
    if not isinstance(protector, DeviceNode) or protector.device.kind != "protector":
        return None
    ends = [end for end in (entry.outside_end, entry.inside_end) if end is not None and end.device is protector]
    return (ends[0], protector) if ends else None


CHECK = Check(
    name="protection.order",
    each=ENTRY,
    judge=order,
    cases={
        "turned round": {
            "cable": TAG,
            "protector": TAG,
            "port": WORD,
            "wanted": WORD,
            "side": WORD,
        }
    },
    does_not_apply={"no surge protector": {}, "terminal not said": {}},
)
