"""A booster is joined to the antennas, cables and couplers alone that its maker names for it.

Protectors count as neither: the articles on outdoor antennas ask for them. Source: 47 CFR 20.21(a).
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import DEVICE
from coaxwright.checks.subject_filters import kinds
from coaxwright.design.value_types import TAG, TAGS
from coaxwright.network import DeviceNode, Network


def booster_kit(node: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Whatever is joined to the booster, up to its antennas, is named in its kit."""
    if node.device.kind != "cellular booster":
        yield DoesNotApply("no booster")
        return
    if node.device.kit is None:
        yield DoesNotApply("no kit")
        return
    others = [tag for tag in _joined_to(node, context.network) if tag not in node.device.kit]
    if others:
        values = {"booster": node.tag, "others": others, "kit": sorted(set(node.device.kit))}
        yield NotMet("not of the kit", (*node.path, "kit"), values)


def _joined_to(booster: DeviceNode, network: Network) -> Iterator[str]:
    """The cables, and the devices that protect nothing, from a booster out to its antennas and among them."""
    queue, seen = [booster.tag], {booster.tag}
    while queue:
        for link in network.cables_at(queue.pop(0)):
            if link.tag in seen or not link.in_use:
                continue
            seen.add(link.tag)
            yield link.tag
            for end in link.ends:
                if end.device is None or end.device.tag in seen:
                    continue
                seen.add(end.device.tag)
                queue.append(end.device.tag)
                if not end.device.protects:
                    yield end.device.tag


CHECK = Check(
    name="antenna.booster-kit",
    each=DEVICE,
    judge=booster_kit,
    applies_to=kinds("cellular booster"),
    cases={"not of the kit": {"booster": TAG, "others": TAGS, "kit": TAGS}},
    does_not_apply={"no booster": {}, "no kit": {}},
)
