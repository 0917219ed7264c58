"""Bands, losses, isolation and boosters: which of several is told, and by how much it is beyond."""

from __future__ import annotations

from math import log10, pi

import pytest
from asking import findings, reasons

from coaxwright.findings import Finding, Outcome

BAND, LOSS, APART = "level.device-bandwidth", "level.loss-plausible", "level.isolation"
KIT, BOOSTER = "antenna.booster-kit", "antenna.booster-isolation"


# The bands of parts.


def tapped(out: str, aside: str = "5 MHz to 900 MHz", isolations: str = "") -> str:
    """A tap of these bands before two outlets, and a service up to 1002 MHz with two channels on the way up."""
    ways = [f"{{from: in, to: out, band: {band}, nominal: 4 dB}}" for band in out.split(", ")]
    ways.append(f"{{from: in, to: tap, band: {aside}, nominal: 12 dB}}")
    return (
        f"catalogue: {{devices: {{odd: {{like: 12 dB 1-output tap, paths: [{', '.join(ways)}], "
        f"isolations: [{{from: out, to: tap, band: 5 MHz to 1002 MHz, nominal: 30 dB}}{isolations}]}}}}}}\n"
        "services: {net: {kind: cable broadband, from: D, down: {band: 54 to 1002 MHz}, "
        'channels: [{name: "a", frequency: 700 MHz}, {name: "b", frequency: 800 MHz}]}}\n'
        "devices: {D: {kind: coax drop}, T: {kind: tap, value: 12 dB, outputs: 1, model: odd}, "
        "A: {kind: outlet, serves: [net]}, B: {kind: outlet, serves: [net]}}\n"
        "cables: {C: {from: D, to: T.in, type: series 6, length: 3 m}, "
        "C-1: {from: T.out, to: A, type: series 6, length: 3 m}, "
        "C-2: {from: T.tap, to: B, type: series 6, length: 3 m}}\n"
    )


def test_of_the_ways_that_end_below_the_first_is_told_with_the_top_of_the_service() -> None:
    (finding,) = findings(BAND, tapped("5 MHz to 600 MHz"))
    assert "made for frequencies up to 600 MHz" in finding.found
    assert "goes up to 1002 MHz" in finding.found
    assert finding.excess == pytest.approx(402e6)


def test_of_the_ways_that_lose_a_frequency_the_one_that_loses_the_highest_is_told() -> None:
    """The way out stops 700 MHz alone, the way aside ends below 1002 MHz."""
    stops = ", {from: in, to: out, band: 650 MHz to 720 MHz, nominal: 40 dB}"
    (finding,) = findings(BAND, tapped("5 MHz to 600 MHz, 750 MHz to 1002 MHz", isolations=stops))
    assert finding.case == "ends below"
    assert "made for frequencies up to 900 MHz" in finding.found
    (alone,) = findings(BAND, tapped("5 MHz to 600 MHz, 750 MHz to 1002 MHz", "5 MHz to 1002 MHz", stops))
    assert alone.case == "stops it"


def test_a_way_of_which_nothing_is_said_cannot_be_judged() -> None:
    text = tapped("5 MHz to 1002 MHz").replace("{from: in, to: out, band: 5 MHz to 1002 MHz, nominal: 4 dB}, ", "")
    (finding,) = findings(BAND, text)
    assert finding.outcome is Outcome.CANNOT_BE_JUDGED
    assert "no figure says what T does from in to out at 1002 MHz" in finding.found


@pytest.mark.parametrize(
    ("ways", "made"), [(2, "2-way in-home data splitter;"), (8, "2-way in-home data splitter or 4-way in-home data")]
)
def test_what_is_made_for_in_home_data_is_offered_before_what_passes_it_by_chance(ways: int, made: str) -> None:
    text = (
        "services: {data: {kind: in-home data, from: M, down: {band: 1125 to 1675 MHz}}}\n"
        "devices: {M: {kind: in-home data adapter, serves: [data]}, N: {kind: in-home data adapter, serves: [data]}, "
        f"SP: {{kind: splitter, ways: {ways}}}}}\n"
        "cables: {C-1: {from: M, to: SP.out-1, type: series 6, length: 3 m}, "
        "C-2: {from: N, to: SP.out-2, type: series 6, length: 3 m}}\n"
    )
    (finding,) = findings(BAND, text)
    assert f"made for it, such as {made}" in finding.remedy


def test_a_part_at_which_a_service_begins_is_not_asked_what_it_passes() -> None:
    text = (
        "services: {net: {kind: cable broadband, from: X, down: {band: 54 to 1002 MHz}, up: {band: 5 to 42 MHz}}}\n"
        "devices: {X: {kind: drop amplifier, outputs: 1, split: 42/54 MHz}, A: {kind: outlet, serves: [net]}}\n"
        "cables: {C: {from: X, to: A, type: series 6, length: 3 m}}\n"
    )
    assert list(reasons(BAND, text)) == ["the service begins at it, and passes none of its ways"]


# The losses of parts.


def told_loss(device: str, catalogue: str = "") -> list[Finding]:
    return findings(LOSS, f"{catalogue}devices: {{X: {{{device}}}}}\n")


