"""How much comes back to a receiver from the joints behind its outlet."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.analysis import LossRange, Outlet, Step, joint
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.impedance_path import STRAIGHT
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import decibels, frequency, listed
from coaxwright.checks.selectors import OUTLET_AND_SERVICE, WantedAt
from coaxwright.design.quantities import Decibels
from coaxwright.frozen_value import frozen_value
from coaxwright.network import CableEnd, CableLink, DeviceNode, Unknown
from coaxwright.physics.comparison import at_least
from coaxwright.physics.mismatch import return_loss_db

_SAMENESS = 0.005
"""Reflections below this are told as none. Source: common practice, no source; a return loss of 46 dB."""


@frozen_value
class _Echo:
    """A joint that reflects, as it is seen from the outlet."""

    where: str
    reflection: float
    loss_db: float
    """Of the way from the outlet to the joint, once [dB]; an unknown one on the way counts for nothing."""
    unknown: Unknown | None
    """What is missing to know that loss."""

    @property
    def seen(self) -> float:
        """Size of its reflection [-] at the outlet: the way there and back weakens it, r 10^(-2A/20)."""
        return abs(self.reflection) * float(10 ** (-self.loss_db / 10))


def path_return_loss(wanted: WantedAt, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The reflections behind an outlet, each weakened by the way there and back, do not add up to too much.

    At the lowest frequency that comes, where the line weakens them least, and all in step, which some frequency of a
    band brings about. A joint that is too poor alone is told where it stands. What was measured counts before it.
    """
    least, alone = limits.decibels("least"), limits.decibels("alone")
    assert least is not None
    assert alone is not None
    outlet = context.analysis.outlet(wanted.service.tag, wanted.device.tag)
    if outlet is None or not outlet.readings:
        yield DoesNotApply("nothing of the service comes here")
        return
    echoes = _echoes(outlet, outlet.readings[0].index)
    if echoes is None or any(not at_least(return_loss_db(echo.reflection), alone.ratio_db) for echo in echoes):
        yield DoesNotApply("a joint on the way is not known, or too poor alone, which is told there")
        return
    if _is_told_with_another(wanted, echoes, context):
        yield DoesNotApply("another service comes over the same joints, and is judged")
        return
    measured = _measured(wanted.device, outlet)
    if measured:
        yield from _of_readings(wanted, measured, least)
        return
    certain_db = _together_db([echo for echo in echoes if echo.unknown is None])
    if not at_least(certain_db, least.ratio_db):
        strongest = sorted(echoes, key=lambda echo: (-echo.seen, echo.where))
        values = {
            "outlet": wanted.device.tag,
            "service": wanted.service.tag,
            "return_loss": decibels(certain_db, least.ratio_db),
            "least": least.text,
            "frequency": frequency(outlet.readings[0].freq_hz),
            "joints": listed([f"{e.where} {decibels(return_loss_db(e.reflection))}" for e in strongest]),
            "worst": strongest[0].where,
        }
        yield NotMet("adds up", wanted.device.path, values, at_key=True, cites=(("least",),))
    elif not at_least(_together_db(echoes), least.ratio_db):
        yield CannotJudge(next(echo.unknown for echo in echoes if echo.unknown is not None))


def _is_told_with_another(wanted: WantedAt, echoes: list[_Echo], context: CheckContext) -> bool:
    """Whether a service before this one, in tag order, comes to the device over the same joints."""
    where = [echo.where for echo in echoes]
    for tag in context.network.survey.begins_or_ends(wanted.device.tag):
        if tag == wanted.service.tag:
            return False
        outlet = context.analysis.outlet(tag, wanted.device.tag)
        others = _echoes(outlet, outlet.readings[0].index) if outlet is not None and outlet.readings else None
        if where and others is not None and [echo.where for echo in others] == where:
            return True
    return False


