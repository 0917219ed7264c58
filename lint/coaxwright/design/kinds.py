"""What each kind of device and of bonding item may and must say; the schema and the models both read this."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from types import MappingProxyType

from coaxwright.design.quantities import AntennaGain, Decibels, Quantity
from coaxwright.design.words import BondKind, DeviceKind
from coaxwright.frozen_value import frozen_value


@frozen_value
class KindFields:
    """The fields of one kind beyond those that every kind has."""

    describes: str
    required: tuple[str, ...] = ()
    optional: tuple[str, ...] = ()
    narrowed: Mapping[str, type[Quantity]] = field(default_factory=dict)
    """Fields whose quantity is narrower here than in the flat model."""
    variants: tuple[str, ...] = ()
    """The words that ``variant`` may have."""


DEVICE_COMMON = (
    "kind",
    "place",
    "model",
    "impedance",
    "ports",
    "listed",
    "readings",
    "state",
    "installed",
    "owner",
    "note",
)
BOND_COMMON = ("kind", "readings", "state", "installed", "owner", "note")

_AERIAL = ("mast", "below_roof_edge", "from_wall")
_AMPLIFIER = ("gain", "noise_figure", "input_level", "output_level")
_FED = ("current", "lowest_voltage")
_FEEDING = ("supply", "supply_current")

DEVICE_KINDS: Mapping[DeviceKind, KindFields] = MappingProxyType(
    {
        # where signals come in
        "coax drop": KindFields("where the operator's cable is handed over; the broadband signal starts here"),
        "optical node": KindFields(
            "turns an optical drop into a radio-frequency one, inside the building",
            optional=("output_level", "split"),
        ),
        "antenna": KindFields(
            "receives from the air; a metal mast is a thing to bond (refer to it as TAG.mast)",
            optional=("variant", "gain", "serves", *_AERIAL),
            narrowed={"gain": AntennaGain},
            variants=("VHF/UHF", "VHF", "UHF", "FM", "cellular donor", "cellular server"),
        ),
        "dish": KindFields(
            "a satellite dish; its cables start at its LNB", optional=("gain", *_AERIAL), narrowed={"gain": AntennaGain}
        ),
        "LNB": KindFields(
            "the converter in front of a dish (`on` names the dish)",
            required=("outputs",),
            optional=("variant", "on", *_AMPLIFIER, *_FED),
            narrowed={"gain": Decibels},
            variants=("quattro", "wideband"),
        ),
        "modulator": KindFields("puts a picture on a channel of its own", optional=("output_level",)),
        "camera": KindFields("sends video over coax", optional=("variant", *_FED), variants=("analog", "HD over coax")),
        # what protects and bonds
        "ground block": KindFields(
            "a joint whose metal body bonds the shields of the cables on both sides", optional=("loss", "accessible")
        ),
        "protector": KindFields(
            "a surge protector for coax, which also bonds the shield",
            optional=("variant", "loss", "accessible"),
            variants=("50 ohm",),
        ),
        "galvanic isolator": KindFields("parts the shields of two cables for direct current", optional=("loss",)),
        # what divides and joins
        "splitter": KindFields(
            "divides one signal between its outputs, or combines several",
            required=("ways",),
            optional=("variant", "loss"),
            variants=("unbalanced", "satellite", "in-home data", "50 ohm"),
        ),
        "tap": KindFields(
            "takes a small part of the signal for its outlets and passes the rest on",
            required=("outputs", "value"),
            optional=("loss",),
        ),
        "directional coupler": KindFields(
            "takes a small part of the signal aside", required=("value",), optional=("loss",)
        ),
        "combiner": KindFields(
            "joins two bands on one cable",
            required=("variant",),
            optional=("loss",),
            variants=("UHF/VHF", "TV/satellite"),
        ),
        "diplexer": KindFields(
            "parts two bands of one cable",
            required=("variant",),
            optional=("loss", "split"),
            variants=("UHF/VHF", "TV/satellite"),
        ),
        "multiswitch": KindFields(
            "gives each output the satellite band and polarization that its receiver asks for",
            required=("outputs",),
            optional=("input_level", "output_level", *_FEEDING, *_FED),
        ),
        # what shapes the signal
        "attenuator": KindFields("a pad that lowers the level", required=("value",)),
        "equalizer": KindFields("takes the slope out of the band", required=("value",)),
        "filter": KindFields(
            "passes one band and stops another",
            required=("variant",),
            optional=("loss", "split"),
            variants=("point-of-entry", "mobile band", "high-pass", "low-pass"),
        ),
        "matching pad": KindFields("joins 75 ohm and 50 ohm; no direct current passes", optional=("loss",)),
        "matching transformer": KindFields("joins a 300 ohm antenna to 75 ohm coax", optional=("loss",)),
        "DC block": KindFields("passes the signal and stops direct current", optional=("loss",)),
        # what amplifies and feeds
        "preamplifier": KindFields(
            "an amplifier close to the antenna, powered over the coax",
            optional=("variant", *_AMPLIFIER, *_FED),
            narrowed={"gain": Decibels},
            variants=("VHF", "UHF"),
        ),
        "drop amplifier": KindFields(
            "an amplifier in the building",
            required=("outputs",),
            optional=("variant", "split", *_AMPLIFIER, *_FED),
            narrowed={"gain": Decibels},
            variants=("return path",),
        ),
        "cellular booster": KindFields(
            "amplifies between a donor and a server antenna, both ways",
            optional=("kit", "isolation", "antennas_apart", *_AMPLIFIER),
            narrowed={"gain": Decibels},
        ),
        "power inserter": KindFields(
            "puts the supply of a preamplifier or amplifier onto the coax", optional=("loss", *_FEEDING)
        ),
        # where signals go
        "outlet": KindFields(
            "a wall outlet; `serves` names the services wanted there",
            optional=("serves", "variant", "value", "loss"),
            variants=("loop-through",),
        ),
        "cable modem": KindFields("the subscriber's modem", optional=("serves", "input_level", "output_level")),
        "receiver": KindFields("a television set or set-top receiver", optional=("serves", "input_level")),
        "satellite receiver": KindFields(
            "a receiver for satellite IF", optional=("serves", "user_band", "input_level", *_FEEDING)
        ),
        "in-home data adapter": KindFields(
            "a station of the data network over the house's coax", optional=("serves", "input_level", "output_level")
        ),
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
            "a wire that joins two things to bond",
            required=("from_", "to", "conductor"),
            optional=("length", "route", "bends", "coiled", "guarded", "suited_clamps"),
        ),
        "intersystem bonding termination": KindFields(
            "the building's terminal for bonding communications systems", required=("place",), optional=("electrode",)
        ),
        "grounding electrode system": KindFields(
            "the electrode system of the building's electrical service", required=("place",)
        ),
        "service equipment": KindFields(
            "the enclosure of the building's electrical service, which is joined to its electrode system",
            required=("place",),
        ),
        "service raceway": KindFields("the metal raceway of the building's electrical service", required=("place",)),
        "ground rod": KindFields("a driven rod of its own", required=("place",), optional=("length", "metal")),
        "ground plate": KindFields("a buried plate of its own", required=("place",), optional=("metal",)),
        "ground ring": KindFields(
            "a bare conductor around the building, in the earth", required=("place",), optional=("length", "metal")
        ),
        "concrete-encased electrode": KindFields(
            "steel or copper in a footing that is in contact with the earth",
            required=("place",),
            optional=("length", "metal"),
        ),
        "structural metal": KindFields("the grounded metal frame of the building", required=("place",)),
        "water pipe": KindFields("a grounded metal water pipe", required=("place",), optional=("length", "from_entry")),
        "gas pipe": KindFields("a metal gas pipe; it is no electrode", required=("place",)),
        "lightning electrode system": KindFields(
            "the electrodes of the lightning protection system", required=("place",), optional=("metal",)
        ),
    }
)
