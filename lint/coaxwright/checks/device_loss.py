"""Can a part lose as little as the design says?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.analysis.losses import said_db
from coaxwright.catalogue import DeviceEntry, Port
from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import article, decibels
from coaxwright.checks.selectors import DEVICE
from coaxwright.checks.subject_filters import those
from coaxwright.design.quantities import Decibels
from coaxwright.network import DeviceNode
from coaxwright.network.devices import kind_of
from coaxwright.physics.comparison import at_least
from coaxwright.physics.dividing import least_loss_db

_DECIMALS = 2
"""Of the least loss, as its rounding is given: a four-way's 6.0206 dB is told, and meant, as 6.02 dB."""


def loss_plausible(device: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """What goes in at a port of a passive part does not come out of the others as more."""
    rounding = limits.decibels("rounding")
    assert rounding is not None
    said, entry = device.device.loss, device.entry
    if said is None:
        yield DoesNotApply("no loss of its own is stated")
        return
    if entry is None or not entry.is_passive:
        yield DoesNotApply("it is not known, or has power of its own")
        return
    least_db, ways = max((_least(device, entry, port) for port in device.ports), default=(0.0, 1))
    if at_least(said.loss_db + rounding.ratio_db, round(least_db, _DECIMALS)):
        return
    values = {
        "device": device.tag,
        "kind": article(kind_of(device.device)),
        "loss": said.text,
        "ways": str(ways),
        "least": decibels(least_db, said.loss_db),
        "rounding": rounding.text,
    }
    case = "divides" if ways > 1 else "gives aside"
    at = (*device.path, "loss")
    yield NotMet(case, at, values, cites=(("rounding",),), excess=least_db - said.loss_db)


def _least(device: DeviceNode, entry: DeviceEntry, port: Port) -> tuple[float, int]:
    """The least loss [dB] that conservation of power leaves, from one port, and between how many it divides."""
    worst = (0.0, 1)
    for freq_hz in dict.fromkeys((path.low_hz + path.high_hz) / 2 for path in entry.paths):
        ways, taken = 0, 0.0
        for other in device.ports:
            path = entry.path(port.name, other.name, freq_hz) if other.name != port.name else None
            if path is None:
                continue
            if said_db(device, port, other, path) is not None:
                ways += 1
            else:
                taken += 10 ** (-path.loss.nominal_db / 10)
        if ways and taken < 1:
            worst = max(worst, (least_loss_db(ways, taken), ways))
    return worst


_VALUES = ("device", "kind", "loss", "least", "rounding")

CHECKS = (
    Check(
        name="loss-plausible",
        each=DEVICE,
        judge=loss_plausible,
        applies_to=those(lambda node: node.device.loss is not None),
        cases={"divides": (*_VALUES, "ways"), "gives aside": _VALUES},
        reads=(
            "devices.*.kind",
            "devices.*.variant",
            "devices.*.ways",
            "devices.*.outputs",
            "devices.*.value",
            "devices.*.loss",
        ),
        limits={"rounding": LimitKind(Decibels)},
    ),
)
