"""Catalogue data to devices with their ports and losses."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from coaxwright.catalogue.cable_entries import sources_of
from coaxwright.catalogue.entries import DeviceEntry, Direction, PathLoss, Port, Source
from coaxwright.catalogue.errors import CatalogueError
from coaxwright.catalogue.losses import SpreadDb
from coaxwright.catalogue.reading import Fields
from coaxwright.design.quantities import Band, Decibels, Impedance


def read_device(name: str, fields: Fields, sources: Mapping[str, Source]) -> DeviceEntry:
    """A device. Raises CatalogueError for a wrong or missing field, or a loss between ports that it does not have."""
    ports = tuple(_read_ports(fields))
    ends = {end for port in ports for end in (port.name, port.group)}
    return DeviceEntry(
        name=name,
        kind=fields.text("kind"),
        ways=fields.optional_whole("ways"),
        variant=fields.optional_text("variant"),
        description=fields.text("description"),
        ports=ports,
        paths=tuple(_read_path(path, ends, sources) for path in fields.inner_list("paths")),
        protects=fields.optional_flag("protects") or False,
        bonds_shield=fields.optional_flag("bonds shield") or False,
        passes_power=fields.optional_flag("passes power"),
        needs_power=fields.optional_flag("needs power") or False,
        gain=_read_spread(fields.inner("gain")) if "gain" in fields else None,
        noise_figure=_read_spread(fields.inner("noise figure")) if "noise figure" in fields else None,
        sources=sources_of(fields, sources),
    )


def _read_ports(fields: Fields) -> Iterator[Port]:
    impedance_ohm = fields.quantity("impedance", Impedance).impedance_ohm
    connector = fields.text("connector")
    for entry in fields.inner_list("ports"):
        name = entry.text("name")
        direction = entry.text("direction")
        if direction not in set(Direction):
            raise CatalogueError(entry.where, f"{direction!r} is no direction; write {', '.join(Direction)}")
        count = entry.optional_whole("count")
        names = [name] if count is None else [f"{name}-{index}" for index in range(1, count + 1)]
        for each in names:
            yield Port(each, Direction(direction), entry.text("group"), impedance_ohm, connector)


def _read_path(fields: Fields, ends: set[str], sources: Mapping[str, Source]) -> PathLoss:
    band = fields.quantity("band", Band)
    for end in (fields.text("from"), fields.text("to")):
        if end not in ends:
            raise CatalogueError(fields.where, f"{end!r} is no port; the ports are {', '.join(sorted(ends))}")
    return PathLoss(
        from_end=fields.text("from"),
        to_end=fields.text("to"),
        low_hz=band.low_hz,
        high_hz=band.high_hz,
        loss=_read_spread(fields),
        sources=sources_of(fields, sources),
    )


def _read_spread(fields: Fields) -> SpreadDb:
    low, nominal, high = (fields.quantity(name, Decibels).ratio_db for name in ("low", "nominal", "high"))
    if not low <= nominal <= high:
        raise CatalogueError(fields.where, "low, nominal and high do not rise")
    return SpreadDb(low, nominal, high)
