"""No room is fed through another: a splitter beside an outlet hands nothing on to other rooms.

A splitter of the same dwelling ahead of it, with at least as many outlets of its own, is the distribution point. Taps
on a trunk, loop-through outlets, multiswitches and single-cable satellite are handed on by their nature.
"""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import CannotJudge, Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.plan._shared import (
    NO_PLACE,
    PLACE,
    are_in_one_dwelling,
    dividing,
    handed_on,
    is_outlet,
    no_place,
    place_of,
)
from coaxwright.checks.selectors import DEVICE
from coaxwright.design.value_types import COUNT, TAG, TAGS, WORD
from coaxwright.network import DeviceNode
from coaxwright.network.other_splitters import larger_splitter, spare_outputs


def home_run(node: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """It is the distribution point, or feeds outlets of its own room alone."""
    network = context.network
    split = network.survey.split(node.tag)
    if split is None:
        yield DoesNotApply("divides nothing")
        return
    hubs = [hub for hub in split.ahead if are_in_one_dwelling(hub, node, network)]
    if hubs and node.place is None and len(split.feeds) > 1:
        yield CannotJudge(no_place(node))
        return
    found = handed_on(split, network)
    if found is None:
        return
    hub, remote = found
    free, cables = spare_outputs(hub, network), list(dict.fromkeys(tag for tag, _ in remote))
    values = {
        "splitter": node.tag,
        "place": place_of(node),
        "beside": [fed.tag for _, fed in split.feeds if fed.place is node.place and is_outlet(fed)],
        "outlets": [fed.tag for _, fed in remote],
        "cables": cables,
        "hub": hub.tag,
        "hub_place": place_of(hub),
        "free": free,
    }
    larger = larger_splitter(hub, len(cables) - free, network)
    if free >= len(cables):
        yield NotMet("free outputs", node.path, values, at_key=True)
    elif larger is not None:
        yield NotMet("larger made", node.path, {**values, "larger": larger}, at_key=True)
    else:
        yield NotMet("no larger", node.path, values, at_key=True)


_HOME_RUN = {
    "splitter": TAG,
    "place": PLACE,
    "beside": TAGS,
    "outlets": TAGS,
    "cables": TAGS,
    "hub": TAG,
    "hub_place": PLACE,
    "free": COUNT,
}

CHECK = Check(
    name="plan.home-run",
    each=DEVICE,
    judge=home_run,
    applies_to=dividing,
    cases={"free outputs": _HOME_RUN, "larger made": {**_HOME_RUN, "larger": WORD}, "no larger": _HOME_RUN},
    cannot_judge=NO_PLACE,
    does_not_apply={"divides nothing": {}},
)
