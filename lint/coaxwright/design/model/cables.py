"""Runs of coax: class, route, listing, connectors, labels."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from coaxwright.design.fields import Date, DeviceTag, Part, PlaceTag, RacewayTag, Text, Whole, may, must
from coaxwright.design.model.papers import Reading
from coaxwright.design.model.site import NOTE, NextTo
from coaxwright.design.quantities import Length, LossAt
from coaxwright.design.words import (
    ConnectorFit,
    ConnectorGender,
    ConnectorSeries,
    FireClass,
    ListingMark,
    Over,
    Owner,
    State,
    Support,
)


class Leg(Part):
    """A stretch of a cable's route with more to say than its length."""

    length: Length = must("How long the cable is here.")
    in_: RacewayTag | None = may("The raceway that it runs in.", key="in")
    beside: NextTo | None = may("What runs beside it here.")
    support: Support | None = may("What carries it.")
    supports_every: Length | None = may(
        "The distance from one support to the next.", key="supports every", awaits="route.support-spacing"
    )
    over: Over | None = may("What it hangs over.")
    height: Length | None = may("Its lowest height above that.")
    depth: Length | None = may("How deep it is buried.")
    floors_crossed: Whole | None = may("The number of floors it passes through.", key="floors crossed", ge=0, le=200)
    bend_radius: Length | None = may("The smallest radius that it is bent to.", key="bend radius")
    firestopped: bool | None = may("Whether the holes it passes in rated walls and floors are sealed.")
    drip_loop: bool | None = may("Whether it has a drip loop and a sealed hole where it enters.", key="drip loop")
    note: Text | None = may(NOTE)


class Connector(Part):
    """The connector at an end of a cable."""

    series: ConnectorSeries | None = may("Its series.")
    fit: ConnectorFit | None = may("How it is put on.", awaits="connector.fits-cable")
    made_for: Text | None = may(
        "The type of cable it is made for, in the words of the catalogue.",
        key="made for",
        awaits="connector.fits-cable",
    )
    gender: ConnectorGender | None = may("Plug or socket.", awaits="connector.gender-mates")
    sealed: bool | None = may("Whether it is sealed against the weather.", awaits="connector.weather-sealed")


Route = Annotated[list[Annotated[dict[PlaceTag, Length | Leg], Field(min_length=1, max_length=1)]], Field(min_length=1)]
"""The places passed, from one end to the other, each with the length there."""


class Cable(Part):
    """A run of coax from one port to another."""

    from_: DeviceTag = must("The device, or `TAG.port`, at one end.", key="from")
    to: DeviceTag = must("The device, or `TAG.port`, at the other end.")
    type: Text = must("Class and construction in the words of the catalogue, such as `series 6 quad copper outdoor`.")
    route: Route | None = may("The places it runs through, from one end to the other, each with its length.")
    length: Length | None = may("Its whole length, where no route is given.")
    listing: ListingMark | None = may("The mark that is printed on its jacket.")
    fire_class: FireClass | None = may("Its reaction-to-fire class.", key="fire class")
    connectors: Annotated[list[Connector], Field(min_length=1, max_length=2)] | None = may(
        "The connectors at `from` and `to`; one, where both are alike."
    )
    labels: Annotated[list[Text], Field(min_length=1, max_length=2)] | None = may(
        "The labels at `from` and `to`; one, where both are alike."
    )
    color: Text | None = may("The color of its jacket or marking.")
    measured_loss: Annotated[list[LossAt], Field(min_length=1)] | None = may(
        "The loss measured on it before it was used again.", key="measured loss"
    )
    readings: Annotated[list[Reading], Field(min_length=1)] | None = may("What was measured on it as built.")
    state: State = may("Whether it is new, existing, kept in reserve or abandoned.", default="new")
    installed: Date | None = may("When it was installed.")
    owner: Owner = may("Whose it is.", default="owner")
    note: Text | None = may(NOTE)
