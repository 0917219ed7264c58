"""Catalogue data to devices with their ports and losses."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping

from coaxwright.catalogue.cable_entries import sources_of
from coaxwright.catalogue.devices import DeviceEntry, Direction, Ends, PathLoss, Port, PowerPath
from coaxwright.catalogue.entries import Source
from coaxwright.catalogue.errors import CatalogueError
from coaxwright.catalogue.losses import SpreadDb
from coaxwright.catalogue.options import Options
from coaxwright.catalogue.reading import Fields
from coaxwright.design.quantities import Band, Decibels, Impedance


def read_device(name: str, fields: Fields, sources: Mapping[str, Source]) -> DeviceEntry:
    """A device. Raises CatalogueError for a wrong or missing field, or a loss between ports that it does not have."""
    ports = tuple(_read_ports(fields))
    ends = {end for port in ports for end in (port.name, port.group)}
    gain = _read_spread(fields.inner("gain")) if "gain" in fields else None
    return DeviceEntry(
        name=name,
        kind=fields.text("kind"),
        options=_read_options(fields),
        description=fields.text("description"),
        ports=ports,
        paths=tuple(_read_path(path, ends, sources, gain) for path in fields.inner_list("paths")),
        isolations=tuple(_read_path(path, ends, sources, None) for path in fields.inner_list("isolations")),
        protects=fields.optional_flag("protects") or False,
        bonds_shield=fields.optional_flag("bonds shield") or False,
        isolates_shield=fields.optional_flag("isolates shield") or False,
        passes_power=fields.optional_flag("passes power"),
        power_paths=tuple(_read_power_path(path, ends, sources) for path in fields.inner_list("power paths")),
        needs_power=fields.optional_flag("needs power") or False,
        fed_ports=_read_ports_named(fields, "fed at", ports),
        feeding_ports=_read_ports_named(fields, "feeds at", ports),
        is_seldom=fields.optional_flag("seldom") or False,
        gain=gain,
        noise_figure=_read_spread(fields.inner("noise figure")) if "noise figure" in fields else None,
        sources=sources_of(fields, sources),
    )


def _read_options(fields: Fields) -> Options:
    value = fields.optional_quantity("value", Decibels)
    return Options(
        ways=fields.optional_whole("ways"),
        inputs=fields.optional_whole("inputs"),
        outputs=fields.optional_whole("outputs"),
        value_db=value.ratio_db if value else None,
        variant=fields.optional_text("variant"),
    )


def _read_ports(fields: Fields) -> Iterator[Port]:
    for entry in fields.inner_list("ports"):
        name = entry.text("name")
        direction = entry.text("direction")
        if direction not in set(Direction):
            what = f"{direction!r} is no direction; write {', '.join(Direction)}"
            raise CatalogueError(entry.where, what, (*entry.path, "direction"))
        impedance = (entry if "impedance" in entry else fields).quantity("impedance", Impedance)
        connector = (entry if "connector" in entry else fields).text("connector")
        band = entry.optional_quantity("band", Band)
        count = entry.optional_whole("count")
        for each in [name] if count is None else [f"{name}-{index}" for index in range(1, count + 1)]:
            yield Port(
                name=each,
                direction=Direction(direction),
                group=entry.text("group"),
                impedance_ohm=impedance.impedance_ohm,
                connector=connector,
                band_hz=(band.low_hz, band.high_hz) if band else None,
            )


def _read_ports_named(fields: Fields, name: str, ports: tuple[Port, ...]) -> tuple[Port, ...]:
    wanted = fields.texts(name)
    for index, end in enumerate(wanted):
        _refuse_unknown(end, {end for port in ports for end in (port.name, port.group)}, fields, name, index)
    return tuple(port for port in ports if port.name in wanted or port.group in wanted)


def _read_ends(fields: Fields, ends: Collection[str]) -> Ends:
    for key in ("from", "to"):
        _refuse_unknown(fields.text(key), ends, fields, key)
    return Ends(fields.text("from"), fields.text("to"), fields.optional_flag("one way") or False)


def _refuse_unknown(end: str, ends: Collection[str], fields: Fields, *at: str | int) -> None:
    if end not in ends:
        what = f"{end!r} is no port; the ports are {', '.join(sorted(ends))}"
        raise CatalogueError(fields.where, what, (*fields.path, *at), word=end, known=sorted(ends))


def _read_path(fields: Fields, ends: Collection[str], sources: Mapping[str, Source], gain: SpreadDb | None) -> PathLoss:
    band = fields.quantity("band", Band)
    amplified = fields.optional_flag("amplified") or False
    if amplified and gain is None:
        raise CatalogueError(fields.where, "it is amplified, and the device has no gain", (*fields.path, "amplified"))
    return PathLoss(
        ends=_read_ends(fields, ends),
        low_hz=band.low_hz,
        high_hz=band.high_hz,
        loss=_negative(gain) if amplified and gain is not None else _read_spread(fields),
        sources=sources_of(fields, sources),
        amplified=amplified,
    )


def _read_power_path(fields: Fields, ends: Collection[str], sources: Mapping[str, Source]) -> PowerPath:
    fields.inner("sources").text("passes")  # or it says what is missing
    return PowerPath(_read_ends(fields, ends), fields.flag("passes"), sources_of(fields, sources)["passes"])


def _read_spread(fields: Fields) -> SpreadDb:
    low, nominal, high = (fields.quantity(name, Decibels).ratio_db for name in ("low", "nominal", "high"))
    if not low <= nominal <= high:
        raise CatalogueError(fields.where, "low, nominal and high do not rise", fields.path)
    return SpreadDb(low, nominal, high)


def _negative(gain: SpreadDb) -> SpreadDb:
    return SpreadDb(-gain.high_db, -gain.nominal_db, -gain.low_db)
