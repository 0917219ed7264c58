"""Is a cable kept in use still good enough, and does a cable stand the temperatures of its places?"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.catalogue import CableClass, UnknownWords
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import decibels, listed
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import all_if, those
from coaxwright.design.quantities import Decibels, LossAt, shown
from coaxwright.network import CableLink, Network, Segment, Unknown
from coaxwright.physics.comparison import at_least, at_most


def legacy_reuse(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """An existing cable kept in use loses no more than its class does over its length, and a little.

    Against the greatest that its class can have, hot. Before the network is built nobody has to have measured.
    """
    most = limits.decibels("excess")
    assert most is not None
    measured = link.cable.measured_loss or ()
    if link.cable.state != "existing" or not context.network.services_on(link.tag):
        yield DoesNotApply("it is no existing cable with a service on it")
        return
    if not measured:
        if context.network.design.stage != "as-built":
            yield DoesNotApply("a measurement is due when it is built")
            return
        if any(reading.loss is not None for reading in link.cable.readings or ()):
            yield DoesNotApply("it was measured as built, which is compared elsewhere")
            return
        yield CannotJudge(Unknown(f"the loss of {link.tag} was not measured", (*link.path, "measured loss")))
        return
    worst: tuple[float, LossAt, float] | None = None
    for one in measured:
        known = context.analysis.table_figures(link, one.frequency.freq_hz)
        if isinstance(known, Unknown):
            yield CannotJudge(known)
            return
        excess_db = one.loss_db - known.high
        if worst is None or excess_db > worst[0]:
            worst = (excess_db, one, known.high)
    assert worst is not None
    excess_db, one, class_db = worst
    if at_most(excess_db, most.ratio_db):
        return
    assert not isinstance(link.type, UnknownWords)  # its loss is known
    values = {
        "cable": link.tag,
        "class": link.type.cable_class.name,
        "measured": one.text,
        "expected": decibels(class_db),
        "excess": decibels(excess_db, most.ratio_db),
        "most": most.text,
        "installed": f", laid in {link.cable.installed[:4]}," if link.cable.installed is not None else "",
    }
    yield NotMet("worn", (*link.path, "measured loss"), values, cites=(("excess",),), excess=excess_db)


def temperature_range(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A cable stands the coldest and the hottest of every place that it runs through, so far as both are known."""
    stated = [segment for segment in link.segments if _range(segment) is not None]
    if not stated:
        yield DoesNotApply("no place on its route states a temperature")
        return
    if isinstance(link.type, UnknownWords):
        yield CannotJudge(Unknown(f"the type of {link.tag} is not understood", (*link.path, "type")))
        return
    made = link.type.cable_class
    if made.coldest_c is None or made.hottest_c is None:
        yield DoesNotApply("no temperatures of its class are known")
        return
    wrong = [segment for segment in stated if not _stands(made, segment)]
    if not wrong:
        return
    values = {
        "cable": link.tag,
        "class": made.name,
        "places": listed(list(dict.fromkeys(f"{segment.tag} ({_text(segment)})" for segment in wrong))),
        "rated": f"{shown(made.coldest_c, 1)} to {shown(made.hottest_c, 1)} \N{DEGREE SIGN}C",
    }
    at = (*link.path, "type")
    related = tuple((segment.path, f"it is {_text(segment)} here") for segment in wrong)
    usual = context.network.catalogue.classes.values()
    suiting = [one.name for one in usual if one.impedance_ohm == made.impedance_ohm and _stands_all(one, stated)]
    if suiting:
        yield NotMet("other class", at, values | {"suiting": listed(suiting, "or")}, related=related)
    else:
        yield NotMet("none known", at, values, related=related)


def _states_a_temperature(network: Network) -> bool:
    return any(node.place.temperature is not None for node in network.places.values())


def _range(segment: Segment) -> tuple[float, float] | None:
    temperature = segment.place.place.temperature if segment.place is not None else None
    return (temperature.coldest_c, temperature.hottest_c) if temperature is not None else None


def _text(segment: Segment) -> str:
    assert segment.place is not None
    assert segment.place.place.temperature is not None  # only such segments are told
    return segment.place.place.temperature.text


def _stands(made: CableClass, segment: Segment) -> bool:
    here = _range(segment)
    if here is None:
        return True
    assert made.coldest_c is not None
    assert made.hottest_c is not None
    return at_least(here[0], made.coldest_c) and at_most(here[1], made.hottest_c)


def _stands_all(made: CableClass, stated: list[Segment]) -> bool:
    return made.coldest_c is not None and made.hottest_c is not None and all(_stands(made, one) for one in stated)


_PLACES = ("cable", "class", "places", "rated")

CHECKS = (
    Check(
        name="legacy-reuse",
        each=CABLE,
        judge=legacy_reuse,
        applies_to=those(lambda link: link.cable.state == "existing"),
        cases={"worn": ("cable", "class", "measured", "expected", "excess", "most", "installed")},
        reads=(
            "stage",
            "cables.*.measured loss",
            "cables.*.readings",
            "cables.*.state",
            "cables.*.installed",
            "cables.*.type",
            "cables.*.route",
            "cables.*.length",
            "services.*.from",
        ),
        limits={"excess": LimitKind(Decibels)},
    ),
    Check(
        name="temperature-range",
        each=CABLE,
        judge=temperature_range,
        applies_to=all_if(_states_a_temperature),
        cases={"other class": (*_PLACES, "suiting"), "none known": _PLACES},
        reads=("cables.*.type", "cables.*.route", "places.*.temperature"),
    ),
)
