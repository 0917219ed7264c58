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


DEVICE_COMMON = ("kind", "place", "state", "owner", "impedance", "note")
BOND_COMMON = ("kind", "state", "owner", "note")

DEVICE_KINDS: Mapping[DeviceKind, KindFields] = MappingProxyType(
    {
        "service drop": KindFields("where the operator's cable is handed over; the broadband signal starts here"),
        "ground block": KindFields("a joint whose metal body bonds the shields of the cables on both sides"),
        "protector": KindFields("a surge protector for coax, which also bonds the shield"),
        "splitter": KindFields(
            "divides one signal between its outputs, or combines several", required=("ways",), optional=("variant",)
        ),
        "antenna": KindFields(
            "receives from the air; a metal mast is a thing to bond (refer to it as TAG.mast)",
            optional=("gain", "mast"),
            narrowed={"gain": AntennaGain},
        ),
        "preamplifier": KindFields(
            "an amplifier close to the antenna, powered over the coax",
            optional=("gain", "noise_figure"),
            narrowed={"gain": Decibels},
        ),
        "power inserter": KindFields("puts the preamplifier's supply onto the coax"),
        "cable modem": KindFields("the subscriber's modem", optional=("serves",)),
        "receiver": KindFields("a television set or set-top receiver", optional=("serves",)),
        "outlet": KindFields("a wall outlet; `serves` names the services wanted there", optional=("serves",)),
        "terminator": KindFields("a load that closes an unused port", required=("on",)),
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
