"""Figures that cannot be: each is told once, at its place, as a mistake of the file or as a finding of a rule."""

from __future__ import annotations

from pathlib import Path

import pytest

from coaxwright.findings import Outcome
from coaxwright.reviewing import DesignReview, review

SITE = """coaxwright: 1
title: Knot Bench (invented)
basis: {rulesets: [trade 1]}
catalogue:
  classes:
    reel 6:
      like: series 6
      attenuation: {table: {50 MHz: 1.45 dB/100 ft, 1000 MHz: 6.1 dB/100 ft}}
  devices:
    quiet splitter:
      like: 2-way splitter
      paths: [{from: in, to: out, band: 5 MHz to 1002 MHz, low: 3.1 dB, nominal: 3.4 dB, high: 3.8 dB}]
services:
  net: {kind: cable broadband, from: DROP, down: {band: 54 MHz to 1000 MHz, level: [10 dBmV at 54 MHz]}}
devices:
  DROP: {kind: coax drop}
  SP: {kind: splitter, ways: 2, loss: 3.5 dB}
  S2: {kind: splitter, ways: 3}
  S3: {kind: splitter, ways: 2, model: quiet splitter}
  A: {kind: outlet, serves: [net]}
  B: {kind: outlet, serves: [net]}
  C: {kind: outlet, serves: [net]}
cables:
  C-1: {from: DROP, to: SP.in, type: reel 6, length: 30 ft}
  C-2: {from: SP.out-1, to: A, type: series 6, length: 20 ft}
  C-3: {from: SP.out-2, to: S2.in, type: series 6, length: 20 ft}
  C-4: {from: S2.out-1, to: B, type: series 6, length: 20 ft}
  C-5: {from: S2.out-2, to: S3.in, type: series 6, length: 20 ft}
  C-6: {from: S3.out-1, to: C, type: series 6, length: 20 ft}
"""
MISTAKES = {
    "negative loss": ("loss: 3.5 dB", "loss: -3.5 dB", "'-3.5 dB' is not a loss in decibels"),
    "negative attenuation": ("1.45 dB/100 ft", "-1.45 dB/100 ft", "'-1.45 dB/100 ft' is not an attenuation"),
    "no attenuation": ("1.45 dB/100 ft", "0 dB/100 ft", "no cable loses 0 dB/100 ft at 50 MHz"),
    "falling attenuation": ("6.1 dB/100 ft", "1.1 dB/100 ft", "the attenuation falls from 50 MHz to 1000 MHz"),
    "one-point table": (", 1000 MHz: 6.1 dB/100 ft", "", "a table of one point says nothing between frequencies"),
    "a gain that nothing feeds": ("low: 3.1 dB", "low: -1 dB", "it gains 1 dB, and nothing feeds it"),
    "less than dividing takes": ("low: 3.1 dB", "low: 1.0 dB", "dividing between 2 alone takes 3.01 dB"),
    "no number": ("length: 30 ft", "length: .nan", "is not a length"),
    "endless": ("length: 30 ft", "length: .inf ft", "is not a length"),
    "negative length": ("length: 30 ft", "length: -30 ft", "'-30 ft' is not a length"),
}
FINDINGS = {
    "a loss that dividing forbids": ("loss: 3.5 dB", "loss: 0.5 dB", "level.loss-plausible", "alone takes 3 dB"),
    "no length at all": ("length: 30 ft", "length: 0 ft", "plan.length-stated", "no length at all"),
    "frequencies outside the data": ("to 1000 MHz,", "to 3500 MHz,", "level.device-bandwidth", "at 3500 MHz"),
    "a loop": ("SP.out-1, to: A,", "SP.out-1, to: S2.out-3,", "plan.loop-free", "net"),
}


def reviewed(tmp_path: Path, old: str, new: str) -> DesignReview:
    assert SITE.count(old) == 1
    path = tmp_path / "knot.coax.yaml"
    path.write_text(SITE.replace(old, new), encoding="utf-8")
    (design,) = review([path]).designs
    return design


@pytest.mark.parametrize(("old", "new", "said"), MISTAKES.values(), ids=list(MISTAKES))
def test_a_figure_that_cannot_be_is_one_mistake(tmp_path: Path, old: str, new: str, said: str) -> None:
    design = reviewed(tmp_path, old, new)
    (problem,) = design.problems
    assert said in problem.message
    assert problem.span.start.line > 1


@pytest.mark.parametrize(("old", "new", "rule", "said"), FINDINGS.values(), ids=list(FINDINGS))
def test_a_figure_that_does_not_fit_is_one_finding(tmp_path: Path, old: str, new: str, rule: str, said: str) -> None:
    design = reviewed(tmp_path, old, new)
    assert design.problems == ()
    assert design.crashes == ()
    # a figure that is missing is told at each thing that needs it, and folded into one by its cause
    told = [one for one in design.findings if one.rule == rule and said in one.found]
    assert len({one.identity for one in told}) == len(told) >= 1


def test_the_sound_design_has_none_of_them(tmp_path: Path) -> None:
    design = reviewed(tmp_path, "Knot Bench", "Knot Bench 2")
    assert design.problems == ()
    rules = {rule for _, _, rule, _ in FINDINGS.values()}
    assert [one for one in design.findings if one.rule in rules and one.outcome is Outcome.NOT_MET] == []
