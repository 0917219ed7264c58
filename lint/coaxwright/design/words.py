"""The closed sets of words of the design file."""

from __future__ import annotations

from typing import Literal

Stage = Literal["concept", "permit", "as-built"]

Occupancy = Literal["one-family dwelling", "two-family dwelling", "multifamily dwelling", "commercial"]

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
    "service drop",
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
    "equaliser",
    "matching pad",
    "matching transformer",
    "DC block",
    "galvanic isolator",
]

AERIALS: frozenset[DeviceKind] = frozenset(("antenna", "LNB"))
"""Devices at which coax from the air begins."""

BondKind = Literal[
    "bonding conductor",
    "intersystem termination",
    "building electrode system",
    "ground rod",
    "water pipe",
]

OUTSIDE: frozenset[Exposure] = frozenset(("outdoors", "rooftop", "wet", "buried"))
"""Exposures outside the building's envelope. An attic or crawl space is inside it."""

SUN_OR_RAIN: frozenset[Exposure] = frozenset(("outdoors", "rooftop", "wet"))
"""Exposures where a jacket meets sun or standing water; below ground is a matter of burial rating."""
