"""Devices: parts with ports, from the catalogue or with figures of their own."""

from __future__ import annotations

from typing import Annotated, Self

from pydantic import Field, model_validator

from coaxwright.design.fields import (
    AnyTag,
    Date,
    DeviceTag,
    Part,
    PlaceTag,
    ServiceTag,
    Text,
    Whole,
    may,
    must,
)
from coaxwright.design.kinds import DEVICE_COMMON, DEVICE_KINDS
from coaxwright.design.model.of_kind import of_kind
from coaxwright.design.model.papers import Reading
from coaxwright.design.model.site import NOTE
from coaxwright.design.quantities import (
    BendingMoment,
    Current,
    Decibels,
    DiplexSplit,
    Frequency,
    Gain,
    Impedance,
    Length,
    LevelRange,
    Loss,
    Voltage,
)
from coaxwright.design.words import ConnectorGender, ConnectorSeries, DeviceKind, MastFoot, Owner, State


class Mast(Part):
    """The mast or mount of an antenna."""

    height: Length | None = may("Its height above the roof or ground it stands on.")
    metal: bool = may("Whether it is of metal, and so has to be bonded.", default=True)
    on: MastFoot | None = may("What it stands on or is fixed to.")
    guys: Whole | None = may("The number of guys.", ge=0, le=24, awaits="antenna.mast-support")
    bending_moment: BendingMoment | None = may(
        "What the wind puts on it at its upper support.", key="bending moment", awaits="antenna.mast-support"
    )
    from_power_line: Length | None = may(
        "The distance over the ground to the nearest power line.",
        key="from power line",
    )
    of: DeviceTag | None = may("Of a shared mast: the device beside which it is described.")


class PortSaid(Part):
    """What a port has of its own, where it differs from the catalogue's."""

    impedance: Impedance | None = may("Its impedance.")
    connector: ConnectorSeries | None = may("The series of its connector.")
    gender: ConnectorGender | None = may("Plug or socket.", awaits="connector.gender-mates")
    passes_power: bool | None = may("Whether a direct-current feed passes here.", key="passes power")


class Device(Part):
    """A part with ports; its kind says which fields it has."""

    kind: DeviceKind = must("What it is.")
    place: PlaceTag | None = may("Where it is mounted.")
    on: DeviceTag | None = may("The device, or `TAG.port`, that it is screwed onto.")
    model: Text | None = may("Its name in the catalogue of this design or of the firm, where it is not a usual one.")
    ways: Whole | None = may("The number of outputs.", ge=2, le=32)
    inputs: Whole | None = may("The number of inputs.", ge=1, le=64)
    outputs: Whole | None = may("The number of outputs, where the kind has other ports as well.", ge=1, le=64)
    value: Loss | None = may("The value that the trade calls it by: of a tap, pad or equalizer.")
    variant: Text | None = may("Which of the sorts of its kind it is.")
    gain: Gain | None = may("Gain of an antenna over an isotropic radiator or a dipole, or of an amplifier.")
    noise_figure: Decibels | None = may(
        "Noise figure of an amplifier.", key="noise figure", awaits="noise.carrier-to-noise"
    )
    loss: Loss | None = may("Its loss on the way through, where it is known better than from the catalogue.")
    split: DiplexSplit | None = may("Where it parts up- and downstream.")
    input_level: LevelRange | None = may("The levels that it takes at its input.", key="input level")
    output_level: LevelRange | None = may("The levels that it can put out.", key="output level")
    impedance: Impedance | None = may("Impedance of all its ports, where it differs from the catalogue's.")
    ports: Annotated[dict[Text, PortSaid], Field(min_length=1)] | None = may(
        "Ports that differ from the catalogue's, by their names."
    )
    supply: Voltage | None = may("The voltage that it puts on the coax.", awaits="power.voltage-drop")
    supply_current: Current | None = may(
        "The current that its supply is rated for.", key="supply current", awaits="power.supply-rating"
    )
    current: Current | None = may("The current that it draws over the coax.")
    lowest_voltage: Voltage | None = may(
        "The voltage below which it fails.", key="lowest voltage", awaits="power.voltage-drop"
    )
    mast: Mast | None = may("The mast or mount it stands on.")
    below_roof_edge: Length | None = may(
        "How far an aerial on a wall lies below the edge of the roof.",
        key="below roof edge",
        awaits="protection.entry-protector",
    )
    from_wall: Length | None = may(
        "How far an aerial on a wall stands out from it.", key="from wall", awaits="protection.entry-protector"
    )
    serves: Annotated[list[ServiceTag], Field(min_length=1)] | None = may("The services wanted here.")
    user_band: Frequency | None = may("The user band of a receiver on a single-cable system.", key="user band")
    kit: Annotated[list[AnyTag], Field(min_length=1)] | None = may(
        "The antennas, cables and couplers that its maker names for it."
    )
    isolation: Decibels | None = may("The isolation measured between its two antennas.")
    antennas_apart: Length | None = may("The distance between its two antennas.", key="antennas apart")
    listed: bool | None = may("Whether it is of a listed type.")
    accessible: bool | None = may("Whether it can be reached for inspection.")
    readings: Annotated[list[Reading], Field(min_length=1)] | None = may("What was measured here.")
    state: State = may(
        "Whether it is new, existing, kept in reserve or abandoned; a protector in reserve protects nothing.",
        default="new",
    )
    installed: Date | None = may("When it was installed.", awaits="cable.legacy-reuse")
    owner: Owner = may("Whose it is.", default="owner")
    note: Text | None = may(NOTE)

    @model_validator(mode="after")
    def _fields_of_its_kind(self) -> Self:
        return of_kind(self, DEVICE_COMMON, DEVICE_KINDS[self.kind], self.kind)
