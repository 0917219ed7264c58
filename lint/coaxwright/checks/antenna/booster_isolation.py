"""The two antennas of a booster are parted by its gain and a margin, or it oscillates.

isolation >= gain + margin. Where only the distance is stated, the loss of the air alone is known: walls add to it, and
antennas that look at each other take from it, so that somebody has to measure.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NeedsPerson, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import DEVICE
from coaxwright.checks.subject_filters import kinds
from coaxwright.design.quantities import Decibels
from coaxwright.design.value_types import DECIBELS, FREQUENCY, QUANTITY, TAG
from coaxwright.network import DeviceNode, Network, Unknown
from coaxwright.physics.bonds import free_space_loss_db
from coaxwright.physics.comparison import at_least


def booster_isolation(node: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The isolation that is stated, or else the air between the antennas, loses the gain and the margin."""
    isolation, apart, gain = node.device.isolation, node.device.antennas_apart, node.device.gain
    if node.device.kind != "cellular booster":
        yield DoesNotApply("no booster")
        return
    if isolation is None and apart is None:
        yield DoesNotApply("nothing said")
        return
    if gain is None:
        yield CannotJudge(Unknown("no gain", (*node.path, "gain"), {"booster": node.tag}))
        return
    margin = limits.one(Decibels, "margin")
    needed_db = gain.gain_db + margin.ratio_db
    values = {"booster": node.tag, "gain": gain, "margin": margin, "needed": needed_db}
    if isolation is not None:
        if not at_least(isolation.ratio_db, needed_db):
            short = {"isolation": isolation.ratio_db, "missing": needed_db - isolation.ratio_db}
            yield NotMet("too little", (*node.path, "isolation"), values | short)
        return
    lowest_hz = min(_frequencies_hz(node, context.network), default=None)
    if lowest_hz is None:
        yield CannotJudge(Unknown("no band", node.path, {"booster": node.tag}))
        return
    air_db = free_space_loss_db(apart.length_m, lowest_hz) if apart is not None and apart.length_m > 0 else 0.0
    if not at_least(air_db, needed_db):
        air = {"apart": apart, "air": air_db, "frequency": lowest_hz, "rest": needed_db - air_db}
        yield NeedsPerson("not measured", (*node.path, "antennas apart"), values | air)


def _frequencies_hz(booster: DeviceNode, network: Network) -> Iterator[float]:
    for node in network.services.values():
        if booster.tag in node.devices:
            yield from node.grid_hz("down")
            yield from node.grid_hz("up")


_NEEDED = {"booster": TAG, "gain": QUANTITY, "margin": QUANTITY, "needed": DECIBELS}

CHECK = Check(
    name="antenna.booster-isolation",
    each=DEVICE,
    judge=booster_isolation,
    applies_to=kinds("cellular booster"),
    cases={
        "too little": {**_NEEDED, "isolation": DECIBELS, "missing": DECIBELS},
        "not measured": {**_NEEDED, "apart": QUANTITY, "air": DECIBELS, "frequency": FREQUENCY, "rest": DECIBELS},
    },
    cannot_judge={"no gain": {"booster": TAG}, "no band": {"booster": TAG}},
    does_not_apply={"no booster": {}, "nothing said": {}},
    limits={"margin": LimitKind(Decibels)},
)
