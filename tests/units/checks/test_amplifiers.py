"""Amplifiers and neighboring channels: what the examples beside the rules leave open."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from math import log10

import pytest

from coaxwright.analysis import Analysis
from coaxwright.checks import CheckContext, Limits
from coaxwright.design import understand
from coaxwright.design.quantities import Decibels, InSeries, QuantityError
from coaxwright.findings import Finding, Outcome
from coaxwright.network import build_network
from coaxwright.reviewing import judge
from coaxwright.rules import combine, shipped_registry
from coaxwright.source import read_text

HEAD = "coaxwright: 1\ntitle: Bench (invented)\nbasis: {rulesets: [trade 1]}\nstage: as-built\n"
ONE = """\
services:
  net: {{kind: cable broadband, from: D, down: {{band: 54 to 1000 MHz, level: [{level} dBmV at 54 MHz]{carriers}}}}}
devices:
  D: {{kind: coax drop}}
  A: {{kind: drop amplifier, outputs: 1, variant: return path, {words}}}
  T: {{kind: outlet, serves: [net]}}
cables:
  C-1: {{from: D, to: A, type: series 6, length: {first}}}
  C-2: {{from: A, to: T, type: series 6, length: {second}}}
"""


def findings(rule: str, text: str) -> list[Finding]:
    review = judge(read_text(HEAD + text, "bench.coax.yaml"), shipped_registry())
    assert [str(problem) for problem in review.problems] == []
    assert review.crashes == ()
    return [finding for finding in review.unfolded if finding.rule == rule]


def one(words: str, level: str = "4", first: str = "0 ft", second: str = "20 ft", carriers: str = "") -> str:
    return ONE.format(words=words, level=level, first=first, second=second, carriers=carriers)


@pytest.mark.parametrize("carriers", [2, 10, 135])
def test_all_carriers_together_are_told_and_each_is_judged_alone(carriers: int) -> None:
    """10 log N above one of N alike. Source: textbook identity; the trade's formula card has it for amplifiers."""
    words = "gain: 12 dB, input level: -5 to 15 dBmV"
    (found,) = findings("level.amplifier-input", one(words, "18", carriers=f", carriers: {carriers}"))
    assert f", {round(18 + 10 * log10(carriers), 1):g} dBmV in all of {carriers} alike" in found.found
    assert findings("level.amplifier-input", one(words, "14", carriers=f", carriers: {carriers}")) == []


def test_one_carrier_is_no_sum() -> None:
    (found,) = findings(
        "level.amplifier-input", one("gain: 12 dB, input level: -5 to 15 dBmV", "18", carriers=", carriers: 1")
    )
    assert "in all" not in found.found


def test_the_worst_of_both_edges_is_told() -> None:
    """At 54 MHz 12 dBmV is 2 dB too strong; behind 100 m of Series 6 at 1000 MHz it is far too weak."""
    text = one("gain: 20 dB, input level: 0 to 5 dBmV", "12", first="100 m")
    (found,) = findings("level.amplifier-input", text)
    assert found.required.startswith("at least 0 dBmV")


def test_a_multiswitch_has_an_input_too() -> None:
    (found,) = findings(
        "level.amplifier-input",
        """\
services: {sat: {kind: satellite IF, from: L, down: {band: 950 to 2150 MHz, level: [95 dBµV at 950 MHz]}}}
devices:
  L: {kind: LNB, variant: quattro, outputs: 4}
  M: {kind: multiswitch, outputs: 4, input level: 60 to 85 dBµV}
  T: {kind: satellite receiver, serves: [sat]}
cables:
  S-1: {from: L.vertical-low, to: M.vertical-low, type: series 6, length: 1 m}
  D-1: {from: M, to: T, type: series 6, length: 9 m}
""",
    )
    assert found.subject.tag == "M"
    assert "dBµV of sat at 950 MHz" in found.found


def test_what_a_receiver_takes_is_judged_by_the_window_at_outlets_alone() -> None:
    text = one("gain: 12 dB", "4").replace("kind: outlet, serves", "kind: receiver, input level: -5 to 5 dBmV, serves")
    assert findings("level.amplifier-input", text) == []
    (found,) = findings("level.outlet-window", text)
    assert found.required == "-5 to 5 dBmV"


