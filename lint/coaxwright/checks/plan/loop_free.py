"""No cable closes a loop: no frequency comes to a port by two ways, or round again."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import CABLE
from coaxwright.design.value_types import FREQUENCY, TAG, TAGS, Phrase, phrase
from coaxwright.network import CableLink


def loop_free(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """The cable is not the one that closes a loop."""
    loop = context.network.survey.loop_closed_by(link.tag)
    if loop is None:
        if not context.network.services_on(link.tag):
            yield DoesNotApply("no service")
        return
    if loop.unknown is not None:
        yield CannotJudge(loop.unknown)
        return
    low_hz, high_hz = loop.hertz[0], loop.hertz[-1]
    values = {
        "cable": link.tag,
        "service": loop.service,
        "device": loop.meets_at.tag,
        "around": list(loop.around),
        "frequencies": Phrase("one" if low_hz == high_hz else "band", {"low": low_hz, "high": high_hz}),
    }
    related = tuple((("cables", tag), "in the loop") for tag in loop.around if tag != link.tag)
    yield NotMet("round" if loop.comes_round else "two ways", link.path, values, at_key=True, related=related)


_LOOP = {
    "cable": TAG,
    "service": TAG,
    "device": TAG,
    "around": TAGS,
    "frequencies": phrase(one={"low": FREQUENCY, "high": FREQUENCY}, band={"low": FREQUENCY, "high": FREQUENCY}),
}

CHECK = Check(
    name="plan.loop-free",
    each=CABLE,
    judge=loop_free,
    cases={"round": _LOOP, "two ways": _LOOP},
    does_not_apply={"no service": {}},
    related=("in the loop",),
)
