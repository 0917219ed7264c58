"""The closed sets of words of the design file."""

from __future__ import annotations

from typing import Literal, get_args

Stage = Literal["concept", "permit", "as-built"]

Occupancy = Literal["one-family dwelling", "two-family dwelling", "mobile home", "multifamily dwelling", "commercial"]

SMALL_DWELLINGS: frozenset[Occupancy] = frozenset(("one-family dwelling", "two-family dwelling", "mobile home"))
"""What codes call one- and two-family dwellings; a mobile home is one with a rule of its own beside."""

Exposure = Literal[
    "indoors",
    "attic",
    "crawl space",
    "plenum",
    "riser",
    "outdoors",
    "rooftop",
    "wet",
    "buried",
]

State = Literal["new", "existing", "reserve", "abandoned"]

Owner = Literal["owner", "operator", "landlord", "tenant"]

ServiceKind = Literal[
    "cable broadband",
    "terrestrial TV",
    "FM radio",
    "satellite IF",
    "in-home data",
    "cellular",
    "camera video",
]

DeviceKind = Literal[
    "coax drop",
    "ground block",
    "protector",
    "splitter",
    "tap",
    "outlet",
    "cable modem",
    "receiver",
    "antenna",
    "preamplifier",
    "power inserter",
    "drop amplifier",
    "terminator",
    "filter",
    "optical node",
    "dish",
    "LNB",
    "multiswitch",
    "satellite receiver",
    "modulator",
    "camera",
    "video recorder",
    "cellular booster",
    "in-home data adapter",
    "directional coupler",
    "combiner",
    "diplexer",
    "attenuator",
    "equalizer",
    "matching pad",
    "matching transformer",
    "DC block",
    "galvanic isolator",
]

AERIALS: frozenset[DeviceKind] = frozenset(("antenna", "LNB"))
"""Devices at which coax from the air begins."""

BondKind = Literal[
    "bonding conductor",
    "intersystem bonding termination",
    "grounding electrode system",
    "service equipment",
    "service raceway",
    "ground rod",
    "ground plate",
    "ground ring",
    "concrete-encased electrode",
    "structural metal",
    "water pipe",
    "gas pipe",
    "lightning electrode system",
]

ElectrodeMetal = Literal["copper", "copper-clad steel", "galvanized steel", "stainless steel"]

Neighbor = Literal[
    "power cable",
    "lighting circuit",
    "Class 1 circuit",
    "fire alarm power circuit",
    "overhead power line",
    "power drop",
    "lightning conductor",
    "telephone cable",
    "data cable",
    "fluorescent light",
    "dimmer",
    "motor",
    "transmitter",
    "gas pipe",
    "hot pipe",
]
"""What runs or stands beside a cable and matters to it."""
NEIGHBORS: tuple[str, ...] = get_args(Neighbor)
POWER_LINES: frozenset[Neighbor] = frozenset(("overhead power line", "power drop"))
"""What a mast or a ladder must not come near, nor fall into."""

WiringMethod = Literal[
    "nonmetallic-sheathed cable",
    "armored cable",
    "metal-clad cable",
    "service-entrance cable",
    "UF cable",
    "USE cable",
    "raceway",
    "open conductors",
    "knob and tube",
]
"""How power beside the coax is wired: the distance that is asked for depends on it."""

Support = Literal["clips", "straps", "J-hooks", "cable tray", "messenger", "raceway", "pipe", "ceiling wires", "none"]
"""What carries a cable."""

Over = Literal["roof", "driveway", "street", "walkway", "ground", "water"]
ROOF: Over = "roof"
"""What a cable hangs over whose height depends on its slope."""
"""What a cable hangs over."""

RacewayKind = Literal[
    "rigid metal conduit",
    "intermediate metal conduit",
    "electrical metallic tubing",
    "flexible metal conduit",
    "rigid PVC conduit",
    "electrical nonmetallic tubing",
    "inner duct",
    "surface raceway",
    "cable tray",
    "sleeve",
    "box",
]

RacewayListing = Literal["plenum", "riser", "general use", "unlisted"]

ListingMark = Literal[
    "CATVP",
    "CATVR",
    "CATV",
    "CATVX",
    "CMP",
    "CMR",
    "CMG",
    "CM",
    "CMX",
    "CL3P",
    "CL3R",
    "CL3",
    "CL3X",
    "CL2P",
    "CL2R",
    "CL2",
    "CL2X",
    "unlisted",
]
"""The mark printed on a jacket. Source: NFPA 70, articles 725 and 800 (820 until 2017), from memory."""

FireClass = Literal["Aca", "B1ca", "B2ca", "Cca", "Dca", "Eca", "Fca"]
"""Reaction to fire of a cable. Source: EN 50575 and EN 13501-6, from memory."""

ConnectorSeries = Literal["F", "N", "BNC", "TNC", "SMA", "FME", "UHF", "IEC 61169-2", "mini-UHF", "7/16"]
ConnectorFit = Literal["compression", "crimp", "clamp", "solder", "push-on", "twist-on"]
ConnectorGender = Literal["plug", "socket"]

MastFoot = Literal["roof", "wall", "chimney", "ground", "service mast"]
"""What a mast stands on or is fixed to."""

ChannelStandard = Literal[
    "analog",
    "8VSB",
    "ATSC 3.0",
    "64-QAM",
    "256-QAM",
    "OFDM",
    "DVB-T",
    "DVB-T2",
    "DVB-C",
    "DVB-S",
    "DVB-S2",
    "FM",
    "DAB",
    "cellular",
]
"""How a channel is modulated: the level that an outlet needs depends on it."""

OUTSIDE: frozenset[Exposure] = frozenset(("outdoors", "rooftop", "wet", "buried"))
"""Exposures outside the building's envelope. An attic or crawl space is inside it."""

BELOW_GROUND: frozenset[Exposure] = frozenset(("buried",))
SUN_OR_RAIN: frozenset[Exposure] = frozenset(("outdoors", "rooftop", "wet"))
"""Exposures where a jacket meets sun or standing water; below ground is a matter of burial rating."""
