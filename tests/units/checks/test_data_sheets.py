"""Data sheets of the author's own: sound ones are left alone, slips are found."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coaxwright.analysis import Analysis
from coaxwright.catalogue import CableClass, Source, load_catalogue
from coaxwright.catalogue.entries import Center
from coaxwright.catalogue.losses import LossTable
from coaxwright.checks import CheckContext, NotMet, Verdict, all_checks
from coaxwright.checks.cable.sheet_plausible import _slip
from coaxwright.checks.selectors import OwnClass
from coaxwright.design import understand
from coaxwright.design.value_types import Phrase
from coaxwright.network import build_network
from coaxwright.physics.line_loss import CrossSection, conductor_loss_db_per_m
from coaxwright.reviewing import judge
from coaxwright.reviewing.reading import read_design
from coaxwright.rules import combine, shipped_registry
from coaxwright.source import read_text

CLASSES = load_catalogue().every_class
PLANT = build_network(
    understand(read_text("coaxwright: 1\ntitle: Bench (invented)\nbasis: {rulesets: [trade 1]}\n", "x"))
)
SITE = CheckContext(PLANT, Analysis(PLANT))
RULES = ("impedance.geometry-plausible", "cable.sheet-plausible", "cable.conductor-gauge")
STATED = Source("a data sheet", "stated by the author")


def own(made: CableClass) -> OwnClass:
    """A class as if its author had stated every figure of it."""
    figures = (
        "impedance",
        "velocity",
        "capacitance",
        "center diameter",
        "dielectric diameter",
        "attenuation",
        "centers",
    )
    stated = {**made.sources, **dict.fromkeys(figures, STATED)}
    return OwnClass(replace(made, sources=stated), ("catalogue", "classes", made.name), True)


def verdicts(made: CableClass, rule: str) -> Iterator[Verdict]:
    bound = combine(["trade 1"], shipped_registry()).rules[rule]
    return all_checks()[bound.check.name].judge(own(made), SITE, bound.limits)


def cases(made: CableClass, rule: str) -> list[str]:
    return [verdict.case for verdict in verdicts(made, rule) if isinstance(verdict, NotMet)]


def scaled(made: CableClass, factor: float) -> CableClass:
    """A class whose published losses are all a factor off."""
    table_hz, losses = made.attenuation.published.points
    texts = tuple(
        (f"{freq_hz / 1e6:.6f} MHz", f"{100 * loss * factor:.9f} dB/100 m")
        for freq_hz, loss in zip(table_hz, losses, strict=True)
    )
    published = LossTable(made.name, texts, 0.0, 0.0)
    return replace(made, attenuation=replace(made.attenuation, published=published, beyond=None))


@pytest.mark.parametrize("rule", RULES)
@pytest.mark.parametrize("made", CLASSES.values(), ids=lambda made: made.name)
def test_published_cables_are_plausible(made: CableClass, rule: str) -> None:
    """Drop classes of ANSI/SCTE 74 and the cables of a handbook, with its rounded figures and odd impedances."""
    assert cases(made, rule) == []


@pytest.mark.parametrize("made", CLASSES.values(), ids=lambda made: made.name)
@pytest.mark.parametrize(("factor", "case"), [(0.3048, "too low"), (3.2808, "too high")])
def test_a_slip_between_100_ft_and_100_m_is_found_in_every_class(made: CableClass, factor: float, case: str) -> None:
    assert cases(scaled(made, factor), "cable.sheet-plausible") == [case]


@pytest.mark.parametrize(
    "made", [one for one in CLASSES.values() if one.capacitance_pf_per_m], ids=lambda made: made.name
)
def test_a_capacitance_per_foot_for_one_per_meter_is_found_in_every_class(made: CableClass) -> None:
    assert made.capacitance_pf_per_m is not None
    slip = replace(made, capacitance_pf_per_m=made.capacitance_pf_per_m * 0.3048)
    assert cases(slip, "impedance.geometry-plausible") == ["capacitance"]


@pytest.mark.parametrize("made", CLASSES.values(), ids=lambda made: made.name)
def test_50_for_75_ohm_and_back_is_found_in_every_class(made: CableClass) -> None:
    other = replace(made, impedance_ohm=75.0 if made.impedance_ohm < 60 else 50.0)
    assert cases(other, "impedance.geometry-plausible") == ["dimensions"]


@given(
    impedance_ohm=st.floats(0, 1e4),
    velocity_factor=st.floats(-1, 3),
    center_m=st.floats(0, 1),
    dielectric_m=st.floats(0, 1),
    capacitance=st.floats(0, 1e4),
)
def test_no_figures_are_too_odd_to_be_judged(
    impedance_ohm: float, velocity_factor: float, center_m: float, dielectric_m: float, capacitance: float
) -> None:
    made = replace(
        CLASSES["series 6"],
        impedance_ohm=impedance_ohm,
        velocity_factor=velocity_factor,
        center_diameter_m=center_m,
        dielectric_diameter_m=dielectric_m,
        capacitance_pf_per_m=capacitance,
    )
    possible = impedance_ohm >= 1 and 0.1 <= velocity_factor <= 1 and dielectric_m > center_m >= 1e-6
    assert (cases(made, "impedance.geometry-plausible") == ["impossible"]) is not possible
    assert len(cases(made, "cable.sheet-plausible")) <= 1
    assert len(cases(made, "cable.conductor-gauge")) <= 1


@pytest.mark.parametrize(
    ("name", "millimeters", "cases_"),
    [
        # ASTM B258: 18 AWG 1.024 mm, 20 AWG 0.812 mm, 14 AWG 1.628 mm, 16 AWG 1.291 mm.
        ("firm series 6", 1.02, []),
        ("firm series 6", 0.81, ["other center"]),
        ("Firm Series 59 outdoor", 0.81, []),
        ("firm series 11", 1.63, []),
        ("firm series 11", 1.02, ["other center"]),
        ("firm series 7", 1.29, []),
        ("59-type of a firm", 0.58, []),
        ("firm series 60", 0.5, []),
        ("firm series 6", 0.0, ["other center"]),
    ],
)
def test_centers_by_their_diameter(name: str, millimeters: float, cases_: list[str]) -> None:
    bare = {key: replace(center, size=None) for key, center in CLASSES["series 6"].centers.items()}
    made = replace(CLASSES["series 6"], name=name, centers=bare, center_diameter_m=millimeters / 1e3)
    assert cases(made, "cable.conductor-gauge") == cases_


def test_figures_taken_from_another_class_are_not_the_authors_to_agree_with() -> None:
    made = replace(CLASSES["series 6"], impedance_ohm=50.0)
    partly = OwnClass(replace(made, sources={**made.sources, "impedance": STATED}), ("cables", "C-1", "type"), False)
    bound = combine(["trade 1"], shipped_registry()).rules["impedance.geometry-plausible"]
    assert [
        v
        for v in all_checks()["impedance.geometry-plausible"].judge(partly, SITE, bound.limits)
        if isinstance(v, NotMet)
    ] == []


def sheet(shares: dict[float, float]) -> CableClass:
    """Series 6 with losses that are these shares, by MHz, of what smooth copper of its diameters loses."""
    made = CLASSES["series 6"]
    line = CrossSection(made.dielectric_diameter_m, made.center_diameter_m, made.velocity_factor)
    texts = tuple(
        (f"{freq_mhz} MHz", f"{100 * share * conductor_loss_db_per_m(freq_mhz * 1e6, line):.14f} dB/100 m")
        for freq_mhz, share in shares.items()
    )
    return replace(made, attenuation=replace(made.attenuation, published=LossTable("x", texts, 0.0, 0.0), beyond=None))


def told(made: CableClass, rule: str) -> NotMet:
    (verdict,) = verdicts(made, rule)
    assert isinstance(verdict, NotMet)
    return verdict


@pytest.mark.parametrize(
    ("share", "case", "slip"),
    [
        # The rule bears 90 % to 250 %.
        (0.9, None, None),
        (0.899, "too low", None),
        (2.5, None, None),
        (2.501, "too high", None),
        # 100 ft are 30.48 m: what is right per 100 ft is 3.28 times as much per 100 m.
        (0.7, "too low", None),
        (0.5, "too low", ("dB/100 ft", "dB/100 m")),
        (0.2, "too low", None),
        (2.7, "too high", None),
        (4.5, "too high", ("dB/100 m", "dB/100 ft")),
        (8.0, "too high", None),
        (0, "too low", None),
    ],
)
def test_how_far_a_loss_may_be_from_that_of_smooth_copper(
    share: float, case: str | None, slip: tuple[str, str] | None
) -> None:
    made = sheet({100: share})
    assert cases(made, "cable.sheet-plausible") == ([case] if case is not None else [])
    if case is not None:
        verdict = told(made, "cable.sheet-plausible")
        limit, factor = ("least", 0.9) if case == "too low" else ("most", 2.5)
        assert verdict.values["slip"] == (
            Phrase("units", dict(zip(("wrong", "right"), slip, strict=True))) if slip else None
        )
        assert verdict.cites == ((limit,),)
        physical, allowed = (verdict.values[word].values["loss"] for word in ("physical", limit))
        assert allowed == pytest.approx(factor * physical)


@pytest.mark.parametrize("share", [0.9 * 3.2808, 2.0 * 3.2808], ids=["least", "most"])
def test_a_slip_explains_losses_of_just_below_smooth_copper_to_twice_as_much(share: float) -> None:
    assert _slip(share) == Phrase("units", {"wrong": "dB/100 m", "right": "dB/100 ft"})


def test_losses_are_judged_from_30_mhz_and_told_where_they_are_furthest_off() -> None:
    assert cases(sheet({29.9: 0.5, 100: 1.2}), "cable.sheet-plausible") == []
    assert told(sheet({30: 0.5, 100: 1.2}), "cable.sheet-plausible").values["frequency"] == pytest.approx(30e6)
    assert told(sheet({100: 0.3, 1000: 0.5}), "cable.sheet-plausible").values["frequency"] == pytest.approx(100e6)
    assert told(sheet({100: 0.8, 1000: 9.0}), "cable.sheet-plausible").case == "too high"


@pytest.mark.parametrize(
    ("figures", "is_possible"),
    [
        ({"velocity_factor": 0.1}, True),
        ({"velocity_factor": 0.15}, True),
        ({"velocity_factor": 0.099}, False),
        ({"velocity_factor": 1.0}, True),
        ({"velocity_factor": 1.001}, False),
        ({"impedance_ohm": 1.0}, True),
        ({"impedance_ohm": 1.5}, True),
        ({"impedance_ohm": 0.99}, False),
        ({"center_diameter_m": 1e-6}, True),
        ({"center_diameter_m": 0.9e-6}, False),
        ({"dielectric_diameter_m": CLASSES["series 6"].center_diameter_m}, False),
    ],
)
def test_figures_of_no_line_at_all(figures: dict[str, float], is_possible: bool) -> None:
    made = replace(CLASSES["series 6"], **figures)
    assert ("impossible" not in cases(made, "impedance.geometry-plausible")) is is_possible


@pytest.mark.parametrize(
    ("tolerance", "expected"), [(1.1, []), (1.101, ["capacitance"]), (0.9, []), (0.899, ["capacitance"])]
)
def test_a_capacitance_may_be_a_tenth_off(tolerance: float, expected: list[str]) -> None:
    """C = 1 / (c Z0 VF). Source: textbook; c = 299,792,458 m/s."""
    made = replace(CLASSES["series 6"], impedance_ohm=75.0, velocity_factor=0.85)
    made = replace(made, capacitance_pf_per_m=tolerance * 1e12 / (299792458 * 75 * 0.85))
    assert cases(made, "impedance.geometry-plausible") == expected


def test_how_far_a_capacitance_is_off_is_told() -> None:
    """75 ohm and 0.85 make 52.32 pF/m by the same formula; 20.26 is 61.3 % below."""
    made = replace(CLASSES["series 6"], impedance_ohm=75.0, velocity_factor=0.85, capacitance_pf_per_m=20.26)
    values = told(made, "impedance.geometry-plausible").values
    assert values["capacitance"] == Phrase("capacitance", {"capacitance": 20.26})
    assert values["computed"].values["capacitance"] == pytest.approx(52.32, abs=0.005)
    assert values["deviation"] == pytest.approx(0.613, abs=0.0005)


@pytest.mark.parametrize(("strands", "expected"), [((1, 1), ["dimensions"]), ((1, 2), []), ((7, 7), [])])
def test_a_stranded_center_works_as_one_a_little_thinner(strands: tuple[int, int], expected: list[str]) -> None:
    """59.96 VF ln(D/d) of 7.25 over 2.05 mm in solid polyethylene (0.659) is 49.9 ohm, with 0.94 d 52.4 ohm.

    Source: textbook. 56 ohm is within a tenth of the second alone.
    """
    centers = {str(number): Center("copper", None, strands=count) for number, count in enumerate(strands)}
    made = replace(
        CLASSES["series 6"],
        centers=centers,
        impedance_ohm=56.0,
        velocity_factor=0.659,
        center_diameter_m=2.05e-3,
        dielectric_diameter_m=7.25e-3,
        capacitance_pf_per_m=None,
    )
    assert cases(made, "impedance.geometry-plausible") == expected


@pytest.mark.parametrize(
    ("gauges_off", "expected"), [(0.5, []), (-0.5, []), (0.51, ["other center"]), (-0.51, ["other center"])]
)
def test_a_center_may_be_half_a_gauge_off(gauges_off: float, expected: list[str]) -> None:
    """Of 18 AWG, 0.127 mm 92^(18/39) across. Source: ASTM B258."""
    made = replace(
        CLASSES["series 6"],
        centers={"copper": Center("copper", None)},
        center_diameter_m=0.127e-3 * 92 ** ((18 + gauges_off) / 39),
    )
    assert cases(made, "cable.conductor-gauge") == expected


FIRM = """\
coaxwright catalogue: 1
classes:
  van 6:
    like: series 6
    attenuation: {table: {50 MHz: 1.5 dB/100 m, 1000 MHz: 6.5 dB/100 m}}
  never used:
    like: series 6
    attenuation: {table: {50 MHz: 1.5 dB/100 m, 1000 MHz: 6.5 dB/100 m}}
"""
DESIGN = """\
coaxwright: 1
title: Bench (invented)
basis: {rulesets: [trade 1], catalogues: [van.coax-catalogue.yaml]}
devices: {A: {kind: antenna}, B: {kind: splitter, ways: 2}, C: {kind: outlet}}
cables:
  C-0: {from: B, to: C, type: van 6 tri, length: 3 m, state: abandoned}
  C-1: {from: A, to: B, type: series 6, length: 3 m}
  C-2: {from: B, to: C, type: van 6 tri, length: 3 m}
"""


def test_a_class_of_a_firms_file_is_told_where_a_cable_in_use_first_names_it(tmp_path: Path) -> None:
    (tmp_path / "van.coax-catalogue.yaml").write_text(FIRM, encoding="utf-8")
    (tmp_path / "site.coax.yaml").write_text(DESIGN, encoding="utf-8")
    review = judge(read_design(tmp_path / "site.coax.yaml", "site.coax.yaml"), shipped_registry())
    assert review.problems == ()
    (finding,) = [finding for finding in review.unfolded if finding.rule == "cable.sheet-plausible"]
    assert (finding.place.span.start.line, finding.subject.tag, finding.subject.kind) == (8, "van 6", "cable class")
