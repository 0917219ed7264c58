"""Building blocks of the models: text and tags taken as written, whole numbers, documented fields."""

from __future__ import annotations

from typing import Annotated, Any, TypeVar

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field

from coaxwright.frozen_value import frozen_value

TAG_PATTERN = r"^[^\s.](?:.*[^\s])?$"
"""A tag: any words without a space at either end, not beginning with a dot (``NID``, ``living room``, ``101``)."""


class AsWritten:
    """Marks a text whose number-like spellings (``012``) are kept as the author wrote them."""


@frozen_value
class Names:
    """Says of a tag in which sections the thing that it names is looked for."""

    sections: tuple[str, ...]


def _whole(value: object) -> object:
    return int(value) if isinstance(value, float) and value.is_integer() else value


Text = Annotated[str, Field(min_length=1, pattern=r"\S"), AsWritten]
Tag = Annotated[str, Field(pattern=TAG_PATTERN), AsWritten]
BuildingTag = Annotated[Tag, Names(("buildings",))]
PlaceTag = Annotated[Tag, Names(("places",))]
ServiceTag = Annotated[Tag, Names(("services",))]
DeviceTag = Annotated[Tag, Names(("devices",))]
"""A device, or one of its ports, ``TAG.port``, or its ``TAG.mast``."""
BondTag = Annotated[Tag, Names(("bonding",))]
BondedTag = Annotated[Tag, Names(("devices", "bonding"))]
RacewayTag = Annotated[Tag, Names(("raceways",))]
AnyTag = Annotated[Tag, Names(("buildings", "places", "services", "devices", "cables", "bonding", "raceways"))]
"""A thing of any section."""
RecordTag = Annotated[Tag, Names(("records",))]
DATE_PATTERN = "^(?:19|20)[0-9]{2}(?:-(?:0[1-9]|1[0-2])(?:-(?:0[1-9]|[12][0-9]|3[01]))?)?$"
RULESET_PATTERN = r"^(?:[a-z][a-z0-9-]* [0-9]+|\S(?:.*\S)?\.coax-ruleset\.yaml)$"
DATE_EXAMPLES = ("2026-05-31", "2026-05", "2026")
Date = Annotated[str, Field(pattern=DATE_PATTERN, examples=list(DATE_EXAMPLES)), AsWritten]
"""A day, a month or a year, as ISO 8601 writes it."""
Whole = Annotated[int, BeforeValidator(_whole)]

T = TypeVar("T")


class Part(BaseModel):
    """Base of all parts of the design file: frozen, strict, nothing unknown."""

    model_config = ConfigDict(frozen=True, strict=True, extra="forbid", defer_build=True)


def may(
    description: str, *, key: str | None = None, default: Any = None, awaits: str | None = None, **constraints: Any
) -> Any:
    """An optional field with its description, its key in the file where that differs, and its default.

    ``awaits`` names the rule, or the output, that will be the first to use it.
    """
    extra: Any = None if awaits is None else {"awaits": awaits}
    return Field(default, alias=key, description=description, json_schema_extra=extra, **constraints)


def must(description: str, *, key: str | None = None, awaits: str | None = None, **constraints: Any) -> Any:
    """A field that has to be written."""
    extra: Any = None if awaits is None else {"awaits": awaits}
    return Field(..., alias=key, description=description, json_schema_extra=extra, **constraints)
