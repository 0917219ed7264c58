"""The design that the guide builds is clear, and each of ten slips in it is found by the rule that owns it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from coaxwright.reviewing import DesignReview, judge
from coaxwright.rules import shipped_registry
from coaxwright.source import read_text

GUIDE = (Path(__file__).parents[2] / "docs" / "guide.md").read_text(encoding="utf-8")
DESIGN = "\n".join(
    block for block in re.findall(r"```yaml\n(.*?)```", GUIDE, re.DOTALL) if not block.startswith("repos:")
)


def reviewed(text: str) -> DesignReview:
    return judge(read_text(text, "plover-yard.coax.yaml"), shipped_registry())


def test_the_design_of_the_guide_is_clear() -> None:
    review = reviewed(DESIGN)
    assert review.problems == ()
    assert review.findings == ()
    assert sum(tally.met for tally in review.tallies) > 40


SLIPS: dict[str, tuple[str, ...]] = {
    "plan.reference-known": ("from: SP1, to: TV1", "from: SP1, to: TV3"),
    "plan.port-single-use": ("  C-5:", "  C-9: {from: SP1, to: SPARE, type: series 6, length: 5 ft}\n  C-5:"),
    "impedance.port-match": (
        "type: series 6 quad, route: [attic: 26 ft",
        "type: 10 mm 50 ohm low-loss, route: [attic: 26 ft",
    ),
    "cable.run-length": (
        "attic: 26 ft, parlor: 6 ft",
        "attic: 290 ft, parlor: 6 ft",
        ", standard: 8VSB, field: 66 dBµV/m",
        "",
    ),
    "level.outlet-window": ("closet: 8 ft, parlor: 21 ft", "closet: 8 ft, parlor: 291 ft"),
    "jacket.outdoor-rated": ("series 6 quad outdoor, route: [roof", "series 6 quad, route: [roof"),
    "protection.entry-protector": ("GB1:   {kind: ground block", "GB1:   {kind: power inserter"),
    "protection.antenna-end": ("roof: 14 ft", "roof: 34 ft"),
    "bonding.conductor-present": ("  B-3: {from: ANT.mast", "  B-3: {from: GB2"),
    "bonding.conductor-size": (
        "to: IBT, conductor: 10 AWG copper, length: 11 ft",
        "to: IBT, conductor: 14 AWG copper, length: 11 ft",
    ),
    "bonding.conductor-length": ("14 AWG copper, length: 9 ft", "14 AWG copper, length: 21 ft"),
}


def batched(words: tuple[str, ...]) -> list[tuple[str, str]]:
    """What is written, and what takes its place, in pairs."""
    return list(zip(words[::2], words[1::2], strict=True))


@pytest.mark.parametrize("rule", SLIPS)
def test_a_slip_is_found_by_its_rule(rule: str) -> None:
    text = DESIGN
    for before, after in batched(SLIPS[rule]):
        assert text.count(before) == 1
        text = text.replace(before, after)
    if "SPARE" in text:
        text = text.replace("  ANT:", "  SPARE: {kind: outlet, place: parlor}\n  ANT:", 1)
    assert {finding.rule for finding in reviewed(text).findings if finding.outcome == "not met"} == {rule}