def test_how_far_below_the_least_loss_is_told() -> None:
    """10 log 2 is 3.01 dB."""
    (finding,) = told_loss("kind: splitter, ways: 2, loss: 1 dB")
    assert finding.excess == pytest.approx(10 * log10(2) - 1)


def test_a_part_of_a_narrow_band_is_judged_too() -> None:
    own = (
        "catalogue: {devices: {narrow: {like: 2-way splitter, "
        "paths: [{from: in, to: out, band: 1000 MHz to 1100 MHz, nominal: 4 dB}]}}}\n"
    )
    assert [one.case for one in told_loss("kind: splitter, ways: 2, model: narrow, loss: 1 dB", own)] == ["divides"]


def test_a_coupler_that_gives_away_all_it_gets_leaves_nothing_to_compare() -> None:
    own = (
        "catalogue: {devices: {greedy: {like: 12 dB 1-output tap, paths: ["
        "{from: in, to: out, band: 5 MHz to 1002 MHz, nominal: 60 dB}, "
        "{from: in, to: tap, band: 5 MHz to 1002 MHz, nominal: 0 dB}]}}}\n"
    )
    assert told_loss("kind: tap, value: 12 dB, outputs: 1, model: greedy, loss: 1 dB", own) == []


def test_of_outlets_too_close_the_worst_pair_is_told() -> None:
    """A divider of resistors keeps its outputs 6 dB apart, and the leads add what they lose there and here."""
    own = (
        "catalogue: {devices: {resistive: {like: 3-way splitter, isolations: [{from: out, to: out, "
        "band: 5 MHz to 1002 MHz, nominal: 6 dB}]}}}\n"
        "services: {net: {kind: cable broadband, from: D, down: {band: 54 MHz to 1002 MHz}}}\n"
    )
    lengths = {"A": "30 ft", "B": "10 ft", "E": "10 ft"}
    outlets = ", ".join(f"{tag}: {{kind: outlet, serves: [net]}}" for tag in lengths)
    leads = ", ".join(
        f"C-{tag}: {{from: SP.out-{number}, to: {tag}, type: series 6, length: {length}}}"
        for number, (tag, length) in enumerate(lengths.items(), start=1)
    )
    text = (
        f"{own}devices: {{D: {{kind: coax drop}}, SP: {{kind: splitter, ways: 3, model: resistive}}, {outlets}}}\n"
        f"cables: {{C: {{from: D, to: SP.in, type: series 6, length: 9 ft}}, {leads}}}\n"
    )
    (finding,) = findings(APART, text)
    assert "B and E" in finding.found


# Boosters.


def booster(words: str) -> str:
    return (
        "places: {wall: {exposure: outdoors}, loft: {}}\n"
        "services: {phone: {kind: cellular, from: OUT, down: {band: 728 to 757 MHz}, up: {band: 698 to 716 MHz}}}\n"
        "devices: {OUT: {kind: antenna, variant: cellular donor, place: wall}, "
        "IN: {kind: antenna, variant: cellular server, place: loft}, "
        f"X: {{kind: cellular booster, place: loft{words}}}}}\n"
        "cables: {C-1: {from: OUT, to: X.donor, type: 10 mm 50 ohm low-loss, length: 5 m}, "
        "C-2: {from: X.server, to: IN, type: 10 mm 50 ohm low-loss, length: 5 m}}\n"
    )


AIR_DB = 20 * log10(4 * pi * 0.5 * 698e6 / 299792458)
"""Of half a meter of air at 698 MHz, 23.3 dB: the transmission equation."""


@pytest.mark.parametrize(("more_db", "told"), [(0.0, False), (-0.1, False), (0.001, True)])
def test_air_that_just_parts_the_antennas_of_a_booster_is_enough(more_db: float, told: bool) -> None:
    """10 dB more than its gain."""
    found = findings(BOOSTER, booster(f", gain: {AIR_DB - 10 + more_db:.9f} dB, antennas apart: 0.5 m"))
    assert [finding.outcome for finding in found] == ([Outcome.NEEDS_A_PERSON] if told else [])


def test_what_the_building_has_to_add_is_told() -> None:
    (finding,) = findings(BOOSTER, booster(", gain: 65 dB, antennas apart: 0.5 m"))
    assert f"of air between the antennas of X lose {AIR_DB:.1f} dB at 698 MHz" in finding.found
    assert f"have to add {75 - AIR_DB:.1f} dB" in finding.remedy
    (touching,) = findings(BOOSTER, booster(", gain: 65 dB, antennas apart: 0 m"))
    assert "lose 0 dB at 698 MHz" in touching.found
    assert "have to add 75 dB" in touching.remedy


def test_why_a_booster_is_not_judged_is_told() -> None:
    text = booster(", gain: 65 dB")
    assert list(reasons(KIT, text)) == ["it is no booster", "it is no booster", "no kit is stated for it"]
    unsaid = "nothing is said of how its antennas part"
    assert list(reasons(BOOSTER, text)) == ["it is no booster", "it is no booster", unsaid]
