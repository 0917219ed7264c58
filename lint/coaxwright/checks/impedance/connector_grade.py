"""The connectors of a cable have its impedance, within a tenth, and pass the highest frequency that it carries."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.catalogue import UnknownWords
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import those
from coaxwright.design.quantities import Frequency, Impedance
from coaxwright.design.value_types import FREQUENCY, IMPEDANCE, QUANTITY, TAG, WORD, Phrase, list_of, phrase
from coaxwright.network import CableLink, Unknown
from coaxwright.physics.comparison import at_most

_AMBIGUOUS = ("N", "BNC", "TNC")
"""Series that are made in 50 and in 75 ohm. Source: common practice, no source."""


def connector_grade(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Each connector whose series is stated has the cable's impedance and passes what it carries."""
    stated = {
        index: connector.series
        for index, connector in enumerate(link.cable.connectors or ())
        if connector.series is not None
    }
    if not stated:
        yield DoesNotApply("no connector")
        return
    if isinstance(link.type, UnknownWords):
        yield CannotJudge(Unknown("type not understood", (*link.path, "type"), {"cable": link.tag}))
        return
    cable_ohm = link.type.impedance_ohm
    edges_hz = context.analysis.band_edges_hz(link)
    for index, series in stated.items():
        at, facet = (*link.path, "connectors", index, "series"), str(index)
        values: dict[str, object] = {"cable": link.tag, "series": series, "cable_ohm": cable_ohm}
        values["suiting"] = _suiting(cable_ohm, limits)
        own = limits.row(Impedance, "impedance", series)
        highest = limits.row(Frequency, "highest", series)
        if own is not None and not _is_alike(own.impedance_ohm, cable_ohm):
            values["series_ohm"] = own.impedance_ohm
            yield NotMet("impedance", at, values, facet=facet, cites=(("impedance", series),))
        elif highest is not None and edges_hz is not None and not at_most(edges_hz[1], highest.freq_hz):
            values |= {"top": edges_hz[1], "highest": highest}
            yield NotMet("frequency", at, values, facet=facet, cites=(("highest", series),))


def _is_alike(connector_ohm: float, cable_ohm: float) -> bool:
    """Within a tenth: cables of 51.5 or 53.5 ohm take connectors of 50."""
    return at_most(abs(connector_ohm - cable_ohm), 0.1 * connector_ohm)


def _suiting(cable_ohm: float, limits: Limits) -> list[Phrase]:
    """The series that suit a cable, as far as limits tell; those made in both impedances with the one it needs."""
    made = [
        Phrase("series", {"series": series})
        for (series,) in limits.keys("impedance")
        if (own := limits.row(Impedance, "impedance", series)) and _is_alike(own.impedance_ohm, cable_ohm)
    ]
    return [*made, *(Phrase("made in both", {"series": series, "impedance": cable_ohm}) for series in _AMBIGUOUS)]


_SUITING = list_of(phrase(**{"series": {"series": WORD}, "made in both": {"series": WORD, "impedance": IMPEDANCE}}))
_CONNECTOR = {"cable": TAG, "series": WORD, "cable_ohm": IMPEDANCE, "suiting": _SUITING}

CHECK = Check(
    name="impedance.connector-grade",
    each=CABLE,
    judge=connector_grade,
    applies_to=those(lambda link: link.cable.connectors),
    cases={
        "impedance": {**_CONNECTOR, "series_ohm": IMPEDANCE},
        "frequency": {**_CONNECTOR, "top": FREQUENCY, "highest": QUANTITY},
    },
    does_not_apply={"no connector": {}},
    limits={
        "impedance": LimitKind(Impedance, by=("series",)),
        "highest": LimitKind(Frequency, by=("series",)),
    },
)