@pytest.mark.parametrize(
    ("outputs", "level", "is_needless"),
    [(1, "-9", True), (1, "-9.1", False), (2, "-4.9", True), (2, "-5.6", False), (4, "0", True), (4, "-2", False)],
)
def test_a_splitter_of_as_many_outputs_takes_its_place(outputs: int, level: str, is_needless: bool) -> None:
    """Published losses at most 4 dB of a 2-way and 8 dB of a 4-way splitter; the window begins at -15 dBmV."""
    text = one("gain: 9 dB", level, second="0 ft").replace("outputs: 1", f"outputs: {outputs}")
    found = findings("level.amplifier-needless", text)
    assert bool(found) == is_needless
    if found:
        assert ("splitter in the place of A" in found[0].remedy) == (outputs > 1)


def test_the_size_of_the_splitter_is_that_of_the_amplifier() -> None:
    text = one("gain: 9 dB", "10").replace("outputs: 1", "outputs: 8")
    found = findings("level.amplifier-needless", text)
    assert [finding.outcome for finding in found] == [Outcome.NOT_MET]
    assert "8-way splitter" in found[0].remedy


def test_an_outlet_that_would_be_too_strong_still_keeps_it_quiet() -> None:
    """Without the amplifier 12 dBmV come in: 3 dB inside the window, less than what is to be spare."""
    assert findings("level.amplifier-needless", one("gain: 9 dB", "12", second="0 ft")) == []


def test_an_existing_amplifier_is_left_alone() -> None:
    assert findings("level.amplifier-needless", one("gain: 9 dB", "0")) != []
    assert findings("level.amplifier-needless", one("gain: 9 dB, state: existing", "0")) == []


def test_one_weak_outlet_behind_it_is_enough_to_need_it() -> None:
    text = one("gain: 12 dB", "0").replace("outputs: 1", "outputs: 2")
    far = text.replace("cables:", "  U: {kind: outlet, serves: [net]}\ncables:")
    assert findings("level.amplifier-needless", text) != []
    weak = f"{far}  C-3: {{from: A, to: U, type: series 6, length: 70 m}}\n"
    assert findings("level.amplifier-needless", weak) == []


def test_two_in_series_are_sound_and_a_preamplifier_does_not_count() -> None:
    def row(kinds: list[str]) -> str:
        devices = "".join(f"  A-{n}: {{kind: {kind}, gain: 15 dB}}\n" for n, kind in enumerate(kinds))
        ends = ["D", *(f"A-{n}" for n in range(len(kinds))), "T"]
        cables = "".join(
            f"  C-{n}: {{from: {near}, to: {far}, type: series 6, length: 80 m}}\n"
            for n, (near, far) in enumerate(pairwise(ends))
        )
        return (
            "services:\n"
            "  net: {kind: cable broadband, from: D, down: {band: 60 to 690 MHz, level: [4 dBmV at 60 MHz]}}\n"
            f"devices:\n  D: {{kind: coax drop}}\n{devices}  T: {{kind: outlet, serves: [net]}}\ncables:\n{cables}"
        )

    drop = "drop amplifier, outputs: 1"
    assert findings("level.amplifier-needless", row([drop, drop])) == []
    assert findings("level.amplifier-needless", row(["preamplifier", drop, drop])) == []
    assert [f.subject.tag for f in findings("level.amplifier-needless", row([drop] * 4))] == ["A-2", "A-3"]


def test_its_windows_are_those_of_the_outlets() -> None:
    rules = combine(["trade 1"], shipped_registry()).rules
    needless, outlets = (rules[name].limits for name in ("level.amplifier-needless", "level.outlet-window"))

    def windows(limits: object) -> dict[tuple[str, ...], tuple[str, str]]:
        return {one.keys: (one.value.text, str(one.source)) for one in limits.all() if one.name == "window"}  # type: ignore[attr-defined]

    assert windows(needless) == windows(outlets)


def test_a_number_in_series_is_read_and_refused() -> None:
    assert InSeries.parse("2 in series").number == 2
    with pytest.raises(QuantityError, match="write '2 in series'"):
        InSeries.parse("two")


CHANNELS = """\
services:
  tv:
    kind: terrestrial TV
    from: ANT
    channels: [{channels}]
devices: {{ANT: {{kind: antenna, gain: 9 dBi}}, T: {{kind: outlet, serves: [tv]}}, U: {{kind: outlet, serves: [tv]}},
  SP: {{kind: splitter, ways: 2}}}}
cables:
  C: {{from: ANT, to: SP, type: series 6, length: 9 m}}
  C-1: {{from: SP, to: T, type: series 6, length: 9 m}}
  C-2: {{from: SP, to: U, type: series 6, length: 19 m}}
"""


