"""Masts beside power lines, boosters and electrodes of their own, in the cases that no example shows."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coaxwright.design.quantities import Length
from coaxwright.findings import Finding, Outcome
from coaxwright.reviewing import judge
from coaxwright.rules import Severity, shipped_registry
from coaxwright.source import read_text

HEAD = "coaxwright: 1\ntitle: Bench (invented)\nbasis: {rulesets: [RULESET]}\n"
FALL, MARGIN = "antenna.power-line-fall", "antenna.power-line-distance"
SHARED = "bonding.electrode-shared"


def findings(body: str, *rules: str, ruleset: str = "trade 1") -> list[Finding]:
    review = judge(read_text(HEAD.replace("RULESET", ruleset) + body, "bench.coax.yaml"), shipped_registry())
    assert review.problems == ()
    assert review.crashes == ()
    return [finding for finding in review.unfolded if finding.rule in rules]


def antenna(mast: str, place: str = "roof: {exposure: rooftop}", devices: str = "") -> str:
    return f"places: {{{place}}}\ndevices:\n  ANT: {{kind: antenna, place: roof{mast}}}\n{devices}"


@given(
    st.integers(1, 999),
    st.integers(0, 2999),
    st.sampled_from(["ft", "m"]),
    st.sampled_from(["ft", "m"]),
)
def test_a_mast_that_is_mended_breaks_no_rule(height: int, distance: int, one: str, other: str) -> None:
    """Below its height both rules, below half as much again the one: CPSC advice, and plain geometry."""
    written = (f"{height / 10} {one}", f"{distance / 10} {other}")
    height_m, distance_m = (Length.parse(text).length_m for text in written)
    mast = ", mast: {{height: {}, from power line: {}}}"
    told = findings(antenna(mast.format(*written)), FALL, MARGIN)
    if abs(distance_m / height_m - 1) > 1e-6 and abs(distance_m / height_m - 1.5) > 1e-6:
        falls, near = distance_m < height_m, distance_m < 1.5 * height_m
        assert sorted(finding.rule for finding in told) == [MARGIN] * near + [FALL] * falls
    for finding in told:
        further = finding.remedy.split("move ANT ")[1].split(" or more")[0]
        moved = f"{Length.parse(written[1]).length_m + Length.parse(further).length_m:.9f} m"
        assert findings(antenna(mast.format(written[0], moved)), finding.rule) == []
        lower = finding.remedy.split("no higher than ")[1].split(";")[0]
        if Length.parse(lower).length_m > 0:
            assert findings(antenna(mast.format(lower, written[1])), finding.rule) == []


def test_what_the_mast_states_counts_before_what_its_place_shows() -> None:
    place = "roof: {exposure: rooftop, beside: power drop at 3 ft}"
    mast = ", mast: {height: 6 ft, from power line: 40 ft}"
    assert findings(antenna(mast, place), FALL, MARGIN) == []
    (found,) = findings(antenna(", mast: {height: 6 ft}", place), FALL)
    assert "stands 3 ft from a power line" in found.found


def test_of_several_lines_the_nearest_counts_and_other_neighbors_do_not() -> None:
    near = "{what: overhead power line, at: 9 ft}, {what: power drop, at: 5 ft}, {what: telephone cable, at: 1 ft}"
    place = f"roof: {{exposure: rooftop, beside: [{near}]}}"
    (found,) = findings(antenna(", mast: {height: 6 ft}", place), FALL)
    assert "stands 5 ft from a power line" in found.found
    assert (
        findings(antenna(", mast: {height: 6 ft}", "roof: {exposure: rooftop, beside: data cable at 1 ft}"), FALL) == []
    )


def test_an_antenna_beside_a_line_without_a_mast_cannot_be_judged() -> None:
    (found,) = findings(antenna("", "roof: {exposure: rooftop, beside: power drop at 3 ft}"), FALL)
    assert found.outcome is Outcome.CANNOT_BE_JUDGED


@pytest.mark.parametrize(
    ("state", "told"), [("new", True), ("existing", True), ("reserve", True), ("abandoned", False)]
)
def test_hazards_are_judged_on_what_was_there_before(state: str, told: bool) -> None:
    mast = f", state: {state}, mast: {{height: 6 m, from power line: 4 m, on: service mast}}"
    found = findings(antenna(mast), FALL, "antenna.service-mast", ruleset="us 2023")
    assert [finding.severity for finding in found] == [Severity.VIOLATION, Severity.VIOLATION] * told


@pytest.mark.parametrize(
    ("bonds", "found"),
    [
        ("", set()),
        ("  B-2: {from: ROD, to: GB2, conductor: 6 AWG copper}\n", set()),
        ("  B-2: {from: ROD, to: GB2, conductor: 6 AWG copper, state: abandoned}\n", {"ROD"}),
    ],
    ids=["by way of the block", "by way of another block", "over a conductor that is out of use"],
)
def test_ways_that_join_an_electrode(bonds: str, found: set[str]) -> None:
    """The block's body joins what is clamped to it; what is abandoned joins nothing."""
    first = "  B-1: {from: ROD, to: GES, conductor: 6 AWG copper}\n" if not bonds else ""
    body = (
        "places: {wall: {exposure: outdoors}}\ndevices:\n  GB1: {kind: ground block, place: wall}\n"
        "  GB2: {kind: ground block, place: wall}\nbonding:\n  GES: {kind: grounding electrode system, place: wall}\n"
        "  ROD: {kind: ground rod, place: wall}\n  B-0: {from: GB1, to: ROD, conductor: 10 AWG copper, length: 1 m}\n"
        f"  B-3: {{from: GB2, to: GES, conductor: 6 AWG copper}}\n{first}{bonds}"
    )
    assert {finding.subject.tag for finding in findings(body, SHARED)} == found


