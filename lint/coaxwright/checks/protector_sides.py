"""Does the line side of a surge protector face outdoors?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import ENTRY
from coaxwright.network import CableEnd, Entry

LINE, SET = "in", "out"
"""The terminals of a protector in the catalogue: towards the line, and towards the equipment."""


def protector_order(entry: Entry, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """What comes from outdoors is on the line terminal, where the design names the terminals of a surge protector.

    A ground block is a through joint, and has no sides. What enters past the protector, behind a splitter before it,
    is told where that enters.
    """
    protector = context.network.protector_at(entry)
    at: CableEnd | None = None
    for end in (entry.inside_end, entry.outside_end):
        if end is not None and end.device is not None and end.device is protector:
            at = end
    if at is None or at.device is None or at.device.device.kind != "protector":
        yield DoesNotApply("no surge protector stands at an end of it")
        return
    if at.port is None or not at.written.endswith(f".{at.port.name}"):
        yield DoesNotApply("the design does not say which terminal it is joined to")
        return
    wanted = LINE if at is entry.inside_end else SET
    if at.port.name == wanted:
        return
    values = {
        "cable": entry.cable.tag,
        "protector": at.device.tag,
        "port": at.port.name,
        "wanted": wanted,
        "side": "outdoors" if wanted == LINE else "indoors",
    }
    yield NotMet("turned round", at.path, values)


CHECKS = (
    Check(
        name="protector-order",
        each=ENTRY,
        judge=protector_order,
        cases={"turned round": ("cable", "protector", "port", "wanted", "side")},
        reads=(
            "cables.*.from",
            "cables.*.to",
            "cables.*.route",
            "devices.*.kind",
            "devices.*.place",
            "places.*.exposure",
            "places.*.building",
        ),
    ),
)
