"""A modem reaches the level that is wanted at the demarcation point with what it can send.

wanted level + loss of the way back <= highest, hot; highest is what the modem states, else the limit. Source: DOCSIS
PHY 3.0, 6.2.19, found in part.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.analysis import LossRange, Outlet, Reading
from coaxwright.analysis.levels import least_sure_cable
from coaxwright.analysis.remedies import largest_losses
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import OUTLET_AND_SERVICE, WantedAt
from coaxwright.design.quantities import Level
from coaxwright.design.value_types import DECIBELS, FREQUENCY, LEVEL, TAG, Derived, Phrase, list_of, phrase
from coaxwright.network import Unknown
from coaxwright.physics.comparison import at_most


def upstream_level(wanted: WantedAt, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A modem reaches the level that is wanted at the demarcation point with what it can send."""
    node = wanted.device
    is_answered = node in context.network.answering(wanted.service.tag)
    outlet = context.analysis.outlet(wanted.service.tag, node.tag, "up") if is_answered else None
    if outlet is None or not outlet.readings:
        yield DoesNotApply("nothing sent")
        return
    said = node.device.output_level if node.device.kind == "cable modem" else None
    highest = said.high if said is not None else limits.one(Level, "highest")
    needed = [(reading, level) for reading in outlet.readings if isinstance(level := reading.level_dbmv, LossRange)]
    certain = [(reading, level) for reading, level in needed if not at_most(level.low, highest.level_dbmv)]
    perhaps = [(reading, level) for reading, level in needed if not at_most(level.high, highest.level_dbmv)]
    unknown = next((r.level_dbmv for r in outlet.readings if isinstance(r.level_dbmv, Unknown)), None)
    if certain:
        reading, level = max(certain, key=lambda at: at[1].hot)
        cites = () if said is not None else (("highest",),)
        yield _not_met(wanted, outlet, reading, level, highest, cites)
    elif unknown is not None:
        yield CannotJudge(unknown)
    elif perhaps:
        reading, level = max(perhaps, key=lambda at: (at[1].hot, at[0].freq_hz))
        values = {
            "outlet": node.tag,
            "low": Derived(level.low, highest),
            "high": Derived(level.high, highest),
            "frequency": reading.freq_hz,
            "highest": highest,
        }
        yield CannotJudge(Unknown("straddles", least_sure_cable(outlet, reading.index), values))


def _not_met(
    wanted: WantedAt,
    outlet: Outlet,
    reading: Reading,
    level: LossRange,
    highest: Level,
    cites: tuple[tuple[str, ...], ...],
) -> NotMet:
    node, over_db = wanted.device, level.hot - highest.level_dbmv
    steps = largest_losses(outlet.chain, reading.index)
    values = {
        "outlet": node.tag,
        "service": wanted.service.tag,
        "needed": Derived(level.hot, highest),
        "highest": highest,
        "frequency": reading.freq_hz,
        "over": over_db,
        "losses": [Phrase("step", {"part": part, "loss": loss_db}) for part, loss_db in steps],
    }
    return NotMet("high", node.path, values, at_key=True, cites=cites, excess=over_db)


CHECK = Check(
    name="return.upstream-level",
    each=OUTLET_AND_SERVICE,
    judge=upstream_level,
    cases={
        "high": {
            "outlet": TAG,
            "service": TAG,
            "frequency": FREQUENCY,
            "needed": LEVEL,
            "highest": LEVEL,
            "over": DECIBELS,
            "losses": list_of(phrase(step={"part": TAG, "loss": DECIBELS})),
        }
    },
    cannot_judge={"straddles": {"outlet": TAG, "low": LEVEL, "high": LEVEL, "frequency": FREQUENCY, "highest": LEVEL}},
    does_not_apply={"nothing sent": {}},
    limits={"highest": LimitKind(Level)},
)
