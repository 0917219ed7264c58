"""Centers that carry direct current or video: just at each limit, the worse of two feeds, and odd data sheets."""

from __future__ import annotations

from math import pi, sqrt

import pytest
from scipy.special import jv, yv

from coaxwright.findings import Finding
from coaxwright.reviewing import judge
from coaxwright.rules import shipped_registry
from coaxwright.source import read_text

HEAD = "coaxwright: 1\ntitle: Bench (invented)\nbasis: {rulesets: [trade 1]}\n"


def findings(text: str) -> list[Finding]:
    review = judge(read_text(HEAD + text, "bench.coax.yaml"), shipped_registry())
    assert [str(problem) for problem in review.problems] == []
    assert review.crashes == ()
    return [finding for finding in review.unfolded if finding.rule == "cable.conductor-material"]


def own(centers: str, *more: str) -> str:
    """A class of one's own with these centers, of which the first is the usual one."""
    first = centers.partition(":")[0]
    figures = "".join(f", {one}" for one in more)
    return (
        "catalogue:\n  classes:\n    odd:\n      like: series 6\n      source: bench\n"
        f"      centers: {{{centers}}}\n      shields: {{foil: {{resistance: 5 ohm/1000 ft}}}}\n"
        f"      defaults: {{shield: foil, center: {first}, jacket: indoor}}\n"
        + "".join(f"      {one}\n" for one in figures.split(", ") if one)
    )


FEED = (
    "devices: {L: {kind: LNB, outputs: 1}, S: {kind: satellite receiver}}\n"
    "cables: {C: {from: L, to: S, type: odd, length: %s}}\n"
)
VIDEO = (
    "services: {cam: {kind: camera video, from: CAM, down: {band: 50 Hz to 6 MHz}}}\n"
    "devices: {CAM: {kind: camera, variant: analog}, REC: {kind: video recorder, inputs: 4, serves: [cam]}}\n"
    "cables: {C: {from: CAM, to: REC, type: %s, length: 30 m}}\n"
)
CLAD = "copper-clad steel: {resistance: 15 ohm/1000 ft}"
COPPER = "copper: {resistance: 6 ohm/1000 ft}"


@pytest.mark.parametrize(("length", "case"), [("100 ft", "short feed"), ("100.1 ft", "feed")])
def test_a_feed_over_just_the_harmless_resistance_does_little_harm(length: str, case: str) -> None:
    """15 and 5 ohm/1000 ft, out and back: 2 ohm over 100 ft."""
    assert [finding.case for finding in findings(own(f"{CLAD}, {COPPER}") + FEED % length)] == [case]


def test_the_worse_of_two_feeds_over_a_cable_is_told() -> None:
    """One converter is fed over 50 ft of series 6 tri, 1.8 ohm, the other over 100 ft, 3.7 ohm: ASTM B869, and a model
    of the shield.
    """
    passes = "{passes power: true}"
    text = (
        "devices: {L-1: {kind: LNB, outputs: 1}, L-2: {kind: LNB, outputs: 1}, S: {kind: satellite receiver}, "
        f"SP: {{kind: splitter, ways: 2, ports: {{in: {passes}, out-1: {passes}, out-2: {passes}}}}}}}\n"
        "cables: {C-1: {from: L-1, to: SP.out-1, type: series 6 tri, length: 10 ft},\n"
        "         C-2: {from: L-2, to: SP.out-2, type: series 6 tri, length: 60 ft},\n"
        "         C-3: {from: SP.in, to: S, type: series 6 tri, length: 40 ft}}\n"
    )
    found = {finding.subject.tag: finding for finding in findings(text)}
    assert (found["C-1"].case, found["C-3"].case) == ("short feed", "feed")
    assert "C-3 feeds L-2" in found["C-3"].found


def test_a_class_that_is_made_in_no_copper_is_told_without_a_comparison() -> None:
    (finding,) = findings(own(CLAD) + FEED % "100 ft")
    assert "take 2 V for each ampere" in finding.found
    assert "with a copper center" not in finding.found


