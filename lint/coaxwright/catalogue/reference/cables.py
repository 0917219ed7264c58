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
                f"[{class_.name}](#{anchor(class_.name)})",
                f"{shown(class_.impedance_ohm, 1)} Ω",
                f"{shown(class_.velocity_factor * 100, 1)} %",
                _loss_at(class_, 500e6),
                "existing plant" if class_.existing_only else "new work, usual" if class_.usual else "new work",
            )
            for class_ in classes
        ),
    )
    yield "Other words for what a cable is made with:"
    yield ""
    yield from table(("in the catalogue", "as well"), _spellings())
    for class_ in classes:
        yield from _class(class_)
    yield from _jackets(catalogue)


def anchor(title: str) -> str:
    """The anchor that Markdown gives a title."""
    kept = "".join(sign for sign in title.casefold() if sign.isalnum() or sign in " -")
    return kept.replace(" ", "-")


def _loss_at(cable_class: CableClass, freq_hz: float) -> str:
    attenuation = cable_class.attenuation
    if not attenuation.lowest_hz <= freq_hz <= attenuation.highest_hz:
        return ""
    return per_100_ft(attenuation.loss_db_per_m(freq_hz).nominal_db_per_m, 2)


def _spellings() -> Iterator[tuple[str, str]]:
    for _, data in shipped_data():
        spelled: Any = data.get("spellings", {}) if isinstance(data, Mapping) else {}
        for options in spelled.values():
            yield from ((f"`{name}`", code(others)) for name, others in options.items())


def _class(cable_class: CableClass) -> Iterator[str]:
    yield f"### {cable_class.name}"
    yield ""
    yield f"{cable_class.description[0].upper()}{cable_class.description[1:]}."
    yield ""
    yield from (f"- {line}" for line in _facts(cable_class))
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
            for shield in cable_class.shields.values()
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
            for center in cable_class.centers.values()
        ),
    )
    yield from _attenuation(cable_class)
    yield from sources_of_figures(cable_class.sources)


def _facts(cable_class: CableClass) -> Iterator[str]:
    defaults = cable_class.defaults
    within = (
        f" within {shown(cable_class.impedance_tolerance_ohm, 1)} Ω"
        if cable_class.impedance_tolerance_ohm is not None
        else ""
    )
    velocity = shown(cable_class.velocity_factor * 100, 1)
    yield f"impedance {shown(cable_class.impedance_ohm, 1)} Ω{within}, velocity {velocity} %"
    if cable_class.capacitance_pf_per_m is not None:
        capacitance = cable_class.capacitance_pf_per_m
        yield f"capacitance {shown(capacitance, 1)} pF/m ({shown(capacitance * 0.3048, 1)} pF/ft)"
    dielectric = millimeters(cable_class.dielectric_diameter_m)
    yield f"center {millimeters(cable_class.center_diameter_m)}, dielectric {dielectric}"
    if cable_class.bend_radius_m is not None:
        yield f"bend radius, once: {millimeters(cable_class.bend_radius_m)}"
    if cable_class.flexing_radius_m is not None:
        yield f"bend radius, again and again or under pull: {millimeters(cable_class.flexing_radius_m)}"
    if cable_class.coldest_c is not None and cable_class.hottest_c is not None:
        yield f"in service {shown(cable_class.coldest_c, 0)} to {shown(cable_class.hottest_c, 0)} °C"
    yield f"jackets {code(cable_class.jackets)}"
    yield f"where not said: `{defaults.shield}` shield, `{defaults.center}` center, `{defaults.jacket}` jacket"
    if cable_class.also:
        yield f"other names: {code(cable_class.also)}"
    if cable_class.hints:
        yield f"not taken, because it fixes no construction: {code(cable_class.hints)}"
    if cable_class.existing_only:
        yield "met in existing plant only"


def _resistance(resistance_ohm_per_m: float | None) -> str:
    return "" if resistance_ohm_per_m is None else per_100_ft(resistance_ohm_per_m, 3)


def _attenuation(cable_class: CableClass) -> Iterator[str]:
    attenuation = cable_class.attenuation
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