def _together_db(echoes: list[_Echo]) -> float:
    """Return loss [dB] of reflections all in step: -20 log of the sum of their sizes."""
    return return_loss_db(min(1.0, sum(echo.seen for echo in echoes)))


def _of_readings(wanted: WantedAt, measured: list[tuple[float, float, int]], least: Decibels) -> Iterator[Verdict]:
    worst_db, at_hz, index = min(measured)
    if not at_least(worst_db, least.ratio_db):
        values = {
            "outlet": wanted.device.tag,
            "return_loss": decibels(worst_db, least.ratio_db),
            "frequency": frequency(at_hz),
            "least": least.text,
        }
        at = (*wanted.device.path, "readings", index, "return loss")
        yield NotMet("measured", at, values, cites=(("least",),))


def _measured(node: DeviceNode, outlet: Outlet) -> list[tuple[float, float, int]]:
    """What was measured there in the band of a service: return loss [dB], frequency [Hz], number of the reading.

    A return loss is often written with a minus; its size is meant.
    """
    low_hz, high_hz = outlet.readings[0].freq_hz, outlet.readings[-1].freq_hz
    return [
        (reading.return_loss.loss_db, reading.return_loss.frequency.freq_hz, index)
        for index, reading in enumerate(node.device.readings or ())
        if reading.return_loss is not None and low_hz <= reading.return_loss.frequency.freq_hz <= high_hz
    ]


def _echoes(outlet: Outlet, index: int) -> list[_Echo] | None:
    """The joints from the outlet back to the first part that lets nothing back; None where one is not known.

    A short straight part counts once: what its two ends reflect nearly cancels, as one steps up and the other down.
    """
    found: list[_Echo] = []
    loss_db = 0.0
    unknown: Unknown | None = None
    for step in reversed(outlet.chain):
        lost, link = step.losses[index], step.arrival.cable
        if lost is None:  # the frequency comes another way
            continue
        if link is None and _is_one_way(step, index):
            break
        ends = () if link is None else _ends(link, step)
        for number, end in enumerate(ends):
            if number == 1:
                loss_db += lost.low if isinstance(lost, LossRange) else 0.0
                unknown = unknown or (lost if isinstance(lost, Unknown) else None)
            assert link is not None
            here = joint(link, end)
            if isinstance(here, Unknown):
                return None
            if end.device is None or abs(here.reflection) <= _SAMENESS:
                continue
            is_same_part = bool(found) and found[-1].where.endswith(f" at {end.device.tag}")
            if not (is_same_part and end.device.device.kind in STRAIGHT):
                found.append(_Echo(f"{link.tag} at {end.device.tag}", here.reflection, loss_db, unknown))
        if link is None and isinstance(lost, LossRange):
            loss_db += lost.low
    return found


def _ends(link: CableLink, step: Step) -> tuple[CableEnd, CableEnd]:
    """The ends of a cable, first the one that the signal leaves."""
    left = step.arrival.device
    return (link.far, link.near) if link.far.device is left else (link.near, link.far)


def _is_one_way(step: Step, index: int) -> bool:
    """Whether a part gains, or converts, and so keeps what lies behind it apart."""
    lost, entry = step.losses[index], step.arrival.device.entry
    return (isinstance(lost, LossRange) and lost.nominal < 0) or entry is None or not entry.is_passive


CHECKS = (
    Check(
        name="path-return-loss",
        each=OUTLET_AND_SERVICE,
        judge=path_return_loss,
        cases={
            "adds up": ("outlet", "service", "return_loss", "least", "frequency", "joints", "worst"),
            "measured": ("outlet", "return_loss", "least", "frequency"),
        },
        reads=(
            "services.*.from",
            "services.*.down",
            "services.*.channels",
            "devices.*.serves",
            "devices.*.impedance",
            "devices.*.ports",
            "devices.*.readings",
            "cables.*.type",
            "cables.*.route",
            "cables.*.length",
        ),
        limits={"least": LimitKind(Decibels), "alone": LimitKind(Decibels)},
    ),
)
