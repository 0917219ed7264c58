"""What goes in at a port of a passive part does not come out of the others as more.

stated loss + rounding >= least loss, which is 10 log n where a part divides alike between n, and what is left of the
power where it gives some of it aside. Source: conservation of power.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.analysis.losses import said_db
from coaxwright.catalogue import DeviceEntry, Port
from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import DEVICE
from coaxwright.checks.subject_filters import those
from coaxwright.design.quantities import Decibels
from coaxwright.design.value_types import COUNT, DECIBELS, QUANTITY, TAG, WORD
from coaxwright.design.value_types import Values as ValueTypes
from coaxwright.network import DeviceNode
from coaxwright.network.devices import kind_of
from coaxwright.physics.comparison import at_least
from coaxwright.physics.dividing import least_loss_db

_DECIMALS = 2
"""Of the least loss, as its rounding is given: a four-way's 6.0206 dB is shown, and meant, as 6.02 dB."""


def loss_plausible(device: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """What goes in at a port of a passive part does not come out of the others as more."""
    rounding = limits.one(Decibels, "rounding")
    said, entry = device.device.loss, device.entry
    if said is None:
        yield DoesNotApply("no loss stated")
        return
    if entry is None or not entry.is_passive:
        yield DoesNotApply("not passive")
        return
    least_db, ways = max((_least(device, entry, port) for port in device.ports), default=(0.0, 1))
    if at_least(said.loss_db + rounding.ratio_db, round(least_db, _DECIMALS)):
        return
    values: dict[str, object] = {
        "device": device.tag,
        "kind": kind_of(device.device),
        "loss": said,
        "least": least_db,
        "rounding": rounding,
    }
    at, cites, excess_db = (*device.path, "loss"), (("rounding",),), least_db - said.loss_db
    if ways > 1:
        yield NotMet("divides", at, {**values, "ways": ways}, cites=cites, excess=excess_db)
    else:
        yield NotMet("gives aside", at, values, cites=cites, excess=excess_db)


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


_VALUES: ValueTypes = {"device": TAG, "kind": WORD, "loss": DECIBELS, "least": DECIBELS, "rounding": QUANTITY}

CHECK = Check(
    name="level.loss-plausible",
    each=DEVICE,
    judge=loss_plausible,
    applies_to=those(lambda node: node.device.loss is not None),
    cases={"divides": {**_VALUES, "ways": COUNT}, "gives aside": _VALUES},
    does_not_apply={"no loss stated": {}, "not passive": {}},
    limits={"rounding": LimitKind(Decibels)},
)
