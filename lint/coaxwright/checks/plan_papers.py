"""Do the papers agree with themselves: tags, labels, lengths?"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import LimitKind, Limits
from coaxwright.checks.phrasing import article, in_system, length_text, listed
from coaxwright.checks.selectors import CABLE, ITEM, Item
from coaxwright.checks.subject_filters import all_if, those
from coaxwright.design.quantities import Length, LengthPair, in_system_of
from coaxwright.network import TAGGED, CableEnd, CableLink, Network, Survey, Unknown
from coaxwright.physics.comparison import at_most

_KINDS = {"devices": "device", "cables": "cable", "raceways": "raceway", "bonding": "bonding item"}
_LAST_FIGURES = re.compile(r"^(.*?)([0-9]+)(\D*)$")
_SLACK_SHARE = 0.1
"""Of a route, that a cable is usually cut longer. Source: common practice, no source."""


def tag_unique(item: Item, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A tag names one thing, whatever its kind and file, small letters and capitals apart.

    Two of one kind with the very same tag are no design at all; places, buildings and services go by their names.
    """
    if item.section not in TAGGED:
        yield DoesNotApply("it goes by its name, not by a tag")
        return
    survey = context.network.survey
    section, tag = survey.namesakes(item.section, item.tag)[0]
    if (section, tag) != (item.section, item.tag):
        values = _named(item, survey) | {"other": tag, "other_kind": article(_KINDS[section])}
        case = "twice" if tag == item.tag else "but for capitals"
        yield NotMet(case, item.path, values, at_key=True, related=(((section, tag), "the other one"),))
        return
    host, dot, name = item.tag.rpartition(".")
    node = context.network.devices.get(host) if dot else None
    if node is not None and (name in {port.name for port in node.ports} or (name == "mast" and node.mast is not None)):
        part = "mast" if name == "mast" else f"port {name}"
        values = _named(item, survey) | {"other": f"the {part} of {host}", "other_kind": "part"}
        yield NotMet("port", item.path, values, at_key=True)


def _suspicious(items: Sequence[Item], network: Network) -> list[Item]:
    """Those that share a tag, or may have that of a part of a device."""
    survey = network.survey
    return [item for item in items if "." in item.tag or len(survey.namesakes(item.section, item.tag)) > 1]


def _named(item: Item, survey: Survey) -> dict[str, str]:
    free = _next_free(item.tag, lambda one: one.casefold() in survey.every_tag)
    return {"tag": item.tag, "kind": _KINDS[item.section], "free": free}


def _next_free(tag: str, is_taken: Callable[[str], bool]) -> str:
    """The tag with the next number that is free: ``C-104`` to ``C-105``; with a number where it has none."""
    match = _LAST_FIGURES.match(tag)
    before, figures, after = match.groups() if match is not None else (f"{tag}-", "1", "")
    number = int(figures)
    while True:
        number += 1
        candidate = f"{before}{number:0{len(figures)}d}{after}"
        if not is_taken(candidate):
            return candidate


