"""Cellular boosters: what they may be joined to, and how far apart their antennas have to be."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NeedsPerson, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import decibels, frequency, listed
from coaxwright.checks.selectors import DEVICE
from coaxwright.checks.subject_filters import kinds
from coaxwright.design.quantities import Decibels
from coaxwright.network import DeviceNode, Network, Unknown
from coaxwright.physics.bonds import free_space_loss_db
from coaxwright.physics.comparison import at_least

BOOSTER = "cellular booster"
NO_BOOSTER = "it is no booster"


def booster_kit(node: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A booster is joined to the antennas, cables and couplers alone that its maker names for it.

    Protectors count as neither: the articles on outdoor antennas ask for them. Source: 47 CFR 20.21(a).
    """
    if node.device.kind != BOOSTER or node.device.kit is None:
        yield DoesNotApply(NO_BOOSTER if node.device.kind != BOOSTER else "no kit is stated for it")
        return
    kit = set(node.device.kit)
    others = [tag for tag in _joined_to(node, context.network) if tag not in kit]
    if others:
        values = {"booster": node.tag, "others": listed(others), "kit": listed(sorted(kit))}
        yield NotMet("not of the kit", (*node.path, "kit"), values)


def booster_isolation(node: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The two antennas of a booster are parted by its gain and a margin, or it oscillates.

    isolation >= gain + margin. Where only the distance is stated, the loss of the air alone is told: walls add to it,
    and antennas that look at each other take from it, so that somebody has to measure.
    """
    isolation, apart = node.device.isolation, node.device.antennas_apart
    if node.device.kind != BOOSTER or (isolation is None and apart is None):
        yield DoesNotApply(NO_BOOSTER if node.device.kind != BOOSTER else "nothing is said of how its antennas part")
        return
    gain = node.device.gain
    if gain is None:
        yield CannotJudge(Unknown(f"{node.tag} states no gain", (*node.path, "gain")))
        return
    margin = limits.decibels("margin")
    assert margin is not None
    needed_db = gain.gain_db + margin.ratio_db
    values = {"booster": node.tag, "gain": gain.text, "margin": margin.text}
    if isolation is not None:
        if not at_least(isolation.ratio_db, needed_db):
            short = {
                "isolation": decibels(isolation.ratio_db, needed_db),
                "needed": decibels(needed_db),
                "missing": decibels(needed_db - isolation.ratio_db),
            }
            yield NotMet("too little", (*node.path, "isolation"), {**values, **short})
        return
    assert apart is not None
    lowest_hz = min((hz for hz in _frequencies_hz(node, context.network)), default=None)
    if lowest_hz is None:
        yield CannotJudge(Unknown(f"no service through {node.tag} states its band", node.path))
    elif apart.length_m <= 0 or not at_least(free_space_loss_db(apart.length_m, lowest_hz), needed_db):
        air_db = free_space_loss_db(apart.length_m, lowest_hz) if apart.length_m > 0 else 0.0
        results = {
            "apart": apart.text,
            "air": decibels(air_db, needed_db),
            "frequency": frequency(lowest_hz),
            "needed": decibels(needed_db),
            "rest": decibels(needed_db - air_db),
        }
        yield NeedsPerson("not measured", (*node.path, "antennas apart"), {**values, **results})


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


def _frequencies_hz(booster: DeviceNode, network: Network) -> Iterator[float]:
    for node in network.services.values():
        if booster.tag in node.devices:
            yield from node.grid_hz("down")
            yield from node.grid_hz("up")


CHECKS = (
    Check(
        name="booster-kit",
        each=DEVICE,
        judge=booster_kit,
        applies_to=kinds(BOOSTER),
        cases={"not of the kit": ("booster", "others", "kit")},
        reads=("devices.*.kind", "devices.*.kit", "cables.*.from", "cables.*.to"),
    ),
    Check(
        name="booster-isolation",
        each=DEVICE,
        judge=booster_isolation,
        applies_to=kinds(BOOSTER),
        cases={
            "too little": ("booster", "gain", "margin", "isolation", "needed", "missing"),
            "not measured": ("booster", "gain", "margin", "apart", "air", "frequency", "needed", "rest"),
        },
        reads=(
            "devices.*.kind",
            "devices.*.gain",
            "devices.*.isolation",
            "devices.*.antennas apart",
            "services.*.down.band",
            "services.*.up.band",
        ),
        limits={"margin": LimitKind(Decibels)},
    ),
)
