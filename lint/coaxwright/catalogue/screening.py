"""The screening classes of EN 50117: what a shield must keep in and out."""

from __future__ import annotations

from collections.abc import Mapping

from coaxwright.catalogue.cable_entries import sources_of
from coaxwright.catalogue.entries import Source
from coaxwright.catalogue.measures import TransferImpedance
from coaxwright.catalogue.reading import Fields
from coaxwright.design.quantities import Band, Decibels
from coaxwright.frozen_value import frozen_value
from coaxwright.physics.comparison import at_least, at_most


@frozen_value
class ScreeningLimit:
    """What the class asks for in one band: a greatest transfer impedance, or a least screening attenuation."""

    low_hz: float
    high_hz: float
    transfer_impedance_ohm_per_m: float | None
    attenuation_db: float | None


@frozen_value
class ScreeningClass:
    name: str
    limits: tuple[ScreeningLimit, ...]
    sources: Mapping[str, Source]

    def attenuation_db(self, freq_hz: float) -> float | None:
        """Least screening attenuation [dB] at a frequency [Hz]; None where the source gives none.

        At the joint of two bands the lower band's figure holds.
        """
        return next((found for limit in self._at(freq_hz) if (found := limit.attenuation_db) is not None), None)

    def transfer_impedance_ohm_per_m(self, freq_hz: float) -> float | None:
        """Greatest transfer impedance [ohm/m] at a frequency [Hz]; None where the source gives none."""
        found = (limit.transfer_impedance_ohm_per_m for limit in self._at(freq_hz))
        return next((impedance for impedance in found if impedance is not None), None)

    def _at(self, freq_hz: float) -> list[ScreeningLimit]:
        return [limit for limit in self.limits if at_least(freq_hz, limit.low_hz) and at_most(freq_hz, limit.high_hz)]


def read_screening_class(name: str, fields: Fields, sources: Mapping[str, Source]) -> ScreeningClass:
    """A screening class. Raises CatalogueError for a wrong or missing field."""
    return ScreeningClass(
        name=name,
        limits=tuple(_read_limit(limit) for limit in fields.inner_list("limits")),
        sources=sources_of(fields, sources),
    )


def _read_limit(fields: Fields) -> ScreeningLimit:
    band = fields.quantity("band", Band)
    impedance = fields.optional_quantity("transfer impedance", TransferImpedance)
    attenuation = fields.optional_quantity("attenuation", Decibels)
    return ScreeningLimit(
        low_hz=band.low_hz,
        high_hz=band.high_hz,
        transfer_impedance_ohm_per_m=impedance.impedance_ohm_per_m if impedance else None,
        attenuation_db=attenuation.ratio_db if attenuation else None,
    )
