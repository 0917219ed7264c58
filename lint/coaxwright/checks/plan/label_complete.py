"""Where a design gives labels, every cable has them, and no two that could be taken for one another are alike."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.plan._shared import next_free
from coaxwright.checks.selectors import CABLE
from coaxwright.checks.subject_filters import all_if
from coaxwright.design.value_types import TAG, TEXT, Phrase, list_of, phrase
from coaxwright.network import CableEnd, CableLink


def label_complete(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """It bears labels, and none of them hangs where it could be another cable's."""
    labels = context.network.survey.labels
    if not labels:
        yield DoesNotApply("no labels")
        return
    own = link.cable.labels
    if own is None:
        values: dict[str, object] = {"cable": link.tag, "proposed": _proposed(link, context)}
        yield NotMet("missing", link.path, values, at_key=True)
        return
    for label in dict.fromkeys(own):
        bearing = labels[label.casefold()]
        earlier = bearing[: bearing.index(link)]
        other = next((before for before in earlier if _can_be_mixed_up(link, before, label)), None)
        if other is not None:
            free = next_free(label, lambda text: text.casefold() in labels)
            values = {"cable": link.tag, "label": label, "other": other.tag, "proposed": free}
            at, related = (*link.path, "labels"), (((*other.path, "labels"), "the other"),)
            yield NotMet("alike", at, values, facet=label, related=related)


def _can_be_mixed_up(link: CableLink, other: CableLink, label: str) -> bool:
    """Whether a label tells two cables apart nowhere: not by their colors, nor by the spots where it hangs.

    A label at one end may say where the other leads, and so hang at several spots; one for both ends names the cable.
    """
    colors = {cable.color.casefold() for cable in (link.cable, other.cable) if cable.color is not None}
    if len(colors) > 1:
        return False
    if 1 in (len(link.cable.labels or ()), len(other.cable.labels or ())):
        return True
    return any(_is_one_spot(here, there) for here in _ends_with(link, label) for there in _ends_with(other, label))


def _is_one_spot(here: CableEnd, there: CableEnd) -> bool:
    if here.device is None or there.device is None:
        return False
    if here.device is there.device:
        return True
    return here.device.place is not None and here.device.place is there.device.place


def _ends_with(link: CableLink, label: str) -> Iterator[CableEnd]:
    """The ends at which a cable bears a label."""
    labels = link.cable.labels or []
    for end in link.ends:
        written = labels[0 if end.path[-1] == "from" else -1]
        if written.casefold() == label.casefold():
            yield end


def _proposed(link: CableLink, context: CheckContext) -> list[Phrase]:
    """Labels after the pattern of the first cable whose labels hold its tag; else the cable's own tag."""
    labels = context.network.survey.labels
    for other in context.network.cables.values():
        own = other.cable.labels or []
        if other.in_use and own and all(other.tag in label for label in own):
            made = [label.replace(other.tag, link.tag) for label in own]
            if not any(label.casefold() in labels for label in made):
                return [Phrase("label", {"label": label}) for label in dict.fromkeys(made)]
    is_taken = link.tag.casefold() in labels
    tag = next_free(link.tag, lambda text: text.casefold() in labels) if is_taken else link.tag
    return [Phrase("label", {"label": tag})]


CHECK = Check(
    name="plan.label-complete",
    each=CABLE,
    judge=label_complete,
    applies_to=all_if(lambda network: network.survey.labels),
    cases={
        "missing": {"cable": TAG, "proposed": list_of(phrase(label={"label": TEXT}))},
        "alike": {"cable": TAG, "label": TEXT, "other": TAG, "proposed": TEXT},
    },
    does_not_apply={"no labels": {}},
    related=("the other",),
)