def length_stated(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """A cable has a length or a route; where it has both, they agree, but for the slack that is cut with it."""
    values = {"cable": link.tag}
    if isinstance(link.length, Unknown):
        if context.network.design.stage == "concept":
            yield DoesNotApply("lengths are due at the stage 'permit'")
        else:
            yield NotMet("missing", link.length.root, values)
        return
    stated, route = link.cable.length, link.length
    if not route.length_m or (stated is not None and not stated.length_m):
        yield NotMet("nothing", link.path if stated is None else (*link.path, "length"), values, at_key=stated is None)
        return
    if stated is None or not link.segments:
        return
    is_metric = stated.is_metric
    rounding, slack = (_limit(limits, name, is_metric) for name in ("rounding", "slack"))
    difference = in_system(stated, is_metric) - in_system(route, is_metric)
    most = max(in_system(slack, is_metric), _SLACK_SHARE * in_system(route, is_metric))
    values |= {"length": length_text(stated, route), "route": length_text(route, stated)}
    values["difference"] = in_system_of(stated, abs(stated.length_m - route.length_m)).text
    at = (*link.path, "length")
    if not at_most(-difference, in_system(rounding, is_metric)):
        yield NotMet("shorter", at, {**values, "allowed": rounding.text}, cites=(("rounding",),))
    elif not at_most(difference, most):
        allowed = slack.text if most == in_system(slack, is_metric) else "a tenth of the route"
        yield NotMet("longer", at, {**values, "allowed": allowed}, cites=(("slack",),))


def _limit(limits: Limits, name: str, is_metric: bool) -> Length:
    pair = limits.length(name)
    assert pair is not None
    return pair.for_author(is_metric)


def label_complete(link: CableLink, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """Where a design gives labels, every cable has them, and no two that could be taken for one another are alike."""
    labels = context.network.survey.labels
    if not labels:
        yield DoesNotApply("the design gives no labels")
        return
    own = link.cable.labels
    if own is None:
        values = {"cable": link.tag, "proposed": _proposed(link, context)}
        yield NotMet("missing", link.path, values, at_key=True)
        return
    for label in dict.fromkeys(own):
        bearing = labels[label.casefold()]
        earlier = bearing[: bearing.index(link)]
        other = next((one for one in earlier if _can_be_mixed_up(link, one, label)), None)
        if other is not None:
            free = _next_free(label, lambda one: one.casefold() in labels)
            values = {"cable": link.tag, "label": label, "other": other.tag, "proposed": free}
            at, related = (*link.path, "labels"), (((*other.path, "labels"), "the other one"),)
            yield NotMet("alike", at, values, facet=label, related=related)


def _can_be_mixed_up(link: CableLink, other: CableLink, label: str) -> bool:
    """Whether a label tells two cables apart nowhere: not by their colours, nor by the spots where it hangs.

    A label at one end may say where the other leads, and so hang at several spots; one for both ends names the cable.
    """
    colours = {one.cable.colour.casefold() for one in (link, other) if one.cable.colour is not None}
    if len(colours) > 1:
        return False
    if 1 in (len(link.cable.labels or ()), len(other.cable.labels or ())):
        return True
    return any(
        here.device is not None and there.device is not None and _is_one_spot(here, there)
        for here in _ends_with(link, label)
        for there in _ends_with(other, label)
    )


def _is_one_spot(here: CableEnd, there: CableEnd) -> bool:
    assert here.device is not None
    assert there.device is not None
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


def _proposed(link: CableLink, context: CheckContext) -> str:
    """Labels after the pattern of the first cable whose labels hold its tag; else the cable's own tag."""
    labels = context.network.survey.labels
    for other in context.network.cables.values():
        own = other.cable.labels or []
        if other.in_use and own and all(other.tag in label for label in own):
            made = [label.replace(other.tag, link.tag) for label in own]
            if not any(label.casefold() in labels for label in made):
                return listed([f"'{label}'" for label in dict.fromkeys(made)])
    tag = link.tag
    return f"'{tag if tag.casefold() not in labels else _next_free(tag, lambda one: one.casefold() in labels)}'"


_TAG = ("tag", "kind", "free", "other", "other_kind")
_LENGTH = ("cable", "length", "route", "difference", "allowed")

CHECKS = (
    Check(
        name="tag-unique",
        each=ITEM,
        judge=tag_unique,
        applies_to=those(lambda item: item.section in TAGGED),
        prefilter=_suspicious,
        cases={"twice": _TAG, "but for capitals": _TAG, "port": _TAG},
        reads=("devices", "cables", "raceways", "bonding", "devices.*.kind", "devices.*.mast"),
    ),
    Check(
        name="length-stated",
        each=CABLE,
        judge=length_stated,
        cases={"missing": ("cable",), "nothing": ("cable",), "shorter": _LENGTH, "longer": _LENGTH},
        reads=("cables.*.length", "cables.*.route", "stage"),
        limits={"rounding": LimitKind(LengthPair), "slack": LimitKind(LengthPair)},
    ),
    Check(
        name="label-complete",
        each=CABLE,
        judge=label_complete,
        applies_to=all_if(lambda network: network.survey.labels),
        cases={"missing": ("cable", "proposed"), "alike": ("cable", "label", "other", "proposed")},
        reads=("cables.*.labels", "cables.*.colour", "cables.*.from", "cables.*.to", "devices.*.place"),
    ),
)
