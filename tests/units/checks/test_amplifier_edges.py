"""Levels at amplifiers that are sure to be beyond an edge, that may be, and that are just at it.

The part ahead of the amplifier loses 3 to 6 dB, 4 dB as usual, up to 100 MHz, and 3 to 5 dB above; cables of no length
lose nothing. So every figure is the sum of the demarcation point, of these and of the gain.
"""

from __future__ import annotations

import pytest

from coaxwright.findings import Finding, Outcome
from coaxwright.reviewing import judge
from coaxwright.rules import shipped_registry
from coaxwright.source import read_text

INPUT, OUTPUT, NEEDLESS = "level.amplifier-input", "level.amplifier-output", "level.amplifier-needless"
HEAD = """\
coaxwright: 1
title: Bench (invented)
basis: {rulesets: [trade 1]}
stage: as-built
catalogue:
  classes:
    short table: {like: series 6, source: bench, attenuation: {table: {54 MHz: 0.6 dB/100 ft, 500 MHz: 3.66 dB/100 ft}}}
  devices:
    wide splitter:
      like: 2-way splitter
      paths:
        - {from: in, to: out, band: 5 MHz to 100 MHz, low: 3 dB, nominal: 4 dB, high: 6 dB}
        - {from: in, to: out, band: 101 MHz to 1002 MHz, low: 3 dB, nominal: 4 dB, high: 5 dB}
    uneven amplifier:
      like: 2-output drop amplifier
      ports:
        - {name: in, direction: in, group: in}
        - {name: out, direction: out, group: out}
        - {name: more, direction: out, group: more}
      paths:
        - {from: in, to: out, band: 54 MHz to 1002 MHz, one way: true, low: 0 dB, nominal: 0 dB, high: 0 dB}
        - {from: in, to: more, band: 54 MHz to 1002 MHz, one way: true, amplified: true}
places: {den: {}, cold: {temperature: -40 to 20 °C}, warm: {temperature: 20 to 60 °C}}
"""
BENCH = """\
services:
  net:
    kind: cable broadband
    from: D
    down: {{band: {band}, level: [{levels}]}}
    at outlets: {{level: -60 to 60 dBmV}}
devices:
  D: {{kind: coax drop}}
  SP: {{kind: splitter, ways: 2, model: wide splitter}}
  E: {{kind: terminator, on: SP.out-2}}
  A: {{kind: drop amplifier, outputs: 1, gain: 10 dB, {words}}}
  T: {{kind: outlet, serves: [net]}}
cables:
  C-1: {{from: D, to: SP, type: series 6, length: 0 ft}}
  C-2: {{from: SP.out-1, to: A, type: series 6, {second}}}
  C-3: {{from: A, to: T, type: series 6, length: 0 ft}}
"""


def findings(rule: str, text: str) -> list[Finding]:
    review = judge(read_text(HEAD + text, "bench.coax.yaml"), shipped_registry())
    assert [str(problem) for problem in review.problems] == []
    assert review.crashes == ()
    return [finding for finding in review.unfolded if finding.rule == rule]


def bench(
    words: str, low: float, high: float | None = None, band: str = "54 to 1000 MHz", second: str = "length: 0 ft"
) -> str:
    levels = f"{low} dBmV at 54 MHz, {low if high is None else high} dBmV at 1000 MHz"
    return BENCH.format(words=words, levels=levels, band=band, second=second)


@pytest.mark.parametrize(
    ("level", "outcome", "told"),
    [
        (19, Outcome.NOT_MET, "(13 dBmV to 16 dBmV)"),
        (16.1, Outcome.NOT_MET, "(10.1 dBmV to 13.1 dBmV)"),
        (16, Outcome.CANNOT_BE_JUDGED, "10 dBmV to 13 dBmV"),  # just met if all of it is lost
        (13.1, Outcome.CANNOT_BE_JUDGED, "7.1 dBmV to 10.1 dBmV"),
        (13, None, ""),
        (6, None, ""),
        (5.9, Outcome.CANNOT_BE_JUDGED, "-0.1 dBmV to 2.9 dBmV"),
        (3, Outcome.CANNOT_BE_JUDGED, "-3 dBmV to 0 dBmV"),  # just met if least is lost
        (2.9, Outcome.NOT_MET, "(-3.1 dBmV to -0.1 dBmV)"),
    ],
)
def test_what_an_amplifier_takes(level: float, outcome: Outcome | None, told: str) -> None:
    found = findings(INPUT, bench("input level: 0 to 10 dBmV", level, band="54 to 100 MHz"))
    assert [finding.outcome for finding in found] == ([outcome] if outcome is not None else [])
    assert all(told in finding.found for finding in found)


