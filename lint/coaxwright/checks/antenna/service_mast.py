"""Nothing but the power drop is fixed to the mast of the electrical service."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.checks.contract import Check, CheckContext, DoesNotApply, NotMet, Verdict
from coaxwright.checks.limits import Limits
from coaxwright.checks.selectors import DEVICE
from coaxwright.checks.subject_filters import those
from coaxwright.design.value_types import TAG, WORD, Phrase, phrase
from coaxwright.network import DeviceNode


def service_mast(antenna: DeviceNode, context: CheckContext, limits: Limits) -> Iterator[Verdict]:
    """An antenna's mast is not fixed to that mast."""
    mast = antenna.mast
    if mast is None or mast.on is None:
        yield DoesNotApply("foot not said")
    elif mast.on == "service mast":
        place = Phrase("named", {"tag": antenna.place.tag}) if antenna.place is not None else Phrase("unnamed")
        values = {"antenna": antenna.tag, "kind": antenna.device.kind, "place": place}
        yield NotMet("fixed to it", (*antenna.path, "mast", "on"), values)


CHECK = Check(
    name="antenna.service-mast",
    each=DEVICE,
    judge=service_mast,
    applies_to=those(lambda node: node.device.mast is not None),
    cases={"fixed to it": {"antenna": TAG, "kind": WORD, "place": phrase(named={"tag": TAG}, unnamed={})}},
    does_not_apply={"foot not said": {}},
)
