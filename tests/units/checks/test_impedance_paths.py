"""Impedance where no cable shows it, and what comes back from several joints together."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
import skrf
from skrf.media import DefinedGammaZ0

from coaxwright.findings import Finding
from coaxwright.reviewing import DesignReview, judge
from coaxwright.rules import shipped_registry
from coaxwright.source import read_text

HEAD = "coaxwright: 1\ntitle: Bench (invented)\nbasis: {rulesets: [trade 1]}\n"
TV = 'services: {tv: {kind: terrestrial TV, from: ANT, channels: [{name: "24", frequency: 533 MHz}]}}\n'


def review_of(text: str) -> DesignReview:
    review = judge(read_text(HEAD + text, "bench.coax.yaml"), shipped_registry())
    assert [str(problem) for problem in review.problems] == []
    assert review.crashes == ()
    return review


def findings(text: str, rule: str) -> list[Finding]:
    return [finding for finding in review_of(text).unfolded if finding.rule == rule]


@pytest.mark.parametrize("kind", ["ground block", "protector", "DC block", "galvanic isolator"])
def test_a_straight_part_matches_nothing(kind: str) -> None:
    text = (
        "devices: {A: {kind: antenna, impedance: 50 ohm}, R: {kind: receiver}, "
        f"P: {{kind: {kind}, ports: {{in: {{impedance: 50 ohm}}}}}}}}\n"
        "cables: {C-1: {from: A, to: P.in, type: 10 mm 50 ohm low-loss, length: 2 m},\n"
        "         C-2: {from: P.out, to: R, type: series 6 tri, length: 9 m}}\n"
    )
    (finding,) = findings(text, "impedance.path-uniform")
    assert finding.subject.tag == "P"
    assert findings(text, "impedance.port-match") == []


@pytest.mark.parametrize("kind", ["preamplifier", "attenuator, value: 6 dB"])
def test_an_amplifier_and_a_pad_may_match(kind: str) -> None:
    text = (
        "devices: {A: {kind: antenna, impedance: 50 ohm}, R: {kind: receiver}, "
        f"P: {{kind: {kind}, ports: {{in: {{impedance: 50 ohm}}}}}}}}\n"
        "cables: {C-1: {from: A, to: P.in, type: 10 mm 50 ohm low-loss, length: 2 m},\n"
        "         C-2: {from: P.out, to: R, type: series 6 tri, length: 9 m}}\n"
    )
    assert findings(text, "impedance.path-uniform") == []


def test_outputs_of_a_splitter_do_not_pass_to_one_another() -> None:
    text = (
        "devices: {A: {kind: antenna}, SP: {kind: splitter, ways: 3, ports: {out-3: {impedance: 50 ohm}}}, "
        "B: {kind: receiver}, C: {kind: receiver, impedance: 50 ohm}}\n"
        "cables: {C-1: {from: SP.out-1, to: B, type: series 6, length: 2 m},\n"
        "         C-2: {from: SP.out-3, to: C, type: 213-type, length: 9 m}%s}\n"
    )
    assert findings(text % "", "impedance.path-uniform") == []
    (finding,) = findings(text % ", C-0: {from: A, to: SP.in, type: series 6, length: 2 m}", "impedance.path-uniform")
    assert "75 Ω (C-0) to 50 Ω (C-2)" in finding.found


def test_one_connector_for_both_ends_is_told_once_and_two_are_told_apart() -> None:
    text = (
        "devices: {A: {kind: antenna}, B: {kind: receiver}}\n"
        "cables: {C-1: {from: A, to: B, type: series 6, length: 2 m, connectors: [%s]}}\n"
    )
    assert len(findings(text % "{series: SMA}", "impedance.connector-grade")) == 1
    both = findings(text % "{series: SMA}, {series: FME}", "impedance.connector-grade")
    assert len({finding.identity for finding in both}) == 2
    assert findings(text % "{fit: compression}, {series: N}", "impedance.connector-grade") == []


def chain(parts: int, length_m: float = 1.0, offset_ohm: int = 62) -> str:
    """An antenna, so many ground blocks off by some ohms and a receiver off as well, with short cables between."""
    tags = ["ANT", *(f"GB{number}" for number in range(1, parts)), "R"]
    devices = [f"GB{number}: {{kind: ground block, impedance: {offset_ohm} ohm}}" for number in range(1, parts)]
    links = [
        f"C-{number}: {{from: {one}, to: {other}, type: series 6, length: {length_m} m}}"
        for number, (one, other) in enumerate(pairwise(tags), start=1)
    ]
    receiver = f"R: {{kind: receiver, impedance: {offset_ohm} ohm, serves: [tv]}}"
    return (
        f"{TV}devices: {{ANT: {{kind: antenna}}, {', '.join([*devices, receiver])}}}\ncables: {{{', '.join(links)}}}\n"
    )


@pytest.mark.parametrize("parts", [3, 4])
def test_reflections_add_up_as_the_worst_frequency_of_a_band_shows(parts: int) -> None:
    """scikit-rf: the least return loss over a wide band of lossy lines between joints of 62 on 75 ohm.

    The loss is that of series 6 at 533 MHz by the table of ANSI/SCTE 74, 4.82 dB/100 ft, less the 8 % that cables
    found are better; a ground block takes at least 0.1 dB. A wide band finds the frequency where all are in step.
    """
    frequency = skrf.Frequency(100, 6000, 60001, "mhz")
    step = (62 - 75) / (62 + 75)
    passed = np.sqrt(1 - step**2)
    joint = skrf.Network(frequency=frequency, s=np.tile([[step, passed], [passed, -step]], (60001, 1, 1)), z0=75.0)
    network = joint
    for length_m in (1.0, 1.0133, 0.9871)[: parts - 1]:
        loss_db = 4.82 * 0.92 / 30.48
        phase = 2 * np.pi * frequency.f / (0.85 * 299792458.0)
        medium = DefinedGammaZ0(frequency, z0=75.0, gamma=loss_db / 8.685889638 + 1j * phase)
        block = medium.attenuator(-0.1, True, 0)
        network = network ** medium.line(length_m, "m") ** joint**block
    least_db = float(np.min(-20 * np.log10(np.abs(network.s[:, 0, 0]))))
    (finding,) = findings(chain(parts), "impedance.return-loss")
    told_db = float(finding.found.partition("return loss of ")[2].partition(" dB")[0])
    assert least_db - 0.5 <= told_db <= least_db + 0.05  # what nearer joints keep back is left out: never too kind


def test_two_parts_a_little_off_stay_within_the_limit() -> None:
    """-20 log of twice 13/137 is 14.4 dB: textbook."""
    assert findings(chain(2), "impedance.return-loss") == []
    assert findings(chain(3, length_m=25.0), "impedance.return-loss") == []


def test_an_amplifier_keeps_what_lies_behind_it_apart() -> None:
    text = (
        f"{TV}devices: {{ANT: {{kind: antenna}}, P: {{kind: protector, impedance: 62 ohm}}, "
        "Q: {kind: ground block, impedance: 62 ohm}, AMP: {kind: drop amplifier, outputs: 1}, "
        "R: {kind: receiver, impedance: 62 ohm, serves: [tv]}}\n"
        "cables: {C-1: {from: ANT, to: P, type: series 6, length: 1 m}, "
        "C-2: {from: P, to: Q, type: series 6, length: 1 m}, C-3: {from: Q, to: AMP, type: series 6, length: 1 m}, "
        "C-4: {from: AMP, to: R, type: series 6, length: 1 m}}\n"
    )
    assert findings(text, "impedance.return-loss") == []


def test_services_over_the_same_joints_are_told_once() -> None:
    two = chain(4).replace(
        "services: {tv:", "services: {fm: {kind: FM radio, from: ANT, down: {band: 88 to 108 MHz}}, tv:"
    )
    two = two.replace("serves: [tv]", "serves: [fm, tv]")
    first, other = findings(two, "impedance.return-loss")
    assert (first.subject.second, first.folded_under) == ("fm", None)
    assert (other.subject.second, other.folded_under) == ("tv", first.identity)


def test_a_reading_of_another_band_says_nothing_of_the_service() -> None:
    read = chain(4).replace("serves: [tv]", "serves: [tv], readings: [{return loss: %s at %s}]")
    (computed,) = findings(read % ("9 dB", "900 MHz"), "impedance.return-loss")
    assert computed.case == "adds up"
    (measured,) = findings(read % ("9 dB", "533 MHz"), "impedance.return-loss")
    assert measured.case == "measured"
    assert findings(read % ("-15 dB", "533 MHz"), "impedance.return-loss") == []
