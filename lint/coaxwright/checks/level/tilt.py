"""The level of a service at an outlet differs no more across its band than its receivers bear.

highest level - lowest level <= most, by the usual figures when it is hot, or by what was measured there where that is
two frequencies of the band or more. Source: DOCSIS RFI, band slope, 50 to 750 MHz.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.analysis import LossRange, Outlet
from coaxwright.analysis.remedies import whole_decibels
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.level._shared import measured_dbmv
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import OUTLET_AND_SERVICE, WantedAt
from coaxwright.design.quantities import Decibels, Level
from coaxwright.design.value_types import DECIBELS, FREQUENCY, QUANTITY, TAG, WORD
from coaxwright.network import Unknown
from coaxwright.physics.comparison import at_least, at_most


def tilt(wanted: WantedAt, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The level of a service at an outlet differs no more across its band than its receivers bear."""
    service = wanted.service
    said = service.service.at_outlets
    stated = said.tilt if said is not None else None
    most = stated if stated is not None else limits.row(Decibels, "most", service.service.kind)
    outlet = context.analysis.outlet(service.tag, wanted.device.tag)
    if most is None or outlet is None or len(outlet.readings) < 2:
        yield DoesNotApply("no slope limited", {"kind": service.service.kind})
        return
    levels = _levels(wanted, outlet)
    if isinstance(levels, Unknown):
        yield CannotJudge(levels)
        return
    weakest = limits.row(Level, "judged above", service.service.kind)
    if weakest is not None and any(not at_least(level.hot, weakest.level_dbmv) for _, level in levels):
        yield DoesNotApply("too weak", {"weakest": weakest})
        return
    high_hz, highest = max(levels, key=lambda at: at[1].hot)
    low_hz, lowest = min(levels, key=lambda at: at[1].hot)
    slope_db = highest.hot - lowest.hot
    if at_most(slope_db, most.ratio_db):
        return
    excess_db = slope_db - most.ratio_db
    values = {
        "outlet": wanted.device.tag,
        "service": service.tag,
        "slope": slope_db,
        "most": most,
        "high": high_hz,
        "low": low_hz,
        "equalizer": whole_decibels(excess_db),
    }
    cites = () if stated is not None else (("most", service.service.kind),)
    yield NotMet("steep", wanted.device.path, values, at_key=True, cites=cites, excess=excess_db)


def _levels(wanted: WantedAt, outlet: Outlet) -> tuple[tuple[float, LossRange], ...] | Unknown:
    """Frequency [Hz] and level [dBmV]: as measured at two frequencies or more, else as computed at all of them."""
    measured = [(reading.freq_hz, measured_dbmv(wanted.device, reading.freq_hz)) for reading in outlet.readings]
    found = tuple((freq_hz, LossRange.exactly(level)) for freq_hz, level in measured if level is not None)
    if len(found) > 1:
        return found
    unknown = next((r.level_dbmv for r in outlet.readings if isinstance(r.level_dbmv, Unknown)), None)
    return outlet.known if unknown is None else unknown


CHECK = Check(
    name="level.tilt",
    each=OUTLET_AND_SERVICE,
    judge=tilt,
    cases={
        "steep": {
            "outlet": TAG,
            "service": TAG,
            "slope": DECIBELS,
            "most": QUANTITY,
            "high": FREQUENCY,
            "low": FREQUENCY,
            "equalizer": DECIBELS,
        }
    },
    does_not_apply={"no slope limited": {"kind": WORD}, "too weak": {"weakest": QUANTITY}},
    limits={
        "most": LimitKind(Decibels, by=("service",)),
        "judged above": LimitKind(Level, by=("service",)),
    },
)
