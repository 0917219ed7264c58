"""What comes in: services, their directions, levels and channels, and what an outlet needs."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from coaxwright.design.fields import DeviceTag, Part, Text, Whole, may, must
from coaxwright.design.model.site import NOTE
from coaxwright.design.quantities import Band, Decibels, FieldStrength, Frequency, Level, LevelAt, LevelRange
from coaxwright.design.words import ChannelStandard, ServiceKind


class Stream(Part):
    """One direction of a service: the band, and the level at the demarcation point."""

    band: Band = must("The frequencies in use.")
    level: Annotated[list[LevelAt], Field(min_length=1)] | None = may(
        "The level at the demarcation point, at one or more frequencies."
    )
    wanted: Level | None = may("The level at which the return signal has to arrive at the demarcation point.")
    carrier_to_noise: Decibels | None = may(
        "The carrier-to-noise ratio at the demarcation point.", key="carrier to noise", awaits="noise.carrier-to-noise"
    )
    carriers: Whole | None = may("The number of carriers at once.", ge=1, le=1000)


class Channel(Part):
    """One broadcast channel."""

    name: Text = must("The channel's number or name.")
    frequency: Frequency = must("Its center frequency.")
    width: Frequency | None = may("The bandwidth it takes up.")
    standard: ChannelStandard | None = may("How it is modulated.")
    field: FieldStrength | None = may("The field strength at the antenna.")


class Wanted(Part):
    """What each outlet must receive, where it differs from what the rulesets ask for the service."""

    level: LevelRange | None = may("The window of levels.")
    tilt: Decibels | None = may("The greatest difference across the band.")
    carrier_to_noise: Decibels | None = may(
        "The least carrier-to-noise ratio.", key="carrier to noise", awaits="noise.carrier-to-noise"
    )


class Service(Part):
    """What comes in and on which frequencies."""

    kind: ServiceKind = must("The kind of service.")
    from_: DeviceTag = must("The device at which it enters the design.", key="from")
    down: Stream | None = may("Downstream: to the outlets.")
    up: Stream | None = may("Upstream: from the outlets to the operator.")
    channels: Annotated[list[Channel], Field(min_length=1)] | None = may("The broadcast channels wanted.")
    at_outlets: Wanted | None = may("What each outlet must receive.", key="at outlets")
    note: Text | None = may(NOTE)
