"""Plain data of catalogue files to one catalogue; later files add to earlier ones."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from types import MappingProxyType
from typing import TypeVar

from coaxwright.catalogue.cable_entries import read_class, read_jacket
from coaxwright.catalogue.collection import Catalogue
from coaxwright.catalogue.device_entries import read_device
from coaxwright.catalogue.device_registry import DeviceRegistry, Made
from coaxwright.catalogue.devices import DeviceEntry
from coaxwright.catalogue.entries import CableClass, Jacket, Source
from coaxwright.catalogue.errors import CatalogueError
from coaxwright.catalogue.families import members
from coaxwright.catalogue.options import Options
from coaxwright.catalogue.phrases import vocabulary
from coaxwright.catalogue.reading import Fields
from coaxwright.catalogue.screening import ScreeningClass, read_screening_class

K = TypeVar("K")
V = TypeVar("V")


def read_catalogue(
    files: Iterable[tuple[str, object]], kinds: Mapping[str, Callable[[], object]] | None = None
) -> Catalogue:
    """A catalogue from named plain data, valid against the catalogue schema; later files add to earlier ones.

    kinds: what reads the plain data of a file of devices, by the one kind that the file holds; it is read when the
    kind is first asked for.
    Raises CatalogueError for a wrong figure, a source that is not in the file's table, or a name given twice.
    """
    jackets: dict[str, Jacket] = {}
    classes: dict[str, CableClass] = {}
    screening: dict[str, ScreeningClass] = {}
    devices: dict[str, dict[Options, DeviceEntry]] = {}
    spellings: dict[str, dict[str, tuple[str, ...]]] = {"shield": {}, "center": {}, "jacket": {}}
    edition = 0
    for name, data in files:
        file = Fields(name, data)
        edition = max(edition, file.whole("edition"))
        sources = sources_in(file)
        for key, fields in file.inner_each("screening classes"):
            _add(screening, key, read_screening_class(key, fields, sources), fields)
        for key, fields in file.inner_each("jackets"):
            _add(jackets, key, read_jacket(key, fields, sources), fields)
            spellings["jacket"][key] = fields.texts("also")
        for key, fields in file.inner_each("classes"):
            _add(classes, key, read_class(key, fields, sources, jackets), fields)
        _add_devices(devices, file, sources)
        _add_spellings(spellings, file)
    return Catalogue(
        edition=edition,
        classes=MappingProxyType({name: entry for name, entry in classes.items() if entry.usual}),
        every_class=MappingProxyType(classes),
        jackets=MappingProxyType(jackets),
        screening_classes=MappingProxyType(screening),
        devices=_shelf(devices, kinds or {}),
        words=vocabulary(classes, jackets.values(), spellings),
    )


def _shelf(
    devices: Mapping[str, dict[Options, DeviceEntry]], kinds: Mapping[str, Callable[[], object]]
) -> DeviceRegistry:
    def reader(kind: str) -> Callable[[], Made]:
        def read() -> Made:
            made = {kind: dict(devices.get(kind, {}))}
            if kind in kinds:
                file = Fields(f"devices of the kind {kind!r}", kinds[kind]())
                _add_devices(made, file, sources_in(file))
            if set(made) != {kind}:
                raise CatalogueError(f"devices of the kind {kind!r}", f"hold {', '.join(set(made) - {kind})} as well")
            return MappingProxyType(made[kind])

        return read

    return DeviceRegistry({kind: reader(kind) for kind in (*kinds, *(kind for kind in devices if kind not in kinds))})


def sources_in(file: Fields) -> dict[str, Source]:
    """The documents that a file lists, by their keys."""
    return {
        key: Source(
            document=fields.text("document"),
            confidence=fields.text("confidence"),
            edition=fields.optional_text("edition"),
            clause=fields.optional_text("clause"),
            note=fields.optional_text("note"),
        )
        for key, fields in file.inner_each("sources")
    }


def _add(table: dict[K, V], key: K, value: V, fields: Fields) -> None:
    if key in table:
        raise CatalogueError(fields.where, "is in the catalogue already")
    table[key] = value


def _add_devices(devices: dict[str, dict[Options, DeviceEntry]], file: Fields, sources: Mapping[str, Source]) -> None:
    for written, entry in file.inner_each("devices"):
        for name, fields in members(written, entry):
            device = read_device(name, fields, sources)
            _add(devices.setdefault(device.kind, {}), device.options, device, fields)


def _add_spellings(spellings: dict[str, dict[str, tuple[str, ...]]], file: Fields) -> None:
    if "spellings" in file:
        words = file.inner("spellings")
        for plural, option in (("shields", "shield"), ("centers", "center")):
            if plural in words:
                options = words.inner(plural)
                spellings[option].update({name: options.texts(name) for name in options.names()})