@pytest.mark.parametrize(("diameter", "cases"), [("2 mm", []), ("1.99 mm", ["clad aluminum"])])
def test_clad_aluminum_of_just_the_thickness_is_a_feeder(diameter: str, cases: list[str]) -> None:
    centers = "copper-clad aluminum: {resistance: 10 ohm/1000 ft}, copper: {resistance: 6 ohm/1000 ft}"
    text = own(centers, f"center diameter: {diameter}", "dielectric diameter: 8 mm") + (
        "devices: {A: {kind: antenna}, R: {kind: receiver}}\ncables: {C: {from: A, to: R, type: odd, length: 9 m}}\n"
    )
    assert [finding.case for finding in findings(text)] == cases


def layered_ohm_per_m(freq_hz: float, radius_m: float, core_m: float, core: tuple[float, float]) -> float:
    """Resistance [ohm/m] of a copper tube round a core, which has a conductivity [S/m] and a permeability.

    E = A J0(kr) within, B J0(kr) + C Y0(kr) in the tube; E and H go on across the boundary; Z = E / (2 pi r H).
    Source: textbook solution of the diffusion equation in a round wire.
    """
    omega, mu_0 = 2 * pi * freq_hz, 4e-7 * pi

    def of(sigma: float, permeability: float, r_m: float) -> tuple[complex, complex, complex, complex]:
        """E and H [per amplitude] of the two solutions at a radius."""
        mu = mu_0 * permeability
        k = sqrt(omega * mu * sigma) * (1 - 1j) / sqrt(2)
        slope = k / (1j * omega * mu)
        return jv(0, k * r_m), yv(0, k * r_m), -slope * jv(1, k * r_m), -slope * yv(1, k * r_m)

    e_core, _, h_core, _ = of(*core, core_m)
    j, y, h_j, h_y = of(5.8e7, 1, core_m)
    determinant = j * h_y - y * h_j
    b, c = (e_core * h_y - y * h_core) / determinant, (j * h_core - h_j * e_core) / determinant
    j, y, h_j, h_y = of(5.8e7, 1, radius_m)
    return float(abs(((b * j + c * y) / (2 * pi * radius_m * (b * h_j + c * h_y))).real))


def test_what_a_clad_center_costs_video_is_told_at_the_low_end() -> None:
    """18 AWG (1.0236 mm) of 21.01 % of copper in series 6 (4.572 mm), steel of 10.3 % and a permeability of 100, at
    500 kHz; the shield is of copper too: its surface resistance over its circumference.
    """
    radius_m, inner_m = 1.0236e-3 / 2, 4.572e-3
    clad = (6.39 / 30.41 - 0.103) / (1 - 0.103)
    shield = sqrt(pi * 5e5 * 4e-7 * pi / 5.8e7) / (pi * inner_m)
    with_clad = layered_ohm_per_m(5e5, radius_m, radius_m * sqrt(1 - clad), (0.103 * 5.8e7, 100))
    with_copper = layered_ohm_per_m(5e5, radius_m, radius_m / 2, (5.8e7, 1))
    times = round((with_clad + shield) / (with_copper + shield), 1)
    (finding,) = findings(VIDEO % "series 6 tri")
    assert f"; at 500 kHz it loses about {times:g} times as much as with a copper one" in finding.found


@pytest.mark.parametrize(
    ("clad", "copper", "more"),
    [
        ("10", "10", ()),  # as good as copper: there is no steel in it
        ("9", "10", ()),  # better than copper
        ("100", "10", ()),  # worse than steel
        ("10", "1.03", ()),  # just as bad as steel: there is no copper on it
        ("30", "6", ("center diameter: 4 mm", "dielectric diameter: 4 mm")),
        ("30", "6", ("center diameter: 5 mm", "dielectric diameter: 4 mm")),
    ],
)
def test_a_data_sheet_that_cannot_be_true_is_told_without_a_figure(
    clad: str, copper: str, more: tuple[str, ...]
) -> None:
    centers = f"copper-clad steel: {{resistance: {clad} ohm/1000 ft}}, copper: {{resistance: {copper} ohm/1000 ft}}"
    (finding,) = findings(own(centers, *more) + VIDEO % "odd")
    assert finding.case == "video"
    assert "times as much" not in finding.found
