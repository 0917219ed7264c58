"""The jacket's case that the shipped catalogue cannot show: a class that is made for indoors only."""

from __future__ import annotations

from dataclasses import replace

from coaxwright.analysis import Analysis
from coaxwright.catalogue import load_catalogue
from coaxwright.checks import CheckContext, NotMet
from coaxwright.checks.jacket.outdoor_rated import outdoor_rated
from coaxwright.checks.limits import Limits
from coaxwright.design import understand
from coaxwright.design.quantities import Length
from coaxwright.network import build_network
from coaxwright.source import read_text

DESIGN = """\
coaxwright: 1
title: Bench (invented)
basis: {rulesets: [trade 1]}
places: {wall: {exposure: outdoors}}
devices: {GB1: {kind: ground block, place: wall}, GB2: {kind: ground block, place: wall}}
cables: {C-1: {from: GB1, to: GB2, type: series 6 plenum, route: [wall: 3 m]}}
"""


def test_a_class_without_an_outdoor_jacket_is_not_recommended_in_one() -> None:
    shipped = load_catalogue()
    indoors = {"indoor", "riser", "plenum"}
    classes = {
        name: replace(made, jackets={key: jacket for key, jacket in made.jackets.items() if key in indoors})
        for name, made in shipped.classes.items()
        if "indoor" in made.jackets
    }
    words = replace(shipped.words, classes={**shipped.words.classes, **classes})
    network = build_network(understand(read_text(DESIGN, "x")), replace(shipped, classes=classes, words=words))
    (verdict,) = outdoor_rated(network.cables["C-1"], CheckContext(network, Analysis(network)), Limits({}))
    assert isinstance(verdict, NotMet)
    assert (verdict.case, verdict.mend) == ("not made", None)
    assert verdict.values["exposed"] == Length.parse("3 m")
