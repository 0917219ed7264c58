"""The part of the page about cable: classes, what they are made with, their attenuation, jackets."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from coaxwright.catalogue.collection import Catalogue
from coaxwright.catalogue.entries import CableClass
from coaxwright.catalogue.loader import shipped_data
from coaxwright.catalogue.losses import LossTable
from coaxwright.catalogue.reference.tables import code, millimeters, per_100_ft, sources_of_figures, table, wrapped
from coaxwright.design.quantities import shown


def cable_part(catalogue: Catalogue) -> Iterator[str]:
    """Every class, then the jackets."""
    yield "## Cable classes"
    yield ""
    yield from wrapped(
        "A design writes a class and what it is made with, in any order: `type: series 6 quad copper "
        "outdoor`. What is not said is taken as the class's default. A remedy offers the classes that are "
        "usual."
    )
    yield ""
    classes = catalogue.every_class.values()
    yield from table(
        ("class", "impedance", "velocity", "loss at 500 MHz, dB/100 ft", "for"),
        (
            (
                f"[{one.name}](#{anchor(one.name)})",
                f"{shown(one.impedance_ohm, 1)} Ω",
                f"{shown(one.velocity_factor * 100, 1)} %",
                _loss_at(one, 500e6),
                "existing plant" if one.existing_only else "new work, usual" if one.usual else "new work",
            )
            for one in classes
        ),
    )
    yield "Other words for what a cable is made with:"
    yield ""
    yield from table(("in the catalogue", "as well"), _spellings())
    for one in classes:
        yield from _class(one)
    yield from _jackets(catalogue)


def anchor(title: str) -> str:
    """The anchor that Markdown gives a title."""
    kept = "".join(sign for sign in title.casefold() if sign.isalnum() or sign in " -")
    return kept.replace(" ", "-")


def _loss_at(one: CableClass, freq_hz: float) -> str:
    attenuation = one.attenuation
    if not attenuation.lowest_hz <= freq_hz <= attenuation.highest_hz:
        return ""
    return per_100_ft(attenuation.loss_db_per_m(freq_hz).nominal_db_per_m, 2)


def _spellings() -> Iterator[tuple[str, str]]:
    for _, data in shipped_data():
        spelled: Any = data.get("spellings", {}) if isinstance(data, Mapping) else {}
        for options in spelled.values():
            yield from ((f"`{name}`", code(others)) for name, others in options.items())


def _class(one: CableClass) -> Iterator[str]:
    yield f"### {one.name}"
    yield ""
    yield f"{one.description[0].upper()}{one.description[1:]}."
    yield ""
    yield from (f"- {line}" for line in _facts(one))
    yield ""
    yield from table(
        ("shield", "over the jacket", "resistance, Ω/100 ft", "screening class"),
        (
            (
                f"`{shield.name}`",
                millimeters(shield.outer_diameter_m),
                _resistance(shield.resistance_ohm_per_m),
                shield.screening_class or "",
            )
            for shield in one.shields.values()
        ),
    )
    yield from table(
        ("center", "size", "resistance, Ω/100 ft"),
        (
            (
                f"`{center.name}`",
                (center.size or "") if center.strands == 1 else f"{center.size or ''}, {center.strands} strands",
                _resistance(center.resistance_ohm_per_m),
            )
            for center in one.centers.values()
        ),
    )
    yield from _attenuation(one)
    yield from sources_of_figures(one.sources)


def _facts(one: CableClass) -> Iterator[str]:
    defaults = one.defaults
    within = f" within {shown(one.impedance_tolerance_ohm, 1)} Ω" if one.impedance_tolerance_ohm is not None else ""
    yield f"impedance {shown(one.impedance_ohm, 1)} Ω{within}, velocity {shown(one.velocity_factor * 100, 1)} %"
    if one.capacitance_pf_per_m is not None:
        capacitance = one.capacitance_pf_per_m
        yield f"capacitance {shown(capacitance, 1)} pF/m ({shown(capacitance * 0.3048, 1)} pF/ft)"
    yield f"center {millimeters(one.center_diameter_m)}, dielectric {millimeters(one.dielectric_diameter_m)}"
    if one.bend_radius_m is not None:
        yield f"bend radius, once: {millimeters(one.bend_radius_m)}"
    if one.flexing_radius_m is not None:
        yield f"bend radius, again and again or under pull: {millimeters(one.flexing_radius_m)}"
    if one.coldest_c is not None and one.hottest_c is not None:
        yield f"in service {shown(one.coldest_c, 0)} to {shown(one.hottest_c, 0)} °C"
    yield f"jackets {code(one.jackets)}"
    yield f"where not said: `{defaults.shield}` shield, `{defaults.center}` center, `{defaults.jacket}` jacket"
    if one.also:
        yield f"other names: {code(one.also)}"
    if one.hints:
        yield f"not taken, because it fixes no construction: {code(one.hints)}"
    if one.existing_only:
        yield "met in existing plant only"


def _resistance(resistance_ohm_per_m: float | None) -> str:
    return "" if resistance_ohm_per_m is None else per_100_ft(resistance_ohm_per_m, 3)


def _attenuation(one: CableClass) -> Iterator[str]:
    attenuation = one.attenuation
    at = f"{attenuation.kind} at {shown(attenuation.temperature_c, 0)} °C"
    yield f"Attenuation, {at}; cables lie {_spread(attenuation.published)} around it:"
    yield ""
    rows = list(_points(attenuation.published, ""))
    if attenuation.beyond is not None:
        rows += _points(attenuation.beyond, f"derived, {_spread(attenuation.beyond)}")
    yield from table(("frequency", "dB/100 ft", "dB/100 m", ""), rows)


def _spread(points: LossTable) -> str:
    return f"{points.low_share * 100:+.1f} to {points.high_share * 100:+.1f} %"


def _points(points: LossTable, remark: str) -> Iterator[tuple[str, str, str, str]]:
    for (freq, _), loss_db_per_m in zip(points.texts, points.points[1], strict=True):
        yield freq, per_100_ft(loss_db_per_m, 2), shown(loss_db_per_m * 100, 2), remark


def _jackets(catalogue: Catalogue) -> Iterator[str]:
    yield "## Jackets"
    yield ""
    yield from table(
        ("jacket", "what it is", "sun and wet", "burial", "usual mark in the US", "goes with"),
        (
            (
                f"`{jacket.name}`",
                jacket.description,
                "yes" if jacket.resists_sun_and_wet else "no",
                "yes" if jacket.burial_rated else "no",
                jacket.us_mark or "none",
                code(sorted(jacket.combines_with)),
            )
            for jacket in catalogue.jackets.values()
        ),
    )
    for jacket in catalogue.jackets.values():
        yield f"`{jacket.name}`:"
        yield ""
        yield from list(sources_of_figures(jacket.sources))[2:]
