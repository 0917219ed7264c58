"""Electrodes, terminations and bonding conductors."""

from __future__ import annotations

from typing import Annotated, Self

from pydantic import Field, model_validator

from coaxwright.design.fields import BondedTag, BondTag, Date, Part, PlaceTag, Text, Whole, may
from coaxwright.design.kinds import BOND_COMMON, BOND_KINDS
from coaxwright.design.model.cables import Route
from coaxwright.design.model.of_kind import of_kind
from coaxwright.design.model.papers import Reading
from coaxwright.design.model.site import NOTE
from coaxwright.design.quantities import Conductor, Length
from coaxwright.design.words import BondKind, ElectrodeMetal, Owner, State


class BondItem(Part):
    """A bonding conductor, or something that conductors are brought to; its kind says which fields it has."""

    kind: BondKind = may("What it is.", default="bonding conductor")
    from_: BondedTag | None = may("What is bonded: a device, `TAG.mast`, or a bonding item.", key="from")
    to: BondedTag | None = may("What it is brought to.")
    conductor: Conductor | None = may("Its size and metal.")
    length: Length | None = may("The length of the conductor; of a rod, ring or pipe, in contact with the earth.")
    route: Route | None = may("The places that the conductor runs through, each with its length.")
    bends: Whole | None = may("The number of its sharp bends.", ge=0, le=100)
    coiled: bool | None = may("Whether spare conductor lies in a coil.")
    guarded: bool | None = may("Whether it is guarded where it could be damaged.")
    suited_clamps: bool | None = may(
        "Whether its clamps are made for the metals that they join.",
        key="suited clamps",
    )
    place: PlaceTag | None = may("Where it is.")
    electrode: BondTag | None = may("What the termination is joined to: `service`, or an electrode's tag.")
    metal: ElectrodeMetal | None = may("The metal of an electrode.")
    from_entry: Length | None = may(
        "How far from its entry into the building a pipe is joined.",
        key="from entry",
    )
    readings: Annotated[list[Reading], Field(min_length=1)] | None = may(
        "What was measured on it.", awaits="record.reading-agrees"
    )
    state: State = may(
        "Whether it is new, existing, kept in reserve, and so joined to nothing yet, or abandoned.", default="new"
    )
    installed: Date | None = may("When it was installed, or is to be.")
    owner: Owner = may("Whose it is.", default="owner")
    note: Text | None = may(NOTE)

    @model_validator(mode="after")
    def _fields_of_its_kind(self) -> Self:
        return of_kind(self, BOND_COMMON, BOND_KINDS[self.kind], self.kind)
