"""What a joint of unlike impedances does."""

from __future__ import annotations

from math import inf

from coaxwright.catalogue import UnknownWords
from coaxwright.frozen_value import frozen_value
from coaxwright.network import CableEnd, CableLink, Known, Unknown
from coaxwright.physics.mismatch import (
    reflected_power_share,
    reflection_coefficient,
    return_loss_db,
    ripple_limits_db,
    ripple_period_hz,
)


@frozen_value
class Joint:
    """A cable against a port."""

    cable_ohm: float
    port_ohm: float

    @property
    def reflection(self) -> float:
        return reflection_coefficient(self.port_ohm, self.cable_ohm)

    @property
    def return_loss_db(self) -> float:
        return inf if self.cable_ohm == self.port_ohm else return_loss_db(self.reflection)

    @property
    def reflected_share(self) -> float:
        """Share of the power that goes back."""
        return reflected_power_share(self.reflection)


@frozen_value
class Ripple:
    """How the level at the far end swings with frequency when both ends of a cable reflect."""

    up_db: float
    down_db: float
    period_hz: float


def joint(link: CableLink, end: CableEnd) -> Joint | Unknown:
    """The joint at one end of a cable.

    Where it is not decided which port is meant, ports of one impedance answer all the same.
    """
    if isinstance(link.type, UnknownWords):
        return Unknown("type not understood", (*link.path, "type"), {"cable": link.tag})
    if end.device is None:
        return Unknown("no such device", end.path, {"written": end.written})
    if end.port is not None:
        return Joint(link.type.impedance_ohm, end.port.impedance_ohm)
    impedances = {port.impedance_ohm for port in end.device.ports}
    if len(impedances) != 1:
        return Unknown("port not decided", end.path, {"device": end.device.tag})
    return Joint(link.type.impedance_ohm, impedances.pop())


def ripple(link: CableLink, near: Joint, far: Joint, loss_db: Known) -> Ripple | None:
    """The ripple between the two ends of a cable; None where one of them reflects nothing or the length is unknown."""
    if isinstance(link.length, Unknown) or isinstance(link.type, UnknownWords) or link.length.length_m == 0:
        return None
    if near.reflection == 0 or far.reflection == 0:
        return None
    limits_db = ripple_limits_db(near.reflection, far.reflection, loss_db.low)
    period_hz = ripple_period_hz(link.length.length_m, link.type.cable_class.velocity_factor)
    return Ripple(max(limits_db), min(limits_db), period_hz)
