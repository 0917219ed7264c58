"""Catalogue data to jackets and cable classes."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import TypeVar

from coaxwright.catalogue.entries import CableClass, Center, Defaults, Jacket, Shield, Source
from coaxwright.catalogue.errors import CatalogueError
from coaxwright.catalogue.losses import Attenuation, AttenuationKind, LossTable
from coaxwright.catalogue.measures import CapacitancePerLength, Percent, ResistancePerLength
from coaxwright.catalogue.reading import Fields
from coaxwright.design.quantities import Impedance, Length, Temperature, TemperatureRange, WireSize

V = TypeVar("V")


def read_jacket(name: str, fields: Fields, sources: Mapping[str, Source]) -> Jacket:
    """A jacket. Raises CatalogueError for a missing field or source."""
    mark = fields.text("us mark")
    return Jacket(
        name=name,
        resists_sun_and_wet=fields.flag("resists sun and wet"),
        burial_rated=fields.flag("burial-rated"),
        us_mark=None if mark == "none" else mark,
        combines_with=frozenset(fields.texts("combines with")),
        description=fields.text("description"),
        sources=sources_of(fields, sources),
    )


def read_class(name: str, fields: Fields, sources: Mapping[str, Source], jackets: Mapping[str, Jacket]) -> CableClass:
    """A cable class; ``jackets``: all that the catalogue has. Raises CatalogueError for a wrong or missing field."""
    tolerance = fields.optional_quantity("impedance tolerance", Impedance)
    capacitance = fields.optional_quantity("capacitance", CapacitancePerLength)
    temperatures = fields.optional_quantity("temperature range", TemperatureRange)
    shields = {key: _read_shield(key, inner) for key, inner in fields.inner_each("shields")}
    centers = {key: _read_center(key, inner) for key, inner in fields.inner_each("centers")}
    own_jackets = {
        key: _known(jackets, key, fields, "jackets", index) for index, key in enumerate(fields.texts("jackets"))
    }
    return CableClass(
        name=name,
        description=fields.text("description"),
        impedance_ohm=fields.quantity("impedance", Impedance).impedance_ohm,
        impedance_tolerance_ohm=tolerance.impedance_ohm if tolerance else None,
        velocity_factor=fields.quantity("velocity", Percent).share,
        capacitance_pf_per_m=capacitance.capacitance_pf_per_m if capacitance else None,
        center_diameter_m=fields.quantity("center diameter", Length).length_m,
        dielectric_diameter_m=fields.quantity("dielectric diameter", Length).length_m,
        attenuation=_read_attenuation(fields.inner("attenuation")),
        shields=MappingProxyType(shields),
        centers=MappingProxyType(centers),
        jackets=MappingProxyType(own_jackets),
        defaults=_read_defaults(fields.inner("defaults"), shields, centers, own_jackets),
        hints=fields.texts("hints"),
        sources=sources_of(fields, sources),
        also=fields.texts("also"),
        usual=fields.optional_flag("usual") or False,
        existing_only=fields.optional_flag("existing only") or False,
        bend_radius_m=_length_m(fields, "bend radius"),
        flexing_radius_m=_length_m(fields, "flexing radius"),
        coldest_c=temperatures.coldest_c if temperatures else None,
        hottest_c=temperatures.hottest_c if temperatures else None,
    )


def sources_of(fields: Fields, sources: Mapping[str, Source]) -> Mapping[str, Source]:
    """The sources of an entry's figures, by figure. Raises CatalogueError for a key that the file does not have."""
    return MappingProxyType(
        {figure: _known(sources, key, fields, "sources", figure) for figure, key in fields.text_pairs("sources")}
    )


def _read_shield(name: str, fields: Fields) -> Shield:
    return Shield(
        name=name,
        outer_diameter_m=_length_m(fields, "outer diameter"),
        resistance_ohm_per_m=_resistance(fields),
        screening_class=fields.optional_text("screening class"),
    )


def _read_center(name: str, fields: Fields) -> Center:
    size = fields.optional_quantity("size", WireSize)
    return Center(
        name=name,
        resistance_ohm_per_m=_resistance(fields),
        size=size.text if size else None,
        strands=fields.optional_whole("strands") or 1,
        strand_diameter_m=_length_m(fields, "strand diameter"),
    )


def _length_m(fields: Fields, name: str) -> float | None:
    length = fields.optional_quantity(name, Length)
    return length.length_m if length else None


def _resistance(fields: Fields) -> float | None:
    resistance = fields.optional_quantity("resistance", ResistancePerLength)
    return resistance.resistance_ohm_per_m if resistance else None


def _read_attenuation(fields: Fields) -> Attenuation:
    kind = fields.text("kind")
    if kind not in set(AttenuationKind):
        what = f"{kind!r} is no kind of table; write {', '.join(AttenuationKind)}"
        raise CatalogueError(fields.where, what, (*fields.path, "kind"))
    return Attenuation(
        kind=AttenuationKind(kind),
        temperature_c=fields.quantity("temperature", Temperature).temperature_c,
        published=_read_table(fields),
        beyond=_read_table(fields.inner("beyond")) if "beyond" in fields else None,
    )


def _read_table(fields: Fields) -> LossTable:
    spread = fields.inner("spread")
    return LossTable(
        where=fields.where,
        texts=fields.text_pairs("table"),
        low_share=spread.quantity("low", Percent).share,
        high_share=spread.quantity("high", Percent).share,
    )


def _read_defaults(
    fields: Fields, shields: Mapping[str, Shield], centers: Mapping[str, Center], jackets: Mapping[str, Jacket]
) -> Defaults:
    return Defaults(
        shield=_known(shields, fields.text("shield"), fields, "shield").name,
        center=_known(centers, fields.text("center"), fields, "center").name,
        jacket=_known(jackets, fields.text("jacket"), fields, "jacket").name,
    )


def _known(table: Mapping[str, V], key: str, fields: Fields, *at: str | int) -> V:
    """What a table has of a key that is written ``at`` the place below the fields."""
    if key not in table:
        what = f"{key!r} is not known; known are {', '.join(table)}"
        raise CatalogueError(fields.where, what, (*fields.path, *at), word=key, known=table)
    return table[key]
