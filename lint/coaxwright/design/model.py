"""The design file as typed, frozen objects: every field, its unit, its words and its description, once.

The JSON Schemas and the reference page are generated from these classes; a test fails when they drift.
"""

from __future__ import annotations

from typing import Annotated, Self, TypeVar

from pydantic import Field, model_validator

from coaxwright.design.fields import (
    BondedTag,
    BondTag,
    BuildingTag,
    DeviceTag,
    Part,
    PlaceTag,
    ServiceTag,
    Tag,
    Text,
    Whole,
    may,
    must,
)
from coaxwright.design.kinds import BOND_COMMON, BOND_KINDS, DEVICE_COMMON, DEVICE_KINDS, KindFields
from coaxwright.design.quantities import (
    Band,
    Conductor,
    Decibels,
    FieldStrength,
    Frequency,
    Gain,
    Impedance,
    Length,
    LevelAt,
    TemperatureRange,
)
from coaxwright.design.words import (
    BondKind,
    DeviceKind,
    Exposure,
    Occupancy,
    Owner,
    ServiceKind,
    Stage,
    State,
)

RULESET_PATTERN = "^[a-z][a-z0-9-]* [0-9]+$"


class Basis(Part):
    """What the design is judged by."""

    rulesets: Annotated[
        list[Annotated[str, Field(pattern=RULESET_PATTERN, examples=["us 2023", "trade 1"])]], Field(min_length=1)
    ] = must("The rulesets with their edition, such as `us 2023`.")
    occupancy: Occupancy | None = may("What the buildings are used as, unless a building says otherwise.")
    authority: Text | None = may("The authority having jurisdiction.")


class Building(Part):
    """One building of the site."""

    entry: PlaceTag | Annotated[list[PlaceTag], Field(min_length=1)] | None = may(
        "The place (or places) where cables from outside come in."
    )
    occupancy: Occupancy | None = may("What this building is used as, where it differs from the basis.")
    lightning_system: bool = may(
        "Whether the building has a lightning protection system.", key="lightning system", default=False
    )
    note: Text | None = may("Anything a reader should know.")


class Place(Part):
    """A room, a wall, a roof, a stretch of ground."""

    building: BuildingTag | None = may("The building it belongs to; a place in the open belongs to none.")
    exposure: Exposure = may("What a cable meets there.", default="indoors")
    temperature: TemperatureRange | None = may("The coldest and the hottest it gets.")
    note: Text | None = may("Anything a reader should know.")


class Stream(Part):
    """One direction of a service: the band, and the level at the hand-off."""

    band: Band = must("The frequencies in use.")
    level: Annotated[list[LevelAt], Field(min_length=1)] | None = may(
        "The level at the hand-off, at one or more frequencies."
    )


class Channel(Part):
    """One broadcast channel."""

    name: Text = must("The channel's number or name.")
    frequency: Frequency = must("Its centre frequency.")
    field: FieldStrength | None = may("The field strength at the antenna.")


class Service(Part):
    """What comes in and on which frequencies."""

    kind: ServiceKind = must("The kind of service.")
    from_: DeviceTag = must("The device at which it enters the design.", key="from")
    down: Stream | None = may("Towards the outlets.")
    up: Stream | None = may("From the outlets to the operator.")
    channels: Annotated[list[Channel], Field(min_length=1)] | None = may("The broadcast channels wanted.")
    note: Text | None = may("Anything a reader should know.")


class Mast(Part):
    """The mast or mount of an antenna."""

    height: Length | None = may("Its height above the roof or ground it stands on.")
    metal: bool = may("Whether it is of metal, and so has to be bonded.", default=True)


class Device(Part):
    """A part with ports; its kind says which fields it has."""

    kind: DeviceKind = must("What it is.")
    place: PlaceTag | None = may("Where it is mounted.")
    on: DeviceTag | None = may("The device, or `TAG.port`, that it is screwed onto.")
    ways: Whole | None = may("The number of outputs.", ge=2, le=32)
    inputs: Whole | None = may("The number of inputs.", ge=1, le=64)
    outputs: Whole | None = may("The number of outputs, where the kind has other ports as well.", ge=1, le=64)
    value: Decibels | None = may("The value that the trade calls it by: of a tap, pad or equaliser.")
    variant: Text | None = may("Which of the sorts of its kind it is.")
    gain: Gain | None = may("Gain of an antenna over an isotropic radiator or a dipole, or of an amplifier.")
    noise_figure: Decibels | None = may("Noise figure of an amplifier.", key="noise figure")
    impedance: Impedance | None = may("Impedance of all its ports, where it differs from the catalogue's.")
    mast: Mast | None = may("The mast or mount it stands on.")
    serves: Annotated[list[ServiceTag], Field(min_length=1)] | None = may("The services wanted here.")
    state: State = may("Whether it is new, existing, kept in reserve or abandoned.", default="new")
    owner: Owner = may("Whose it is.", default="owner")
    note: Text | None = may("Anything a reader should know.")

    @model_validator(mode="after")
    def _fields_of_its_kind(self) -> Self:
        return of_kind(self, DEVICE_COMMON, DEVICE_KINDS[self.kind], self.kind)


