"""A cable stands the coldest and the hottest of every place that it runs through, so far as both are known."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.catalogue import CableClass, UnknownWords
from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import all_if
from coaxwright.design.quantities import TemperatureRange
from coaxwright.design.value_types import NUMBER, QUANTITY, TAG, WORD, WORDS, Phrase, list_of, phrase
from coaxwright.network import CableLink, Network, Segment, Unknown
from coaxwright.physics.comparison import at_least, at_most


def temperature_range(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Its class is rated for the range of every place on its route."""
    stated = list(_stated(link))
    if not stated:
        yield DoesNotApply("no temperature")
        return
    if isinstance(link.type, UnknownWords):
        yield CannotJudge(Unknown("type not understood", (*link.path, "type"), {"cable": link.tag}))
        return
    made = link.type.cable_class
    if made.coldest_c is None or made.hottest_c is None:
        yield DoesNotApply("class without temperatures")
        return
    wrong = [(segment, range_) for segment, range_ in stated if not _stands(made, range_)]
    if not wrong:
        return
    places = [Phrase("place", {"place": segment.tag, "range": range_}) for segment, range_ in wrong]
    values = {
        "cable": link.tag,
        "class": made.name,
        "places": [place for index, place in enumerate(places) if place not in places[:index]],
        "rated": Phrase("range", {"low": made.coldest_c, "high": made.hottest_c}),
    }
    at = (*link.path, "type")
    related = tuple((segment.path, Phrase("here", {"range": range_})) for segment, range_ in wrong)
    usual = [known for known in context.network.catalogue.classes.values() if known.impedance_ohm == made.impedance_ohm]
    suiting = [known.name for known in usual if all(_stands(known, range_) for _, range_ in stated)]
    if suiting:
        yield NotMet("other class", at, {**values, "suiting": suiting}, related=related)
    else:
        yield NotMet("none known", at, values, related=related)


def _states_a_temperature(network: Network) -> bool:
    return any(node.place.temperature is not None for node in network.places.values())


def _stated(link: CableLink) -> Iterator[tuple[Segment, TemperatureRange]]:
    """The parts of its route whose places state their temperatures, each with these."""
    for segment in link.segments:
        if segment.place is not None and segment.place.place.temperature is not None:
            yield segment, segment.place.place.temperature


def _stands(made: CableClass, here: TemperatureRange) -> bool:
    if made.coldest_c is None or made.hottest_c is None:
        return False
    return at_least(here.coldest_c, made.coldest_c) and at_most(here.hottest_c, made.hottest_c)


_PLACES = {
    "cable": TAG,
    "class": WORD,
    "places": list_of(phrase(place={"place": TAG, "range": QUANTITY})),
    "rated": phrase(range={"low": NUMBER, "high": NUMBER}),
}

CHECK = Check(
    name="cable.temperature-range",
    each=CABLE,
    judge=temperature_range,
    applies_to=all_if(_states_a_temperature),
    cases={"other class": {**_PLACES, "suiting": WORDS}, "none known": _PLACES},
    does_not_apply={"no temperature": {}, "class without temperatures": {}},
    related={"here": {"range": QUANTITY}},
)