@pytest.mark.parametrize(
    ("low", "high", "told"),
    [
        (14, 13.9, "8 dBmV to 11 dBmV at A at 54 MHz"),  # 8.9 to 10.9 at the other end: narrower, and stronger
        (13.5, 14.5, "7.5 dBmV to 10.5 dBmV at A at 54 MHz"),
    ],
)
def test_of_levels_that_may_be_beyond_the_widest_is_told(low: float, high: float, told: str) -> None:
    """What is least certain there is what a reading would settle."""
    (finding,) = findings(INPUT, bench("input level: 0 to 10 dBmV", low, high))
    assert finding.outcome is Outcome.CANNOT_BE_JUDGED
    assert told in finding.found


def test_a_level_that_is_not_known_is_told_where_none_is_sure_to_be_beyond() -> None:
    text = bench("input level: 0 to 10 dBmV", 8).replace("to: SP, type: series 6,", "to: SP, type: short table,")
    (finding,) = findings(INPUT, text)
    assert finding.outcome is Outcome.CANNOT_BE_JUDGED
    assert "no attenuation of short table is known at 1000 MHz" in finding.found


@pytest.mark.parametrize(("level", "place"), [(20, "cold"), (7, "warm")])
def test_the_level_told_is_that_of_the_worse_weather(level: float, place: str) -> None:
    """What is too strong is strongest in the cold, what is too weak is weakest in the heat."""

    def told_dbmv(where: str) -> float:
        text = bench("input level: 0 to 5 dBmV", level, band="54 to 100 MHz", second=f"route: [{where}: 90 m]")
        (finding,) = findings(INPUT, text)
        return float(finding.found.partition(" gets ")[2].partition(" dBmV")[0])

    usual_dbmv, here_dbmv = told_dbmv("den"), told_dbmv(place)
    assert here_dbmv > usual_dbmv if place == "cold" else here_dbmv < usual_dbmv


def test_an_output_is_judged_although_the_input_may_be_too_strong() -> None:
    """9 to 12 dBmV go in, which may be too much for it; 19 to 22 come out, which is."""
    text = bench("input level: 0 to 10 dBmV, output level: 0 to 18 dBmV", 15, band="54 to 100 MHz")
    assert [finding.outcome for finding in findings(INPUT, text)] == [Outcome.CANNOT_BE_JUDGED]
    assert [finding.outcome for finding in findings(OUTPUT, text)] == [Outcome.NOT_MET]


@pytest.mark.parametrize(("gains_db", "told"), [((10, 20), ["B"]), ((30, -10), ["A"]), ((10, 10), [])])
def test_every_amplifier_of_a_row_is_asked_what_it_puts_out(gains_db: tuple[int, int], told: list[str]) -> None:
    """6 dBmV as usual come to the first."""
    words = "output level: 0 to 30 dBmV"
    first, second = (f"drop amplifier, outputs: 1, gain: {gain_db} dB" for gain_db in gains_db)
    text = bench(words, 10).replace("drop amplifier, outputs: 1, gain: 10 dB", first)
    text = text.replace("cables:", f"  B: {{kind: {second}, {words}}}\ncables:").replace(
        "from: A, to: T,", "from: B, to: T,"
    )
    text += "  C-4: {from: A, to: B, type: series 6, length: 0 ft}\n"
    assert [finding.subject.tag for finding in findings(OUTPUT, text)] == told


