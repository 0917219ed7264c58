"""Raceways: what cables are drawn into."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from coaxwright.design.fields import Date, Part, PlaceTag, Text, Whole, may, must
from coaxwright.design.model.site import NOTE, NeighborItem
from coaxwright.design.quantities import Length
from coaxwright.design.words import Neighbor, Owner, RacewayKind, RacewayListing, State


class Raceway(Part):
    """A conduit, tubing, duct, tray or box that cables run in."""

    kind: RacewayKind = must("What it is made as.")
    trade_size: Text | None = may("Its trade size, such as `3/4` or `21`.", key="trade size")
    inner_diameter: Length | None = may("Its inner diameter, where the trade size does not say.", key="inner diameter")
    listing: RacewayListing | None = may("What it is listed for.")
    places: Annotated[list[PlaceTag], Field(min_length=1)] | None = may("The places it runs through.")
    length: Length | None = may("Its whole length.", awaits="route.pull-tension")
    bends: Whole | None = may(
        "The number of its quarter bends between pull points.", ge=0, le=40, awaits="route.pull-tension"
    )
    bonded: bool | None = may("Whether a metal one is bonded at both of its ends.")
    holds: Annotated[list[Neighbor | NeighborItem], Field(min_length=1)] | None = may(
        "What else it holds beside the coax of this design."
    )
    pull_string: bool | None = may("Whether a string is left in it.", key="pull string")
    state: State = may("Whether it is new, existing, kept in reserve or abandoned.", default="new")
    installed: Date | None = may("When it was installed.", awaits="jacket.listed-indoors")
    owner: Owner = may("Whose it is.", default="owner")
    note: Text | None = may(NOTE)