def channels(*words: str) -> str:
    return CHANNELS.format(channels=", ".join(f"{{{one}}}" for one in words))


def channel(name: int, mhz: float, field: float, words: str = "standard: 8VSB") -> str:
    return f'name: "{name}", frequency: {mhz} MHz, field: {field} dBµV/m, {words}'


def test_neighbors_are_told_once_whatever_the_number_of_outlets() -> None:
    (found,) = findings("level.adjacent", channels(channel(25, 539, 95), channel(24, 533, 50)))
    assert found.subject.tag == "tv"
    assert "channel 25 of tv is 44.9 dB stronger than channel 24 beside it" in found.found


@pytest.mark.parametrize(
    ("one_mhz", "other_mhz", "words", "told"),
    [
        (533, 539, "standard: 8VSB", True),
        (533, 545, "standard: 8VSB", False),  # a channel fits between
        (79, 85, "standard: 8VSB", True),
        (69, 79, "standard: 8VSB", True),  # 4 and 5: 4 MHz lie between, and no channel
        (533, 539, "standard: ATSC 3.0", True),
        (533, 545, "standard: ATSC 3.0", False),
        (533, 533.000001, "standard: 8VSB", True),
        (533, 543, "standard: 8VSB, width: 10 MHz", True),
        (533, 541, "standard: DVB-T, width: 8 MHz", False),
        (533, 539, "width: 6 MHz", False),
    ],
)
def test_which_channels_are_neighbors(one_mhz: float, other_mhz: float, words: str, told: bool) -> None:
    text = channels(channel(1, one_mhz, 50, words), channel(2, other_mhz, 95, words))
    assert bool(findings("level.adjacent", text)) == told


def test_two_channels_on_one_frequency_do_not_lie_side_by_side() -> None:
    text = HEAD + channels(channel(1, 533, 50), channel(2, 533, 95))
    review = judge(read_text(text, "bench.coax.yaml"), shipped_registry())
    (tally,) = (tally for tally in review.tallies if tally.rule == "level.adjacent")
    assert (tally.met, tally.does_not_apply) == (0, 1)


def test_between_channels_of_unlike_widths_the_narrower_tells_whether_another_fits() -> None:
    """Twice 6 MHz lie below 548 MHz, twice 10 MHz do not."""
    narrow, wide = channel(1, 533, 50), channel(2, 548, 95, "standard: 8VSB, width: 10 MHz")
    assert findings("level.adjacent", channels(narrow, wide)) == []
    assert len(findings("level.adjacent", channels(narrow, wide.replace("548", "544")))) == 1


@pytest.mark.parametrize(("most_db", "told"), [(0.0, 0), (-0.001, 1)])
def test_a_neighbor_stronger_by_just_the_limit_is_received(most_db: float, told: int) -> None:
    """Fields of 50 and 90 dBµV/m; an antenna takes 20 log(539/533) less of the one at the higher frequency, for its
    aperture shrinks with the square of the frequency: textbook. No cable is between.
    """
    lead = "cables: {C: {from: ANT, to: T, type: series 6, length: 0 m}}"
    text = channels(channel(1, 533, 50), channel(2, 539, 90)).partition("cables:")[0].replace("U: {", "U-2: {")
    network = build_network(understand(read_text(f"{HEAD}{text}{lead}\n", "bench.coax.yaml")))
    bound = combine(["trade 1"], shipped_registry()).rules["level.adjacent"]
    limits = {(one.name, *one.keys): one for one in bound.limits.all()}
    most = Decibels.parse(f"{40 - 20 * log10(539 / 533) + most_db:.10f} dB")
    limits["most", "8VSB"] = replace(limits["most", "8VSB"], value=most)
    site = CheckContext(network, Analysis(network))
    assert len(list(bound.check.judge(network.services["tv"], site, Limits(limits)))) == told


def test_the_standard_of_the_weaker_one_decides() -> None:
    weak_dvb = channels(channel(1, 533, 50, "standard: DVB-T, width: 6 MHz"), channel(2, 539, 95))
    strong_dvb = channels(channel(1, 533, 50), channel(2, 539, 95, "standard: DVB-T, width: 6 MHz"))
    assert findings("level.adjacent", weak_dvb) == []
    assert len(findings("level.adjacent", strong_dvb)) == 1


def test_the_worst_pair_is_told() -> None:
    text = channels(channel(1, 533, 50), channel(2, 539, 90), channel(3, 545, 40))
    (found,) = findings("level.adjacent", text)
    assert "channel 2 of tv" in found.found
    assert "channel 3 beside it" in found.found