def test_an_output_that_nothing_is_wanted_behind_is_not_asked() -> None:
    """15 dB more leave by the other output."""
    text = bench("output level: 0 to 12 dBmV", 14, band="54 to 100 MHz").replace(
        "outputs: 1, gain: 10 dB", "outputs: 2, model: uneven amplifier"
    )
    assert findings(OUTPUT, text.replace("from: A,", "from: A.out,")) == []
    assert len(findings(OUTPUT, text.replace("from: A,", "from: A.more,"))) == 1


# Without the amplifier, with nothing or a splitter in its place.


def needless(level: float, window: str = "-15 dBmV to 75 dBµV", high: float | None = None) -> str:
    return bench("note: bench", level, high).replace("level: -60 to 60 dBmV", f"level: {window}")


@pytest.mark.parametrize(
    ("level", "left"),
    [
        (4.0, "-2 dBmV at T at 54 MHz"),
        (4.5, "-1.5 dBmV at T at 54 MHz"),  # as far from either edge
        (7.0, "64 dB\N{MICRO SIGN}V at T at 54 MHz"),  # 1 to 4 dBmV: the upper edge is nearer
    ],
)
def test_the_nearer_edge_is_told_in_its_own_unit(level: float, left: str) -> None:
    """15 dBmV are 75 dBuV: textbook identity."""
    (finding,) = findings(NEEDLESS, needless(level))
    assert finding.case == "nothing in its place"
    assert left in f"{finding.found} {finding.remedy}"


def test_the_frequency_with_the_least_to_spare_is_told_with_its_own_level() -> None:
    """6 dBmV less 5 dB at the upper end, where 11 dBmV less 6 dB are left at the lower."""
    (finding,) = findings(NEEDLESS, needless(11, "-8 to 22 dBmV", high=6))
    assert "1 dBmV at T at 1000 MHz" in f"{finding.found} {finding.remedy}"


def test_of_outlets_with_as_little_to_spare_the_first_tag_is_told() -> None:
    text = """\
services:
  a: {kind: cable broadband, from: D, down: {band: 100 to 100 MHz, level: [2 dBmV at 100 MHz]}}
  b: {kind: cable broadband, from: D, down: {band: 900 to 900 MHz, level: [2 dBmV at 900 MHz]}}
devices:
  D: {kind: coax drop}
  A: {kind: drop amplifier, outputs: 2, gain: 10 dB}
  Z: {kind: outlet, serves: [a]}
  B: {kind: outlet, serves: [b]}
cables:
  C-1: {from: D, to: A, type: series 6, length: 0 ft}
  C-2: {from: A.out-1, to: Z, type: series 6, length: 0 ft}
  C-3: {from: A.out-2, to: B, type: series 6, length: 0 ft}
"""
    (finding,) = findings(NEEDLESS, text)
    assert "-2 dBmV at B at 900 MHz" in f"{finding.found} {finding.remedy}"


def test_an_amplifier_that_lets_nothing_of_a_service_through_is_no_matter_of_its_need() -> None:
    """A drop amplifier of cable television is made for 54 to 1002 MHz."""
    text = """\
services: {sat: {kind: satellite IF, from: L, down: {band: 1100 to 2150 MHz, level: [70 dBµV at 1100 MHz]}}}
devices:
  L: {kind: LNB, outputs: 1}
  A: {kind: drop amplifier, outputs: 1}
  T: {kind: satellite receiver, serves: [sat]}
cables: {C-1: {from: L, to: A, type: series 6, length: 9 m}, C-2: {from: A, to: T, type: series 6, length: 9 m}}
"""
    assert findings(NEEDLESS, text) == []


def test_an_amplifier_at_which_a_service_begins_is_no_matter_of_its_need() -> None:
    text = """\
services: {net: {kind: cable broadband, from: A, down: {band: 54 to 1000 MHz}, up: {band: 5 to 42 MHz}}}
devices:
  A: {kind: drop amplifier, outputs: 1, split: 42/54 MHz}
  T: {kind: outlet, serves: [net]}
cables: {C-1: {from: A, to: T, type: series 6, length: 9 m}}
"""
    assert findings(NEEDLESS, text) == []
