"""An existing cable kept in use loses no more than its class does over its length, and a little.

measured loss - the greatest that its class can have, hot <= excess. Before the network is built nobody has to have
measured. Source of the limit: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coaxwright.catalogue import CableType
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import those
from coaxwright.design.quantities import Decibels, LossAt
from coaxwright.design.value_types import DECIBELS, QUANTITY, TAG, TEXT, WORD, optional
from coaxwright.frozen_value import frozen_value
from coaxwright.network import CableLink, Unknown
from coaxwright.physics.comparison import at_most
from coaxwright.source import Path


def legacy_reuse(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """What was measured is not far above what its class loses."""
    if link.cable.state != "existing" or not context.network.services_on(link.tag):
        yield DoesNotApply("not kept in use")
        return
    measured = list(_measured(link))
    if not measured:
        yield _without_measurement(link, context)
        return
    worst = _worst(link, measured, context)
    if isinstance(worst, Unknown):
        yield CannotJudge(worst)
        return
    most = limits.one(Decibels, "excess")
    if at_most(worst.excess_db, most.ratio_db):
        return
    values = {
        "cable": link.tag,
        "class": worst.of.cable_class.name,
        "measured": worst.measured,
        "expected": worst.expected_db,
        "excess": worst.excess_db,
        "most": most,
        "year": link.cable.installed[:4] if link.cable.installed is not None else None,
    }
    yield NotMet("worn", worst.at, values, cites=(("excess",),), excess=worst.excess_db)


def _measured(link: CableLink) -> Iterator[tuple[Path, LossAt]]:
    """What was measured before it was used again, or else as built, each with the place where it is written."""
    for loss in link.cable.measured_loss or ():
        yield (*link.path, "measured loss"), loss
    for index, reading in enumerate(link.cable.readings or ()):
        if reading.loss is not None and not link.cable.measured_loss:
            yield (*link.path, "readings", index, "loss"), reading.loss


def _without_measurement(link: CableLink, context: CheckContext) -> Verdict:
    if context.network.design.stage != "as-built":
        return DoesNotApply("due when built")
    return CannotJudge(Unknown("not measured", (*link.path, "measured loss"), {"cable": link.tag}))


@frozen_value
class _Measured:
    """A measured loss, and how far it is above what the class has there at most."""

    of: CableType
    at: Path
    measured: LossAt
    expected_db: float

    @property
    def excess_db(self) -> float:
        return self.measured.loss_db - self.expected_db


def _worst(link: CableLink, measured: Sequence[tuple[Path, LossAt]], context: CheckContext) -> _Measured | Unknown:
    """The measured loss that is furthest above that of its class."""
    if not isinstance(link.type, CableType):
        return Unknown("type not understood", (*link.path, "type"), {"cable": link.tag})
    found: list[_Measured] = []
    for at, loss in measured:
        known = context.analysis.table_figures(link, loss.frequency.freq_hz)
        if isinstance(known, Unknown):
            return known
        found.append(_Measured(link.type, at, loss, known.high))
    return max(found, key=lambda loss: loss.excess_db)


CHECK = Check(
    name="cable.legacy-reuse",
    each=CABLE,
    judge=legacy_reuse,
    applies_to=those(lambda link: link.cable.state == "existing"),
    cases={
        "worn": {
            "cable": TAG,
            "class": WORD,
            "measured": QUANTITY,
            "expected": DECIBELS,
            "excess": DECIBELS,
            "most": QUANTITY,
            "year": optional(TEXT),
        }
    },
    cannot_judge={"not measured": {"cable": TAG}},
    does_not_apply={"not kept in use": {}, "due when built": {}},
    limits={"excess": LimitKind(Decibels)},
    former_values={"installed": "[, laid in {year},]"},
)
