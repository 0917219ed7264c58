"""What the design is judged by, and the buildings and places of the site."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from coaxwright.design.fields import RULESET_PATTERN, BondTag, BuildingTag, Part, PlaceTag, Text, Whole, may, must
from coaxwright.design.quantities import Beside, Length, RoofSlope, TemperatureRange, Voltage
from coaxwright.design.words import Exposure, Neighbor, Occupancy, WiringMethod

CATALOGUE_PATTERN = r"^\S(?:.*\S)?\.coax-catalogue\.yaml$"
Country = Annotated[str, Field(pattern="^[A-Z]{2}$", examples=["US", "DE"])]
"""A country by its two letters. Source: ISO 3166-1."""
NOTE = "Anything a reader should know."


class Basis(Part):
    """What the design is judged by."""

    rulesets: Annotated[
        list[
            Annotated[
                str, Field(pattern=RULESET_PATTERN, examples=["us 2023", "trade 1", "firm/house.coax-ruleset.yaml"])
            ]
        ],
        Field(min_length=1),
    ] = must("The rulesets with their edition, such as `us 2023`, or a firm's own by the path of its file.")
    catalogues: (
        Annotated[
            list[Annotated[str, Field(pattern=CATALOGUE_PATTERN, examples=["firm/stock.coax-catalogue.yaml"])]],
            Field(min_length=1),
        ]
        | None
    ) = may("A firm's own catalogues, by the paths of their files.")
    occupancy: Occupancy | None = may("What the buildings are used as, unless a building says otherwise.")
    country: Country | None = may("The country, unless a building says otherwise.")
    authority: Text | None = may("The authority having jurisdiction.")


class LightningSystem(Part):
    """The lightning protection system of a building."""

    separation: Length | None = may("The separation distance that its designer asks for.")
    electrode: BondTag | None = may("The electrode that its down conductors are brought to.")
    note: Text | None = may(NOTE)


class Building(Part):
    """One building of the site."""

    entry: PlaceTag | Annotated[list[PlaceTag], Field(min_length=1)] | None = may(
        "The place (or places) where cables from outside come in."
    )
    occupancy: Occupancy | None = may("What this building is used as, where it differs from the basis.")
    auxiliary: bool = may("Whether it only serves another building, as a garage or a shed does.", default=False)
    country: Country | None = may("The country, where it differs from the basis.")
    floors: Whole | None = may("The number of its floors.", ge=1, le=200)
    lightning_system: bool | LightningSystem = may(
        "Whether the building has a lightning protection system, or what is known of it.",
        key="lightning system",
        default=False,
    )
    service_equipment: PlaceTag | None = may("Where the electrical service equipment is.", key="service equipment")
    meter: PlaceTag | None = may("Where the electricity meter is.", awaits="protection.entry-distance")
    tied_to: Annotated[list[BuildingTag], Field(min_length=1)] | None = may(
        "Buildings whose electrode systems are joined with this one's, such as by a feeder's grounding conductor.",
        key="tied to",
    )
    note: Text | None = may(NOTE)


class NeighborItem(Part):
    """Something beside a cable."""

    what: Neighbor = must("What it is.")
    at: Length | None = may("The distance to it.")
    by: WiringMethod | None = may("How it is wired, where it is power.")
    voltage: Voltage | None = may("Its voltage.")
    crossing: bool = may("Whether it only crosses the cable, at a right angle.", default=False)
    barrier: bool = may("Whether a fixed barrier parts the two.", default=False)
    note: Text | None = may(NOTE)


NextTo = Beside | Annotated[list[Beside | NeighborItem], Field(min_length=1)]
"""One neighbor in words, or a list of them."""


class Place(Part):
    """A room, a wall, a roof, a stretch of ground."""

    building: BuildingTag | None = may(
        "The building it belongs to; a place outdoors, such as a garden, may belong to none."
    )
    exposure: Exposure = may("What a cable meets there.", default="indoors")
    temperature: TemperatureRange | None = may("The coldest and the hottest it gets.")
    return_air: bool | None = may(
        "Whether it carries the building's air, as the space above some ceilings does.",
        key="return air",
    )
    floors_crossed: Whole | None = may(
        "The number of floors that cables pass through here.", key="floors crossed", ge=0, le=200
    )
    height: Length | None = may("Its height above the ground.")
    roof_slope: RoofSlope | None = may("The slope of a roof.", key="roof slope")
    overhang: Length | None = may("How far a roof stands out over the wall.")
    beside: NextTo | None = may("What runs beside the cables here.")
    note: Text | None = may(NOTE)
