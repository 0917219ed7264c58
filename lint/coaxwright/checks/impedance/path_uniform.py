"""The impedance does not change inside a device that matches nothing, nor where a part is screwed on.

Of the cables that suit the ports they join: the change lies between them. Return loss of the step >= limit.
Source of the limit: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.analysis import Joint, joint
from coaxwright.catalogue import DeviceEntry, Port
from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.impedance._shared import STRAIGHT
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import DEVICE
from coaxwright.design.quantities import Decibels
from coaxwright.design.value_types import DECIBELS, IMPEDANCE, QUANTITY, TAG, WORD
from coaxwright.network import CableEnd, CableLink, DeviceNode
from coaxwright.physics.comparison import at_least
from coaxwright.physics.mismatch import minimum_loss_pad, reflection_coefficient, return_loss_db

_DIVIDING = frozenset(("splitter", "tap", "directional coupler", "combiner", "diplexer", "filter", "equalizer"))
"""Kinds that are made of one impedance, but for terminals of twin lead. Source: common practice, no source."""
_TWIN_LEAD_OHM = 300.0


def path_uniform(node: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """No two cables that suit their ports differ where they meet in it, and it suits what it is screwed onto."""
    least = limits.one(Decibels, "return loss")
    on = context.network.fittings.get(node.tag)
    if on is not None and on.device is not None and on.port is not None and node.ports:
        if not _suits(on.port.impedance_ohm, node.ports[0].impedance_ohm, least):
            values = _step(on.port.impedance_ohm, node.ports[0].impedance_ohm, least)
            values |= {"part": node.tag, "kind": node.device.kind, "host": on.device.port_tag(on.port)}
            yield NotMet("screwed on", on.path, values, cites=(("return loss",),))
        return
    if node.device.kind not in STRAIGHT | _DIVIDING or node.entry is None:
        yield DoesNotApply("no part of a line")
        return
    joined = _joined(node, context, least)
    pairs = [(here, there) for here in joined for there in joined]
    if not any(_passes(node.entry, here, there) for (here, _), (there, _) in pairs):
        yield DoesNotApply("nothing meets")
        return
    for (here, link), (there, other) in pairs:
        if _suits(here.impedance_ohm, there.impedance_ohm, least) or not _passes(node.entry, here, there):
            continue
        if not _is_twin_lead(node, here, there):
            yield _inside(node, (here, link), (there, other), least)
            return


def _inside(node: DeviceNode, near: tuple[Port, CableLink], far: tuple[Port, CableLink], least: Decibels) -> NotMet:
    near_ohm, far_ohm = near[0].impedance_ohm, far[0].impedance_ohm
    pad = minimum_loss_pad(max(near_ohm, far_ohm), min(near_ohm, far_ohm))
    values = _step(near_ohm, far_ohm, least) | {
        "device": node.tag,
        "kind": node.device.kind,
        "cable": near[1].tag,
        "other": far[1].tag,
        "pad_loss": pad.loss_db,
    }
    return NotMet("inside", node.path, values, at_key=True, cites=(("return loss",),))


def _joined(node: DeviceNode, context: CheckContext, least: Decibels) -> list[tuple[Port, CableLink]]:
    """The ports at which a cable in use suits the port, in the device's own order."""
    found: dict[str, CableLink] = {}
    for link in context.network.cables_at(node.tag):
        for end in link.ends if link.in_use else ():
            if end.device is not node or end.port is None:
                continue
            if link.is_matched or _is_sound(link, end, least):
                found.setdefault(end.port.name, link)
    return [(port, found[port.name]) for port in node.ports if port.name in found]


def _is_sound(link: CableLink, end: CableEnd, least: Decibels) -> bool:
    here = joint(link, end)
    return isinstance(here, Joint) and at_least(here.return_loss_db, least.ratio_db)


def _passes(entry: DeviceEntry, near: Port, far: Port) -> bool:
    """Whether a signal passes from one port to another at any frequency."""
    return near.name != far.name and any(path.ends.join(near, far) for path in entry.paths)


def _suits(near_ohm: float, far_ohm: float, least: Decibels) -> bool:
    return near_ohm == far_ohm or at_least(_return_loss_db(near_ohm, far_ohm), least.ratio_db)


def _return_loss_db(near_ohm: float, far_ohm: float) -> float:
    """Of two unlike impedances; alike from both sides, and the line is the one that is not zero."""
    return return_loss_db(reflection_coefficient(min(near_ohm, far_ohm), max(near_ohm, far_ohm)))


def _is_twin_lead(node: DeviceNode, here: Port, there: Port) -> bool:
    """A device for twin lead has its transformer inside."""
    return node.device.kind in _DIVIDING and _TWIN_LEAD_OHM in (here.impedance_ohm, there.impedance_ohm)


def _step(near_ohm: float, far_ohm: float, least: Decibels) -> dict[str, object]:
    return {
        "from_ohm": near_ohm,
        "to_ohm": far_ohm,
        "return_loss": _return_loss_db(near_ohm, far_ohm),
        "least": least,
    }


_STEP = {"from_ohm": IMPEDANCE, "to_ohm": IMPEDANCE, "return_loss": DECIBELS, "least": QUANTITY}

CHECK = Check(
    name="impedance.path-uniform",
    each=DEVICE,
    judge=path_uniform,
    cases={
        "inside": {**_STEP, "device": TAG, "kind": WORD, "cable": TAG, "other": TAG, "pad_loss": DECIBELS},
        "screwed on": {**_STEP, "part": TAG, "kind": WORD, "host": TAG},
    },
    does_not_apply={"no part of a line": {}, "nothing meets": {}},
    limits={"return loss": LimitKind(Decibels)},
)
