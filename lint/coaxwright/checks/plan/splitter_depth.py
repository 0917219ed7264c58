"""Passive splitters stand at few spots on the way to an outlet; those at one spot count once.

An amplifier between begins the count anew, and so does another building or another dwelling.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.catalogue import Direction
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.plan._shared import (
    NO_PLACE,
    PLACE,
    are_in_one_dwelling,
    dividing,
    no_place,
    place_of,
)
from coaxwright.checks.selectors import DEVICE
from coaxwright.design.quantities import Spots
from coaxwright.design.value_types import COUNT, QUANTITY, TAG, WORD, optional
from coaxwright.network import DeviceNode, Network
from coaxwright.network.other_splitters import splitter_with


def splitter_depth(node: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Ahead of it there are fewer spots than may be, or it stands at one of them."""
    network = context.network
    split = network.survey.split(node.tag)
    if split is None:
        yield DoesNotApply("divides nothing")
        return
    most = limits.one(Spots, "most")
    ahead = [
        other
        for other in split.unamplified
        if other.device.owner == node.device.owner and are_in_one_dwelling(other, node, network)
    ]
    if len(ahead) < most.number:
        return
    unplaced = next((splitter for splitter in (node, *ahead) if splitter.place is None), None)
    if unplaced is not None:
        yield CannotJudge(no_place(unplaced))
        return
    spots = {other.place.tag for other in ahead if other.place is not None}
    if (node.place is not None and node.place.tag in spots) or len(spots) < most.number:
        return
    before = ahead[-1]
    outputs = _used_outputs(before, network) - 1 + _used_outputs(node, network)
    values = {
        "splitter": node.tag,
        "place": place_of(node),
        "before": before.tag,
        "before_place": place_of(before),
        "spots": len(spots) + 1,
        "most": most,
        "outputs": outputs,
    }
    single = splitter_with(outputs, before, network)
    case = "single made" if single is not None else "no single"
    more = {} if single is None else {"single": single}
    yield NotMet(case, node.path, {**values, **more}, at_key=True, cites=(("most",),))


def _used_outputs(node: DeviceNode, network: Network) -> int:
    taken = network.tenants(node.tag)
    outputs = [port for port in node.ports if port.direction is Direction.OUT]
    return sum(port.name in taken and taken[port.name] not in network.fittings for port in outputs)


_DEPTH = {
    "splitter": TAG,
    "place": PLACE,
    "before": TAG,
    "before_place": PLACE,
    "spots": COUNT,
    "most": QUANTITY,
    "outputs": COUNT,
    "single": optional(WORD),
}

CHECK = Check(
    name="plan.splitter-depth",
    each=DEVICE,
    judge=splitter_depth,
    applies_to=dividing,
    cases={"single made": {**_DEPTH, "single": WORD}, "no single": _DEPTH},
    cannot_judge=NO_PLACE,
    does_not_apply={"divides nothing": {}},
    limits={"most": LimitKind(Spots)},
)
