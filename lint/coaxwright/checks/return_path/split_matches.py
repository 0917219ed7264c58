"""A device that parts up- and downstream does so where the service does.

top of the return band <= upper edge of the lower side, bottom of the forward band >= lower edge of the upper side.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.return_path._shared import answering, is_shut, return_band, shows_modem
from coaxwright.checks.selectors import PASSAGE
from coaxwright.design.quantities import Band
from coaxwright.design.value_types import BAND, FREQUENCY, TAG, WORD, Phrase, phrase
from coaxwright.design.value_types import Values as ValueTypes
from coaxwright.network import Unknown
from coaxwright.network.device_passages import Passage
from coaxwright.network.devices import kind_of
from coaxwright.network.diplex import diplex_point
from coaxwright.physics.comparison import at_least, at_most

_MADE_SPLITS_HZ = ((42e6, 54e6), (65e6, 85e6), (85e6, 102e6), (204e6, 258e6))
"""Splits that amplifiers and filters are made with [Hz]. Source: common practice, no source."""


def split_matches(passage: Passage, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A device that parts up- and downstream does so where the service does."""
    node, service = passage.device, passage.service.service
    split, up = diplex_point(node), return_band(passage.service)
    if split is None or up is None or service.down is None:
        yield DoesNotApply("parts nothing")
        return
    if any(is_shut(node, leg, up) for leg in passage.legs):
        yield DoesNotApply("one direction")
        return
    down = service.down.band
    is_up_cut = _is_answered(passage, context) and not at_most(up.high_hz, split.up_to_hz)
    is_down_cut = not at_least(down.low_hz, split.down_from_hz)
    if not is_up_cut and not is_down_cut:
        return
    edges = {"up_to": split.up_to_hz, "down_from": split.down_from_hz}
    if not split.is_stated:
        usual = {"device": node.tag, "service": passage.service.tag, **edges}
        yield CannotJudge(Unknown("no split", (*node.path, "split"), usual))
        return
    up_cut_hz, down_cut_hz = up.high_hz - split.up_to_hz, split.down_from_hz - down.low_hz
    values = {
        "device": node.tag,
        "kind": kind_of(node.device),
        "split": Phrase("edges", edges),
        "service": passage.service.tag,
        "up": up,
        "down": down,
        "suiting": _suiting(up, down),
        "lost": up_cut_hz if is_up_cut else down_cut_hz,
    }
    case = "return cut" if is_up_cut else "forward cut"
    yield NotMet(case, (*node.path, "split"), values, excess=max(up_cut_hz, down_cut_hz))


def _is_answered(passage: Passage, context: CheckContext) -> bool:
    """Whether anything answers through a device; taken for granted where nothing is wanted behind it."""
    is_modem_shown = shows_modem(passage.service, context)
    return not passage.legs or any(answering(leg, is_modem_shown) for leg in passage.legs)


def _suiting(up: Band, down: Band) -> Phrase:
    """The first split made that leaves both bands whole, else the service's own edges."""
    made = ((low, high) for low, high in _MADE_SPLITS_HZ if at_most(up.high_hz, low) and at_least(down.low_hz, high))
    up_to_hz, down_from_hz = next(made, (up.high_hz, down.low_hz))
    return Phrase("edges", {"up_to": up_to_hz, "down_from": down_from_hz})


_EDGES: ValueTypes = {"up_to": FREQUENCY, "down_from": FREQUENCY}
_SPLIT: ValueTypes = {
    "device": TAG,
    "kind": WORD,
    "split": phrase(edges=_EDGES),
    "service": TAG,
    "up": BAND,
    "down": BAND,
    "suiting": phrase(edges=_EDGES),
    "lost": FREQUENCY,
}

CHECK = Check(
    name="return.split-matches",
    each=PASSAGE,
    judge=split_matches,
    cases={"return cut": _SPLIT, "forward cut": _SPLIT},
    cannot_judge={"no split": {"device": TAG, "service": TAG, **_EDGES}},
    does_not_apply={"parts nothing": {}, "one direction": {}},
)
