"""What a catalogue says of cable, frozen: sources, jackets, cable classes."""

from __future__ import annotations

from collections.abc import Mapping

from coaxwright.catalogue.losses import Attenuation
from coaxwright.frozen_value import frozen_value


@frozen_value
class Source:
    """Where a figure comes from, and how sure we are of it."""

    document: str
    confidence: str
    """found, found in part, derived, memory, memory low, common practice."""
    edition: str | None = None
    clause: str | None = None
    note: str | None = None

    @property
    def line(self) -> str:
        """The source in one line: ``ANSI/SCTE 74, 2003 and 2011, dimensions (memory)``."""
        parts = ", ".join(part for part in (self.document, self.edition, self.clause) if part)
        return parts if self.confidence == "common practice" else f"{parts} ({self.confidence})"


@frozen_value
class Jacket:
    """A jacket, or several words for one jacket combined."""

    name: str
    resists_sun_and_wet: bool
    burial_rated: bool
    us_mark: str | None
    """The listing mark that such cable usually carries in the US; None where it usually carries none."""
    combines_with: frozenset[str]
    description: str
    sources: Mapping[str, Source]


@frozen_value
class Shield:
    name: str
    outer_diameter_m: float | None
    """Over the jacket of a cable with this shield [m]."""
    resistance_ohm_per_m: float | None
    """Direct current, at 20 °C [ohm/m]."""
    screening_class: str | None = None
    """The least class of EN 50117 that a source gives for it; None where no source does."""


@frozen_value
class Center:
    name: str
    """Its metal."""
    resistance_ohm_per_m: float | None
    """Direct current, at 20 °C [ohm/m]."""
    size: str | None = None
    """As the trade writes it: ``18 AWG``."""
    strands: int = 1
    """The number of wires; 1 is solid."""
    strand_diameter_m: float | None = None
    """Of one wire of a stranded center [m]."""


@frozen_value
class Defaults:
    """The construction meant where the buyer's words do not say."""

    shield: str
    center: str
    jacket: str


@frozen_value
class CableClass:
    """One class of cable with the options it is made in."""

    name: str
    description: str
    impedance_ohm: float
    impedance_tolerance_ohm: float | None
    velocity_factor: float
    capacitance_pf_per_m: float | None
    center_diameter_m: float
    dielectric_diameter_m: float
    attenuation: Attenuation
    shields: Mapping[str, Shield]
    centers: Mapping[str, Center]
    jackets: Mapping[str, Jacket]
    defaults: Defaults
    hints: tuple[str, ...]
    """Names that do not fix the construction and are not accepted: the class is then suggested."""
    sources: Mapping[str, Source]
    also: tuple[str, ...] = ()
    """Other names that are accepted."""
    usual: bool = False
    """Whether a remedy may offer it for new work: what the trade stocks."""
    existing_only: bool = False
    """Whether it is met in existing plant only and not for new work."""
    bend_radius_m: float | None = None
    """Smallest radius to the inside of a bend that is made once [m]."""
    flexing_radius_m: float | None = None
    """Smallest radius of a bend that is made again and again, or under pull [m]."""
    coldest_c: float | None = None
    hottest_c: float | None = None
    """The temperatures that the cable withstands in service [°C]; None where no figure is known."""
