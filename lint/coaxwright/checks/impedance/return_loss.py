"""Little comes back to a receiver from the joints behind its outlet: return loss >= limit.

Each reflection is weakened by the way there and back, r 10^(-2A/20). They are added up at the lowest frequency that
comes, where the line weakens them least, and all in step, which some frequency of a band brings about. What was
measured counts before it.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.analysis import LossRange, Outlet, Step, joint
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.impedance._shared import STRAIGHT
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import OUTLET_AND_SERVICE, WantedAt
from coaxwright.design.quantities import Decibels
from coaxwright.design.value_types import DECIBELS, FREQUENCY, QUANTITY, TAG, Phrase, list_of, phrase
from coaxwright.frozen_value import frozen_value
from coaxwright.network import CableEnd, CableLink, DeviceNode, Unknown
from coaxwright.physics.comparison import at_least
from coaxwright.physics.mismatch import return_loss_db

_SAMENESS = 0.005
"""Reflections below this count as none. Source: common practice, no source; a return loss of 46 dB."""


def return_loss(wanted: WantedAt, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The reflections behind an outlet, each weakened by the way there and back, do not add up to too much."""
    least, alone = limits.one(Decibels, "least"), limits.one(Decibels, "alone")
    outlet = context.analysis.outlet(wanted.service.tag, wanted.device.tag)
    if outlet is None or not outlet.readings:
        yield DoesNotApply("nothing comes")
        return
    measured = _measured(wanted.device, outlet)
    if measured:
        yield from _of_readings(wanted, measured, least)
        return
    echoes, missing = _echoes(outlet, outlet.readings[0].index)
    certain_db = _together_db([echo for echo in echoes if echo.unknown is None])
    if not at_least(certain_db, least.ratio_db):
        yield _adds_up(wanted, echoes, certain_db, outlet, least, alone)
    elif missing is not None:
        yield CannotJudge(missing)
    elif not at_least(_together_db(echoes), least.ratio_db):
        yield CannotJudge(next(echo.unknown for echo in echoes if echo.unknown is not None))


@frozen_value
class _Echo:
    """A joint that reflects, as it is seen from the outlet."""

    cable: str
    device: str
    reflection: float
    loss_db: float
    """Of the way from the outlet to the joint, once [dB]; an unknown one on the way counts for nothing."""
    unknown: Unknown | None
    """What is missing to know that loss."""

    @property
    def where(self) -> tuple[str, str]:
        return (self.cable, self.device)

    @property
    def seen(self) -> float:
        """Size of its reflection [-] at the outlet: the way there and back weakens it, r 10^(-2A/20)."""
        return abs(self.reflection) * float(10 ** (-self.loss_db / 10))


def _adds_up(
    wanted: WantedAt, echoes: list[_Echo], certain_db: float, outlet: Outlet, least: Decibels, alone: Decibels
) -> NotMet:
    """Of the services that come over the same joints one stands for all; a joint too poor alone is the root."""
    strongest = sorted(echoes, key=lambda echo: (-echo.seen, echo.where))
    values = {
        "outlet": wanted.device.tag,
        "service": wanted.service.tag,
        "return_loss": certain_db,
        "least": least,
        "frequency": outlet.readings[0].freq_hz,
        "joints": [
            Phrase("joint", _values(echo) | {"return_loss": return_loss_db(echo.reflection)}) for echo in strongest
        ],
        "worst": Phrase("joint", _values(strongest[0])),
    }
    poor = [echo for echo in strongest if not at_least(return_loss_db(echo.reflection), alone.ratio_db)]
    involved = tuple(("cables", echo.cable) for echo in poor)
    group = (wanted.device.tag, *(step for echo in echoes for step in echo.where))
    cites = (("least",),)
    return NotMet("adds up", wanted.device.path, values, at_key=True, cites=cites, involved=involved, group=group)


def _values(echo: _Echo) -> dict[str, object]:
    return {"cable": echo.cable, "device": echo.device}


def _together_db(echoes: list[_Echo]) -> float:
    """Return loss [dB] of reflections all in step: -20 log of the sum of their sizes."""
    return return_loss_db(min(1.0, sum(echo.seen for echo in echoes)))


def _of_readings(wanted: WantedAt, measured: list[tuple[float, float, int]], least: Decibels) -> Iterator[Verdict]:
    worst_db, at_hz, index = min(measured)
    if not at_least(worst_db, least.ratio_db):
        values = {"outlet": wanted.device.tag, "return_loss": worst_db, "frequency": at_hz, "least": least}
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


def _echoes(outlet: Outlet, index: int) -> tuple[list[_Echo], Unknown | None]:
    """The joints from the outlet back to the first part that lets nothing back, and what is missing of another one."""
    found: list[_Echo] = []
    loss_db = 0.0
    unknown: Unknown | None = None
    missing: Unknown | None = None
    for step in reversed(outlet.chain):
        lost = step.losses[index]
        if lost is None:  # the frequency comes another way
            continue
        if step.arrival.cable is None and _is_one_way(step, index):
            break
        nearer, further = _joints(step)
        for link, end in nearer:
            missing = _add_echo(found, link, end, loss_db, unknown) or missing
        loss_db += lost.low if isinstance(lost, LossRange) else 0.0
        unknown = unknown or (lost if isinstance(lost, Unknown) else None)
        for link, end in further:
            missing = _add_echo(found, link, end, loss_db, unknown) or missing
    return found, missing


def _add_echo(
    found: list[_Echo], link: CableLink, end: CableEnd, loss_db: float, unknown: Unknown | None
) -> Unknown | None:
    """Add the joint at an end if it reflects; give what is missing where it is not known.

    A short straight part counts once: what its two ends reflect nearly cancels, as one steps up and the other down.
    """
    here = joint(link, end)
    if isinstance(here, Unknown):
        return here
    if end.device is None or abs(here.reflection) <= _SAMENESS:
        return None
    is_same_part = bool(found) and found[-1].device == end.device.tag
    if not (is_same_part and end.device.device.kind in STRAIGHT):
        found.append(_Echo(link.tag, end.device.tag, here.reflection, loss_db, unknown))
    return None


def _joints(step: Step) -> tuple[list[tuple[CableLink, CableEnd]], list[tuple[CableLink, CableEnd]]]:
    """The joint of a cable that is nearer to the outlet, and the further one; none on the way through a device."""
    link, left = step.arrival.cable, step.arrival.device
    if link is None:
        return [], []
    near, far = (link.far, link.near) if link.far.device is left else (link.near, link.far)
    return [(link, near)], [(link, far)]


def _is_one_way(step: Step, index: int) -> bool:
    """Whether a part gains, or converts, and so keeps what lies behind it apart."""
    lost, entry = step.losses[index], step.arrival.device.entry
    return (isinstance(lost, LossRange) and lost.nominal < 0) or entry is None or not entry.is_passive


_JOINT = {"cable": TAG, "device": TAG}

CHECK = Check(
    name="impedance.return-loss",
    each=OUTLET_AND_SERVICE,
    judge=return_loss,
    cases={
        "adds up": {
            "outlet": TAG,
            "service": TAG,
            "return_loss": DECIBELS,
            "least": QUANTITY,
            "frequency": FREQUENCY,
            "joints": list_of(phrase(joint={**_JOINT, "return_loss": DECIBELS})),
            "worst": phrase(joint=_JOINT),
        },
        "measured": {"outlet": TAG, "return_loss": DECIBELS, "least": QUANTITY, "frequency": FREQUENCY},
    },
    does_not_apply={"nothing comes": {}},
    limits={"least": LimitKind(Decibels), "alone": LimitKind(Decibels)},
)
