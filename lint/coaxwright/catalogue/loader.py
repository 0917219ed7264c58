"""Catalogue files to a catalogue: the shipped one, or one with a firm's own files."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import TypeVar

from coaxwright.catalogue.cable_entries import read_class, read_jacket
from coaxwright.catalogue.collection import Catalogue
from coaxwright.catalogue.device_entries import read_device
from coaxwright.catalogue.entries import CableClass, DeviceEntry, Jacket, Source
from coaxwright.catalogue.errors import CatalogueError
from coaxwright.catalogue.phrases import vocabulary
from coaxwright.catalogue.reading import Fields

K = TypeVar("K")
V = TypeVar("V")

# Beside this module, wherever it is installed; never from the working directory.
_DATA = Path(__file__).parent / "data"
_FILES = ("jackets.yaml", "cables.yaml", "devices.yaml")


@cache
def load_catalogue() -> Catalogue:
    """The shipped catalogue, read once per process.

    Raises CatalogueError where a shipped file is damaged.
    """
    return read_catalogue([(name, _plain_data(_DATA / name)) for name in _FILES])


def read_catalogue(files: Iterable[tuple[str, object]]) -> Catalogue:
    """A catalogue from named plain data, valid against the catalogue schema; later files add to earlier ones.

    Raises CatalogueError for a wrong figure, a source that is not in the file's table, or a name given twice.
    """
    jackets: dict[str, Jacket] = {}
    classes: dict[str, CableClass] = {}
    devices: dict[tuple[str, int | None, str | None], DeviceEntry] = {}
    spellings: dict[str, dict[str, tuple[str, ...]]] = {"shield": {}, "centre": {}, "jacket": {}}
    edition = 0
    for name, data in files:
        file = Fields(name, data)
        edition = max(edition, file.whole("edition"))
        sources = {key: _read_source(fields) for key, fields in file.inner_each("sources")}
        for key, fields in file.inner_each("jackets"):
            _add(jackets, key, read_jacket(key, fields, sources), fields)
            spellings["jacket"][key] = fields.texts("also")
        for key, fields in file.inner_each("classes"):
            _add(classes, key, read_class(key, fields, sources, jackets), fields)
        for key, fields in file.inner_each("devices"):
            device = read_device(key, fields, sources)
            _add(devices, (device.kind, device.ways, device.variant), device, fields)
        _add_spellings(spellings, file)
    return Catalogue(
        edition=edition,
        classes=MappingProxyType(classes),
        jackets=MappingProxyType(jackets),
        devices=MappingProxyType(devices),
        words=vocabulary(classes, jackets.values(), spellings),
    )


def _plain_data(path: Path) -> object:
    import yaml

    try:
        return yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader)
    except (OSError, yaml.YAMLError) as error:
        raise CatalogueError(path.name, f"cannot be read: {error}") from error


def _read_source(fields: Fields) -> Source:
    return Source(
        document=fields.text("document"),
        confidence=fields.text("confidence"),
        edition=fields.optional_text("edition"),
        clause=fields.optional_text("clause"),
        note=fields.optional_text("note"),
    )


def _add(table: dict[K, V], key: K, value: V, fields: Fields) -> None:
    if key in table:
        raise CatalogueError(fields.where, "is in the catalogue already")
    table[key] = value


def _add_spellings(spellings: dict[str, dict[str, tuple[str, ...]]], file: Fields) -> None:
    if "spellings" in file:
        words = file.inner("spellings")
        for plural, option in (("shields", "shield"), ("centres", "centre")):
            if plural in words:
                options = words.inner(plural)
                spellings[option].update({name: options.texts(name) for name in options.names()})