def test_a_kit_reaches_through_the_protector_and_an_abandoned_cable_is_none_of_it() -> None:
    body = (
        "places: {wall: {exposure: outdoors}, loft: {}}\ndevices:\n"
        "  OUT: {kind: antenna, place: wall}\n  PR: {kind: protector, variant: 50 ohm, place: wall}\n"
        "  BOOST: {kind: cellular booster, place: loft, kit: [C-2]}\ncables:\n"
        "  C-1: {from: OUT, to: PR, type: series 6 outdoor, length: 3 m}\n"
        "  C-2: {from: PR, to: BOOST.donor, type: series 6, length: 3 m}\n"
        "  C-3: {from: PR, to: BOOST.server, type: series 6, length: 3 m, state: abandoned}\n"
    )
    (found,) = findings(body, "antenna.booster-kit")
    assert "BOOST is joined to C-1 and OUT, which" in found.found


def booster(fields: str, service: str = "") -> str:
    return (
        f"places: {{wall: {{exposure: outdoors}}, loft: {{}}}}\n{service}devices:\n"
        "  OUT: {kind: antenna, place: wall}\n"
        f"  BOOST: {{kind: cellular booster, place: loft{fields}}}\ncables:\n"
        "  C-1: {from: OUT, to: BOOST.donor, type: series 6 outdoor, length: 3 m}\n"
    )


def test_a_distance_tells_nothing_without_a_frequency_and_enough_air_is_enough() -> None:
    """Free space at 698 MHz: 32.4 + 20 log10(698) + 20 log10(km) is 69.3 dB at 100 m, by ITU-R P.525."""
    rule, apart = "antenna.booster-isolation", ", gain: {} dB, antennas apart: 100 m"
    (found,) = findings(booster(apart.format(50)), rule)
    assert found.outcome is Outcome.CANNOT_BE_JUDGED
    service = "services: {phone: {kind: cellular, from: OUT, up: {band: 698 MHz to 716 MHz}}}\n"
    assert findings(booster(apart.format(59), service), rule) == []
    (found,) = findings(booster(apart.format(60), service), rule)
    assert found.outcome is Outcome.NEEDS_A_PERSON
    assert "lose 69.3 dB at 698 MHz" in found.found
    (found,) = findings(booster(", gain: 50 dB, antennas apart: 0 m", service), rule)
    assert "lose 0 dB" in found.found
