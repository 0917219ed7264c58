"""The former words of designs and their parts, of catalogues and of rulesets.

The words of the trade in the United States took the place of words that only this format had, and American spelling
that of British. A word that was left is never given another meaning in the same format.
"""

from __future__ import annotations

from coaxwright.source.former_words.places import ANY, BELOW, Place, Words, places

DEVICE_KINDS: Words = {"service drop": "coax drop", "equaliser": "equalizer"}
FILTERS: Words = {"in-home data": "point-of-entry"}
CAMERAS: Words = {"analogue": "analog"}
BOND_KINDS: Words = {
    "intersystem termination": "intersystem bonding termination",
    "building electrode system": "grounding electrode system",
}
ELECTRODE_METALS: Words = {"galvanised steel": "galvanized steel"}
CONDUCTOR_METALS: Words = {"aluminium": "aluminum", "copper-clad aluminium": "copper-clad aluminum"}
MAST_FEET: Words = {"power service mast": "service mast"}
RACEWAY_KINDS: Words = {
    "thin-wall metal tubing": "electrical metallic tubing",
    "rigid plastic conduit": "rigid PVC conduit",
    "flexible plastic tubing": "electrical nonmetallic tubing",
}
WIRING_METHODS: Words = {"armoured cable": "armored cable"}
CHANNEL_STANDARDS: Words = {"analogue": "analog"}
CLASSES: Words = {"58-type solid centre": "58-type solid center"}
DEVICES: Words = {
    "service drop": "coax drop",
    "in-home data filter": "point-of-entry filter",
    **{f"{value} dB equaliser": f"{value} dB equalizer" for value in (3, 6, 9, 12, 15)},
}
"""Names of the catalogue's devices, which others may be like."""

INCLUDES: Words = {"draws in": "includes"}
_BESIDE = Place(("beside", ANY, "by"), WIRING_METHODS)
_SECTIONS = (
    Place(("devices", ANY, "kind"), DEVICE_KINDS),
    Place(("devices", ANY, "variant"), FILTERS, of_kind="filter"),
    Place(("devices", ANY, "variant"), CAMERAS, of_kind="camera"),
    Place(("devices", ANY, "mast", "on"), MAST_FEET),
    Place(("bonding", ANY, "kind"), BOND_KINDS),
    Place(("bonding", ANY, "metal"), ELECTRODE_METALS),
    Place(("raceways", ANY, "kind"), RACEWAY_KINDS),
    Place(("raceways", ANY, "holds", ANY, "by"), WIRING_METHODS),
    Place(("places", ANY, *_BESIDE.at), WIRING_METHODS),
    Place(("services", ANY, "channels", ANY, "standard"), CHANNEL_STANDARDS),
    Place(("cables", ANY), {"colour": "color"}, of_keys=True),
    Place(("cables", ANY, "route", ANY, ANY), {"tightest bend": "bend radius"}, of_keys=True),
    Place(("cables", ANY, "route", ANY, ANY, *_BESIDE.at), WIRING_METHODS),
)
_CLASS_KEYS: Words = {"centre diameter": "center diameter", "centres": "centers"}
_OWN_ENTRIES = (
    Place(("classes", ANY, "like"), CLASSES),
    Place(("classes", ANY), _CLASS_KEYS, of_keys=True),
    Place(("classes", ANY, "centers"), CONDUCTOR_METALS, of_keys=True),
    Place(("classes", ANY, "defaults"), {"centre": "center"}, of_keys=True),
    Place(("classes", ANY, "defaults", "center"), CONDUCTOR_METALS),
    Place(("classes", ANY, "sources"), {**_CLASS_KEYS, **CONDUCTOR_METALS}, of_keys=True),
    Place(("devices", ANY, "like"), DEVICES),
    Place(("devices", ANY, "kind"), DEVICE_KINDS),
    Place(("devices", ANY, "variant"), FILTERS, of_kind="filter"),
    Place(("devices", ANY, "variant"), CAMERAS, of_kind="camera"),
)


def _below(tops: tuple[tuple[str, ...], ...], entries: tuple[Place, ...]) -> tuple[Place, ...]:
    return tuple(
        Place((*top, *entry.at), entry.words, entry.of_keys, entry.of_kind) for top in tops for entry in entries
    )


DESIGN_PLACES = (
    Place((), INCLUDES, of_keys=True),
    *_below(((), ("typical", ANY), ("units", ANY, "but")), _SECTIONS),
    *_below((("catalogue",),), _OWN_ENTRIES),
)
CATALOGUE_PLACES = _OWN_ENTRIES
FORMER_KEYS: Words = {old: new for place in DESIGN_PLACES if place.of_keys for old, new in place.words.items()}
"""The former keys of designs."""

_CASES: Words = {
    "aluminium in the earth": "aluminum in the earth",
    "clad aluminium": "clad aluminum",
    "other centre": "other center",
}
_LIMIT_KEYS: Words = {
    **CONDUCTOR_METALS,
    **ELECTRODE_METALS,
    **RACEWAY_KINDS,
    **WIRING_METHODS,
    **CHANNEL_STANDARDS,
    **CLASSES,
    **MAST_FEET,
    **BOND_KINDS,
    **DEVICE_KINDS,
    "centre": "center",
}
"""Names of limits, and the words by which tables of limits are kept."""
RULESET_VALUES: Words = {"centre": "center", "equaliser": "equalizer"}
"""Names of values in the sentences of rulesets, such as ``{centre}``."""
_RULE = (
    Place(("words",), _CASES, of_keys=True),
    Place(("words", ANY), {"is": "found", "should be": "required"}, of_keys=True),
    Place(("sources", ANY, "cases", ANY), _CASES),
    Place(("defers to", ANY, "cases", ANY), _CASES),
    Place(("limits", BELOW), _LIMIT_KEYS, of_keys=True),
)
RULESET_PLACES = _below((("add", ANY), ("set", ANY)), _RULE)

DESIGN_WORDS = places(DESIGN_PLACES)
"""Of designs and of their parts."""
CATALOGUE_WORDS = places(CATALOGUE_PLACES)
"""Of a firm's catalogues."""
RULESET_WORDS = places(RULESET_PLACES)
"""Of a firm's rulesets."""
