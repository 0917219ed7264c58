"""The whole design file, with the sections for what is repeated: typical units, and the units that are like them.

These models are for the schema, the reference page and whoever wants to hold a file to them. A review needs only the
``Design`` that is left when the units are written out.
"""

from __future__ import annotations

from collections.abc import Mapping
from copy import copy
from dataclasses import replace
from typing import Annotated, Any, Optional, get_args

from pydantic import Field, create_model, model_validator

from coaxwright.design.fields import Part, Tag, Text, may, must
from coaxwright.design.kinds import BOND_COMMON, BOND_KINDS, DEVICE_COMMON, DEVICE_KINDS, KindFields
from coaxwright.design.model import BondItem, Design, Device
from coaxwright.design.model.of_kind import of_kind
from coaxwright.design.phrases import SECTIONS


def _all_optional(kinds: Mapping[Any, KindFields]) -> Mapping[Any, KindFields]:
    """What each kind may say where nothing is required, because only what differs is written."""
    return {
        kind: replace(fields, required=(), optional=(*fields.required, *fields.optional))
        for kind, fields in kinds.items()
    }


Kinds = tuple[tuple[str, ...], Mapping[Any, KindFields]]
_DEVICE_CHANGES: Kinds = (DEVICE_COMMON, _all_optional(DEVICE_KINDS))
_BOND_CHANGES: Kinds = (BOND_COMMON, _all_optional(BOND_KINDS))
_CHANGES = {Device: _DEVICE_CHANGES, BondItem: _BOND_CHANGES}


def _change_of(part: type[Part]) -> type[Part]:
    """The fields of a part, none of them required: each that is written replaces the typical unit's whole field."""
    fields: dict[str, Any] = {}
    for name, field in part.model_fields.items():
        changed = copy(field)
        changed.default = None
        fields[name] = (Optional[field.annotation], changed)  # noqa: UP045 - the annotation is a value here

    def fields_of_its_kind(change: Any) -> Any:
        kind = change.kind
        return change if kind is None else of_kind(change, _CHANGES[part][0], _CHANGES[part][1][kind], kind)

    checks: dict[str, Any] = {"_of_kind": model_validator(mode="after")(fields_of_its_kind)} if part in _CHANGES else {}
    name = f"{part.__name__}Change"
    doc = f"What differs: the fields of {_A[part.__name__]}, none of them required."
    return create_model(name, __base__=Part, __doc__=doc, __module__=__name__, __validators__=checks, **fields)


_A = {
    "Building": "a building",
    "Place": "a place",
    "Service": "a service",
    "Device": "a device",
    "Cable": "a cable",
    "Raceway": "a raceway",
    "BondItem": "a bonding item",
    "Record": "a record",
}


def _tagged(part: type[Part]) -> Any:
    return dict[Tag, part]  # type: ignore[valid-type]


PARTS: Mapping[str, type[Part]] = {
    section: get_args(Design.model_fields[section].annotation)[1] for section in SECTIONS
}
"""The part that each section holds."""
CHANGES: Mapping[str, type[Part]] = {section: _change_of(part) for section, part in PARTS.items()}

_sections: dict[str, Any] = {
    section: (_tagged(part), may(f"Its {section}.", default={})) for section, part in PARTS.items()
}
Typical = create_model(
    "Typical",
    __base__=Part,
    __doc__="A unit that is there several times, described once under tags of its own.",
    __module__=__name__,
    **_sections,
)
_changes: dict[str, Any] = {
    section: (_tagged(part), may(f"What differs in its {section}.", default={})) for section, part in CHANGES.items()
}
Change = create_model(
    "Change",
    __base__=Part,
    __doc__="What differs from the typical unit: the fields written here replace those of the things of the same tags.",
    __module__=__name__,
    **_changes,
)


class Unit(Part):
    """A unit like a typical one, or, as `flat-01 to flat-12`, several: the figures count up and keep their width."""

    like: Tag = must("The typical unit it is like.")
    but: Change | None = may("What differs here.")
    leaves_out: Annotated[list[Tag], Field(min_length=1)] | None = may(
        "The tags of what the typical unit has and this one has not.", key="leaves out"
    )
    note: Text | None = may("Anything a reader should know.")


class DesignFile(Design):
    """A site's coaxial network."""

    typical: _tagged(Typical) = may(  # type: ignore[valid-type]
        "Units that are there several times, such as a flat, each described once.", default={}
    )
    units: dict[Tag, Unit] = may(
        "The units like a typical one. A thing of theirs has the tag `flat-01/SP`; inside, `SP` is enough.", default={}
    )


KINDS: Mapping[type[Part], Kinds] = {
    Device: (DEVICE_COMMON, DEVICE_KINDS),
    BondItem: (BOND_COMMON, BOND_KINDS),
    CHANGES["devices"]: _DEVICE_CHANGES,
    CHANGES["bonding"]: _BOND_CHANGES,
}
"""The parts whose kind says which fields they have: the fields of all kinds, and those of each."""
