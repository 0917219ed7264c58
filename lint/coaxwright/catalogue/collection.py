"""The catalogue as a whole, and the questions that other rooms ask of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field

from coaxwright.catalogue.cable_types import CableType, UnknownWords
from coaxwright.catalogue.device_registry import DeviceRegistry
from coaxwright.catalogue.devices import DeviceEntry
from coaxwright.catalogue.entries import CableClass, Jacket
from coaxwright.catalogue.options import Options
from coaxwright.catalogue.phrases import Vocabulary, read_phrase
from coaxwright.catalogue.screening import ScreeningClass
from coaxwright.frozen_value import frozen_value

_MOST_KEPT = 1000


@frozen_value
class OwnEntry:
    """Where an entry that a design or a firm's file adds comes from."""

    file: str
    document: str
    """What its author names as the source of its figures."""


@frozen_value
class Catalogue:
    """Cable classes, jackets and devices of one edition."""

    edition: int
    classes: Mapping[str, CableClass]
    """The usual classes for new work, which a remedy may offer."""
    every_class: Mapping[str, CableClass]
    """All of them, seldom ones and those of existing plant included."""
    jackets: Mapping[str, Jacket]
    screening_classes: Mapping[str, ScreeningClass]
    """Best first."""
    devices: DeviceRegistry
    words: Vocabulary
    models: Mapping[str, DeviceEntry] = field(default_factory=dict)
    """Devices that a design or a firm's file adds, by the names they give."""
    own: Mapping[str, OwnEntry] = field(default_factory=dict)
    """Where each class and device that was added comes from, by name."""
    _types: dict[str, CableType | UnknownWords] = field(default_factory=dict, init=False, repr=False, compare=False)
    """Phrases that were read: a drawing has few of them, and a folder of drawings the same ones."""

    def cable_type(self, phrase: str) -> CableType | UnknownWords:
        """What a type phrase (``series 6 quad copper outdoor``) means; a phrase at fault is a value, not an error."""
        if phrase not in self._types:
            if len(self._types) >= _MOST_KEPT:
                self._types.clear()
            self._types[phrase] = read_phrase(phrase, self.words)
        return self._types[phrase]

    def device(
        self,
        kind: str,
        ways: int | None = None,
        variant: str | None = None,
        *,
        inputs: int | None = None,
        outputs: int | None = None,
        value_db: float | None = None,
    ) -> DeviceEntry | None:
        """The device of exactly that kind and options, or None. value_db: of a tap, pad or equalizer [dB]."""
        return self.made(kind).get(Options(ways, inputs, outputs, value_db, variant))

    def made(self, kind: str) -> Mapping[Options, DeviceEntry]:
        """The devices of a kind by what sets them apart; empty for a kind that is not known."""
        return self.devices.get(kind, {})

    @property
    def device_kinds(self) -> tuple[str, ...]:
        """Every kind once, in the catalogue's order."""
        return tuple(self.devices)

    def option_names(self, kind: str) -> tuple[str, ...]:
        """The options that set devices of a kind apart, as fields of ``Options``; empty where there is one device."""
        return tuple(dict.fromkeys(name for options in self.made(kind) for name in options.named))

    def ways(self, kind: str, variant: str | None = None) -> tuple[int, ...]:
        """The usual numbers of ways of a kind, rising, which a remedy may offer; empty for a kind that has none.

        Seldom ones are among those that are ``made``.
        """
        usual = [entry for entry in self.made(kind).values() if entry.variant == variant and not entry.is_seldom]
        return tuple(sorted(entry.ways for entry in usual if entry.ways is not None))

    def variants(self, kind: str) -> tuple[str, ...]:
        """The variants that a kind is made in, in the catalogue's order; empty for a kind that has none."""
        return tuple(dict.fromkeys(options.variant for options in self.made(kind) if options.variant is not None))
