"""The devices of a catalogue by kind; those of a kind are read when the first of it is asked for."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import cache

from coaxwright.catalogue.devices import DeviceEntry
from coaxwright.catalogue.options import Options

Made = Mapping[Options, DeviceEntry]
"""The devices of one kind by what sets them apart."""


class DeviceRegistry(Mapping[str, Made]):
    """Kind to devices. Reading a kind raises CatalogueError where its data are wrong."""

    __slots__ = ("_kinds",)

    def __init__(self, kinds: Mapping[str, Callable[[], Made]]) -> None:
        self._kinds = {kind: cache(read) for kind, read in kinds.items()}

    def __getitem__(self, kind: str) -> Made:
        return self._kinds[kind]()

    def __contains__(self, kind: object) -> bool:  # the mixin's would read the kind
        return kind in self._kinds

    def __iter__(self) -> Iterator[str]:
        return iter(self._kinds)

    def __len__(self) -> int:
        return len(self._kinds)
