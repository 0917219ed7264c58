"""A device that is made in several values or sizes is written once, with what differs below ``made as``."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from coaxwright.catalogue.errors import CatalogueError
from coaxwright.catalogue.reading import Fields

_FAMILY = "made as"


def members(name: str, family: Fields) -> Iterator[tuple[str, Fields]]:
    """The devices of a written entry with their names: itself, or ``4-output 12 dB`` + ``tap`` for each size.

    A member's lists follow those of the family, its sources join them, any other field takes the family's place.
    Raises CatalogueError for a family without members.
    """
    if _FAMILY not in family:
        yield name, family
        return
    shared = {key: value for key, value in family.plain().items() if key != _FAMILY}
    sizes = family.inner(_FAMILY)
    if not sizes.names():
        raise CatalogueError(sizes.where, "names no device")
    for size in sizes.names():
        own = sizes.inner(size)
        yield f"{size} {name}", Fields(own.where, _joined(shared, own.plain()))


def _joined(shared: Mapping[str, object], own: Mapping[str, object]) -> dict[str, object]:
    joined = dict(shared)
    for key, value in own.items():
        common = shared.get(key)
        if isinstance(common, list) and isinstance(value, list):
            joined[key] = [*common, *value]
        elif key == "sources" and isinstance(common, Mapping) and isinstance(value, Mapping):
            joined[key] = {**common, **value}
        else:
            joined[key] = value
    return joined
