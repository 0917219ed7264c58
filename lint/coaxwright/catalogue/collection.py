"""The catalogue as a whole, and the questions that other rooms ask of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from coaxwright.catalogue.cable_types import CableType, UnknownWords
from coaxwright.catalogue.entries import CableClass, DeviceEntry, Jacket
from coaxwright.catalogue.phrases import Vocabulary, read_phrase


@dataclass(frozen=True, slots=True)
class Catalogue:
    """Cable classes, jackets and devices of one edition."""

    edition: int
    classes: Mapping[str, CableClass]
    jackets: Mapping[str, Jacket]
    devices: Mapping[tuple[str, int | None, str | None], DeviceEntry]
    """By kind, ways and variant."""
    words: Vocabulary

    def cable_type(self, phrase: str) -> CableType | UnknownWords:
        """What a type phrase (``series 6 quad copper outdoor``) means; a phrase at fault is a value, not an error."""
        return read_phrase(phrase, self.words)

    def device(self, kind: str, ways: int | None = None, variant: str | None = None) -> DeviceEntry | None:
        """The device of exactly that kind, number of ways and variant, or None."""
        return self.devices.get((kind, ways, variant))

    @property
    def device_kinds(self) -> tuple[str, ...]:
        """Every kind once, in the catalogue's order."""
        return tuple(dict.fromkeys(kind for kind, _, _ in self.devices))

    def ways(self, kind: str, variant: str | None = None) -> tuple[int, ...]:
        """The numbers of ways that a kind is made in, rising; empty for a kind that has none."""
        return tuple(
            sorted(
                ways
                for own_kind, ways, own_variant in self.devices
                if own_kind == kind and own_variant == variant and ways is not None
            )
        )
