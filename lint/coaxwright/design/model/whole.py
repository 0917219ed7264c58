"""The design as a whole."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from coaxwright.design.fields import Part, Tag, Text, Whole, may, must
from coaxwright.design.model.bonding import BondItem
from coaxwright.design.model.cables import Cable
from coaxwright.design.model.devices import Device
from coaxwright.design.model.entries import OwnEntries
from coaxwright.design.model.papers import Record, Variance
from coaxwright.design.model.raceways import Raceway
from coaxwright.design.model.services import Service
from coaxwright.design.model.site import NOTE, Basis, Building, Place
from coaxwright.design.words import Stage


class Design(Part):
    """A site's coaxial network."""

    coaxwright: Annotated[Whole, Field(ge=1, le=1)] = must("The version of this file format.")
    title: Text = must("The site.")
    job: Text | None = may("Job or project number; with the sheet it names the design wherever its file is moved.")
    sheet: Text | None = may("The drawing's sheet number.")
    revision: Text | None = may("The drawing's revision.")
    stage: Stage = may("How far the work is: what may still be open depends on it.", default="permit")
    note: Text | None = may(NOTE)
    includes: Annotated[list[Text], Field(min_length=1)] | None = may(
        "Other files of the same folder tree that hold parts of this design, by paths relative to this file."
    )
    basis: Basis = must("What the design is judged by.")
    catalogue: OwnEntries | None = may(
        "Cable classes and devices of this design's own, in the words of a catalogue file."
    )
    buildings: dict[Tag, Building] = may("The buildings of the site.", default={})
    places: dict[Tag, Place] = may("Where things are.", default={})
    services: dict[Tag, Service] = may("What comes in.", default={})
    devices: dict[Tag, Device] = may("The parts with ports.", default={})
    cables: dict[Tag, Cable] = may("The runs of coax between them.", default={})
    raceways: dict[Tag, Raceway] = may("What cables are drawn into.", default={})
    bonding: dict[Tag, BondItem] = may("Electrodes, terminations and bonding conductors.", default={})
    records: dict[Tag, Record] = may("Who measured what, when.", default={})
    variances: Annotated[list[Variance], Field(min_length=1)] | None = may("Exceptions that were granted.")

    @property
    def identity(self) -> str:
        """What names this design in punch lists and fingerprints: job (or title) and sheet, never the file."""
        return "/".join(part for part in (self.job or self.title, self.sheet) if part)