class Leg(Part):
    """A stretch of a cable's route with more to say than its length."""

    length: Length = must("How long the cable is here.")
    note: Text | None = may("Anything a reader should know.")


class Cable(Part):
    """A run of coax from one port to another."""

    from_: DeviceTag = must("The device, or `TAG.port`, at one end.", key="from")
    to: DeviceTag = must("The device, or `TAG.port`, at the other end.")
    type: Text = must("Class and construction in the words of the catalogue, such as `series 6 quad copper outdoor`.")
    route: (
        Annotated[list[Annotated[dict[PlaceTag, Length | Leg], Field(min_length=1, max_length=1)]], Field(min_length=1)]
        | None
    ) = may("The places it runs through, from one end to the other, each with its length.")
    length: Length | None = may("Its whole length, where no route is given.")
    state: State = may("Whether it is new, existing, kept in reserve or abandoned.", default="new")
    owner: Owner = may("Whose it is.", default="owner")
    note: Text | None = may("Anything a reader should know.")


class BondItem(Part):
    """A bonding conductor, or something that conductors are brought to; its kind says which fields it has."""

    kind: BondKind = may("What it is.", default="bonding conductor")
    from_: BondedTag | None = may("What is bonded: a device, `TAG.mast`, or a bonding item.", key="from")
    to: BondedTag | None = may("What it is brought to.")
    conductor: Conductor | None = may("Its size and metal.")
    length: Length | None = may("The length of the conductor or rod.")
    place: PlaceTag | None = may("Where it is.")
    electrode: BondTag | None = may("What the termination is joined to: `service`, or an electrode's tag.")
    state: State = may("Whether it is new, existing, kept in reserve or abandoned.", default="new")
    owner: Owner = may("Whose it is.", default="owner")
    note: Text | None = may("Anything a reader should know.")

    @model_validator(mode="after")
    def _fields_of_its_kind(self) -> Self:
        return of_kind(self, BOND_COMMON, BOND_KINDS[self.kind], self.kind)


class Design(Part):
    """A site's coaxial plant."""

    coaxwright: Annotated[Whole, Field(ge=1, le=1)] = must("The version of this file format.")
    title: Text = must("The site.")
    job: Text | None = may("Job or project number; with the sheet it names the design wherever its file is moved.")
    sheet: Text | None = may("The drawing's sheet number.")
    revision: Text | None = may("The drawing's revision.")
    stage: Stage = may("How far the work is: what may still be open depends on it.", default="permit")
    note: Text | None = may("Anything a reader should know.")
    draws_in: Annotated[list[Text], Field(min_length=1)] | None = may(
        "Other files of the same folder tree that hold parts of this design, by paths relative to this file.",
        key="draws in",
    )
    basis: Basis = must("What the design is judged by.")
    buildings: dict[Tag, Building] = may("The buildings of the site.", default={})
    places: dict[Tag, Place] = may("Where things are.", default={})
    services: dict[Tag, Service] = may("What comes in.", default={})
    devices: dict[Tag, Device] = may("The parts with ports.", default={})
    cables: dict[Tag, Cable] = may("The runs of coax between them.", default={})
    bonding: dict[Tag, BondItem] = may("Electrodes, terminations and bonding conductors.", default={})

    @property
    def identity(self) -> str:
        """What names this design in punch lists and fingerprints: job (or title) and sheet, never the file."""
        return "/".join(part for part in (self.job or self.title, self.sheet) if part)


_P = TypeVar("_P", bound=Part)


def of_kind(part: _P, common: tuple[str, ...], fields: KindFields, kind: str) -> _P:
    """The part, if it has the fields of its kind and no others; ValueError where it has not."""
    allowed = {*common, *fields.required, *fields.optional}
    for name in part.model_fields_set:
        if name not in allowed:
            raise ValueError(f"a {kind} has no {name}")
    for name in fields.required:
        if name not in part.model_fields_set:
            raise ValueError(f"a {kind} needs {name}")
    variant = getattr(part, "variant", None)
    if variant is not None and variant not in fields.variants:
        raise ValueError(f"a {kind} has no variant {variant}")
    for name, quantity in fields.narrowed.items():
        value = getattr(part, name)
        if value is not None:
            quantity.parse(value.text)
    return part
