"""A tag names one thing, whatever its kind and file, small letters and capitals apart.

Two of one kind with the very same tag are no design at all; places, buildings and services go by their names.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.plan._shared import next_free
from coaxwright.checks.selectors import ITEM, Item
from coaxwright.checks.subject_filters import those
from coaxwright.design.value_types import TAG, WORD, Phrase, phrase
from coaxwright.network import TAGGED, Network, Survey

_KINDS = {"devices": "device", "cables": "cable", "raceways": "raceway", "bonding": "bonding item"}


def tag_unique(item: Item, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """No other thing, and no part of a device, goes by its tag."""
    if item.section not in TAGGED:
        yield DoesNotApply("goes by its name")
        return
    survey = context.network.survey
    section, tag = survey.namesakes(item.section, item.tag)[0]
    if (section, tag) != (item.section, item.tag):
        values = _named(item, survey) | {"other": Phrase("thing", {"tag": tag}), "other_kind": _KINDS[section]}
        case = "twice" if tag == item.tag else "but for capitals"
        yield NotMet(case, item.path, values, at_key=True, related=(((section, tag), "the other"),))
        return
    host, dot, name = item.tag.rpartition(".")
    node = context.network.devices.get(host) if dot else None
    if node is not None and (name in {port.name for port in node.ports} or (name == "mast" and node.mast is not None)):
        part = Phrase("mast", {"device": host}) if name == "mast" else Phrase("port", {"device": host, "port": name})
        yield NotMet("port", item.path, _named(item, survey) | {"other": part, "other_kind": "part"}, at_key=True)


def _suspicious(items: Sequence[Item], network: Network) -> list[Item]:
    """Those that share a tag, or may have that of a part of a device."""
    survey = network.survey
    return [item for item in items if "." in item.tag or len(survey.namesakes(item.section, item.tag)) > 1]


def _named(item: Item, survey: Survey) -> dict[str, object]:
    free = next_free(item.tag, lambda tag: tag.casefold() in survey.every_tag)
    return {"tag": item.tag, "kind": _KINDS[item.section], "free": free}


_TAG = {
    "tag": TAG,
    "kind": WORD,
    "free": TAG,
    "other": phrase(thing={"tag": TAG}, mast={"device": TAG}, port={"device": TAG, "port": WORD}),
    "other_kind": WORD,
}

CHECK = Check(
    name="plan.tag-unique",
    each=ITEM,
    judge=tag_unique,
    applies_to=those(lambda item: item.section in TAGGED),
    prefilter=_suspicious,
    cases={"twice": _TAG, "but for capitals": _TAG, "port": _TAG},
    does_not_apply={"goes by its name": {}},
    related=("the other",),
)
