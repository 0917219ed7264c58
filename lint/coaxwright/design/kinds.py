"""What each kind of device and of bonding item may and must say; the schema and the models both read this."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType

from coaxwright.design.quantities import AntennaGain, Decibels, Quantity
from coaxwright.design.words import BondKind, DeviceKind


@dataclass(frozen=True, slots=True)
class KindFields:
    """The fields of one kind beyond those that every kind has."""

    describes: str
    required: tuple[str, ...] = ()
    optional: tuple[str, ...] = ()
    narrowed: Mapping[str, type[Quantity]] = field(default_factory=dict)
    """Fields whose quantity is narrower here than in the flat model."""
    variants: tuple[str, ...] = ()
    """The words that ``variant`` may have."""


DEVICE_COMMON = ("kind", "place", "state", "owner", "impedance", "note")
BOND_COMMON = ("kind", "state", "owner", "note")

DEVICE_KINDS: Mapping[DeviceKind, KindFields] = MappingProxyType(
    {
        # where signals come in
        "service drop": KindFields("where the operator's cable is handed over; the broadband signal starts here"),
        "optical node": KindFields("turns an optical drop into a radio-frequency one, inside the building"),
        "antenna": KindFields(
            "receives from the air; a metal mast is a thing to bond (refer to it as TAG.mast)",
            optional=("variant", "gain", "mast"),
            narrowed={"gain": AntennaGain},
            variants=("VHF/UHF", "VHF", "UHF", "FM", "cellular donor", "cellular server"),
        ),
        "dish": KindFields(
            "a satellite dish; its cables start at its LNB", optional=("gain", "mast"), narrowed={"gain": AntennaGain}
        ),
        "LNB": KindFields(
            "the converter in front of a dish (`on` names the dish)",
            required=("outputs",),
            optional=("variant", "on", "gain", "noise_figure"),
            narrowed={"gain": Decibels},
            variants=("wideband",),
        ),
        "modulator": KindFields("puts a picture on a channel of its own"),
        "camera": KindFields("sends video over coax", optional=("variant",), variants=("analogue", "HD over coax")),
        # what protects and bonds
        "ground block": KindFields("a joint whose metal body bonds the shields of the cables on both sides"),
        "protector": KindFields(
            "a surge protector for coax, which also bonds the shield", optional=("variant",), variants=("50 ohm",)
        ),
        "galvanic isolator": KindFields("parts the shields of two cables for direct current"),
        # what divides and joins
        "splitter": KindFields(
            "divides one signal between its outputs, or combines several",
            required=("ways",),
            optional=("variant",),
            variants=("unbalanced", "satellite", "in-home data", "50 ohm"),
        ),
        "tap": KindFields(
            "takes a small part of the signal for its outlets and passes the rest on", required=("outputs", "value")
        ),
        "directional coupler": KindFields("takes a small part of the signal aside", required=("value",)),
        "combiner": KindFields(
            "joins two bands on one cable", required=("variant",), variants=("UHF/VHF", "TV/satellite")
        ),
        "diplexer": KindFields(
            "parts two bands of one cable", required=("variant",), variants=("UHF/VHF", "TV/satellite")
        ),
        "multiswitch": KindFields(
            "gives each output the satellite band and polarisation that its receiver asks for", required=("outputs",)
        ),
        # what shapes the signal
        "attenuator": KindFields("a pad that lowers the level", required=("value",)),
        "equaliser": KindFields("takes the slope out of the band", required=("value",)),
        "filter": KindFields(
            "passes one band and stops another",
            required=("variant",),
            variants=("in-home data", "mobile band", "high-pass", "low-pass"),
        ),
        "matching pad": KindFields("joins 75 ohm and 50 ohm; no direct current passes"),
        "matching transformer": KindFields("joins a 300 ohm antenna to 75 ohm coax"),
        "DC block": KindFields("passes the signal and stops direct current"),
        # what amplifies and feeds
        "preamplifier": KindFields(
            "an amplifier close to the antenna, powered over the coax",
            optional=("variant", "gain", "noise_figure"),
            narrowed={"gain": Decibels},
            variants=("VHF", "UHF"),
        ),
        "drop amplifier": KindFields(
            "an amplifier in the building",
            required=("outputs",),
            optional=("variant", "gain", "noise_figure"),
            narrowed={"gain": Decibels},
            variants=("return path",),
        ),
        "cellular booster": KindFields(
            "amplifies between a donor and a server antenna, both ways",
            optional=("gain",),
            narrowed={"gain": Decibels},
        ),
        "power inserter": KindFields("puts the supply of a preamplifier or amplifier onto the coax"),
        # where signals go
        "outlet": KindFields(
            "a wall outlet; `serves` names the services wanted there",
            optional=("serves", "variant", "value"),
            variants=("loop-through",),
        ),
        "cable modem": KindFields("the subscriber's modem", optional=("serves",)),
        "receiver": KindFields("a television set or set-top receiver", optional=("serves",)),
        "satellite receiver": KindFields("a receiver for satellite IF", optional=("serves",)),
        "in-home data adapter": KindFields("a station of the data network over the house's coax", optional=("serves",)),
        "video recorder": KindFields("records cameras", required=("inputs",), optional=("serves",)),
        "terminator": KindFields(
            "a load that closes an unused port",
            required=("on",),
            optional=("variant",),
            variants=("DC block", "50 ohm"),
        ),
    }
)

BOND_KINDS: Mapping[BondKind, KindFields] = MappingProxyType(
    {
        "bonding conductor": KindFields(
            "a wire that joins two things to bond", required=("from_", "to", "conductor"), optional=("length",)
        ),
        "intersystem termination": KindFields(
            "the building's terminal for bonding communications systems", required=("place",), optional=("electrode",)
        ),
        "building electrode system": KindFields(
            "the electrode system of the building's electrical service", required=("place",)
        ),
        "ground rod": KindFields("a driven rod of its own", required=("place",), optional=("length",)),
        "water pipe": KindFields("a grounded metal water pipe", required=("place",)),
    }
)
