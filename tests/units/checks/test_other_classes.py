"""The same cable in another class or with another center, as a buyer would ask for it."""

from __future__ import annotations

import pytest

from coaxwright.analysis.other_classes import SOLID_COPPER, smallest, with_option
from coaxwright.catalogue import CableType, load_catalogue

CATALOGUE = load_catalogue()


@pytest.mark.parametrize(
    ("written", "copper", "quad"),
    [
        ("series 6", "series 6 copper", "series 6 quad"),
        ("series 6 outdoor messenger", "series 6 copper outdoor messenger", "series 6 quad outdoor messenger"),
        ("series 6 tri outdoor", "series 6 tri copper outdoor", "series 6 quad outdoor"),
        ("series 6 outdoor tri", "series 6 outdoor tri copper", "series 6 quad outdoor"),
        ("messenger series 6 copper", "messenger series 6 copper", "messenger series 6 quad copper"),
    ],
)
def test_an_option_stands_behind_the_class_and_a_center_behind_the_shield(written: str, copper: str, quad: str) -> None:
    """Class, shield, center, jacket: the order of a data sheet's title; common practice."""
    of = CATALOGUE.cable_type(written)
    assert isinstance(of, CableType)
    assert with_option(of, SOLID_COPPER, of.cable_class.centers, CATALOGUE) == copper
    assert with_option(of, "quad", of.cable_class.shields, CATALOGUE) == quad


def test_the_smallest_is_a_drop_cable_unless_others_are_asked_for() -> None:
    """A 59-type has a dielectric of 0.146 in, series 59 one of 0.144 in and series 6 one of 0.180 in; catalogue."""
    series_59_m = CATALOGUE.classes["series 59"].dielectric_diameter_m
    drop = smallest(75.0, CATALOGUE, lambda made: made.dielectric_diameter_m > series_59_m)
    other = smallest(75.0, CATALOGUE, lambda made: made.dielectric_diameter_m > series_59_m, drops_only=False)
    assert (drop and drop.name, other and other.name) == ("series 6", "59-type")
    assert smallest(93.0, CATALOGUE, lambda made: True, drops_only=False) is None
