"""The same cable in another class or with another center, in the words of a buyer: what a remedy offers."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from coaxwright.catalogue import AttenuationKind, CableClass, CableType, Catalogue

SOLID_COPPER = "copper"
"""The center's word in the catalogue."""


def in_class(of: CableType, other: str, catalogue: Catalogue) -> str:
    """A type in another class with as many of its options as that class has; the class alone where they do not fit."""
    made = catalogue.every_class[other]
    options = {*made.shields, *made.centers, *made.jackets}
    phrase = " ".join([other, *(word for word in of.words if word in options)])
    return phrase if isinstance(catalogue.cable_type(phrase), CableType) else other


def with_option(of: CableType, option: str, others: Iterable[str], catalogue: Catalogue) -> str | None:
    """A type with one option in place of ``others``; None where its class is not made so."""
    dropped = set(others)
    words = [word for word in of.words if word not in dropped and word != option]
    at = words.index(of.cable_class.name) + 1 if of.cable_class.name in words else len(words)
    shields = [index for index, word in enumerate(words) if word in of.cable_class.shields]
    at = max(at, *(index + 1 for index in shields)) if option in of.cable_class.centers and shields else at
    phrase = " ".join([*words[:at], option, *words[at:]])
    read = catalogue.cable_type(phrase)
    return phrase if isinstance(read, CableType) and read.cable_class.name == of.cable_class.name else None


def smallest(
    impedance_ohm: float, catalogue: Catalogue, fits: Callable[[CableClass], bool], *, drops_only: bool = True
) -> CableClass | None:
    """The usual class of an impedance with the thinnest dielectric that fits; None where none does.

    drops_only: among those whose loss is limited by a standard, as the drop classes of broadband and television are.
    """
    usual = [
        made
        for made in catalogue.classes.values()
        if made.impedance_ohm == impedance_ohm
        and (made.attenuation.kind is AttenuationKind.MAXIMUM or not drops_only)
        and fits(made)
    ]
    return min(usual, key=lambda made: (made.dielectric_diameter_m, made.name), default=None)
