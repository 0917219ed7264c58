"""Types of cable are understood in British spelling as well, and entries may be like others by their former names."""

from __future__ import annotations

import pytest

from coaxwright.catalogue import load_catalogue
from coaxwright.catalogue.author_values import with_own
from coaxwright.catalogue.cable_types import CableType
from coaxwright.source import read_text


@pytest.mark.parametrize(
    ("british", "american"),
    [
        ("10 mm 50 ohm low-loss Copper-clad Aluminium", "10 mm 50 ohm low-loss copper-clad aluminum"),
        ("58-type solid centre", "58-type solid center"),
    ],
)
def test_a_type_is_understood_in_either_spelling(british: str, american: str) -> None:
    catalogue = load_catalogue()
    read, wanted = catalogue.cable_type(british), catalogue.cable_type(american)
    assert isinstance(read, CableType)
    assert isinstance(wanted, CableType)
    assert (read.cable_class, read.center) == (wanted.cable_class, wanted.center)
    assert read.text == british


OWN = """\
coaxwright catalogue: 1
classes:
  s7:
    like: series 6
    source: its maker
    centres: {copper-clad aluminium: {size: 18 AWG, resistance: 10 ohm/1000 ft}}
    centre diameter: 1.02 mm
    defaults: {centre: copper-clad aluminium}
devices:
  hand-off: {like: service drop, source: its maker}
  filter 7: {like: in-home data filter, source: its maker}
  slope 6: {like: 6 dB equaliser, source: its maker}
"""


def test_a_catalogue_in_former_words_is_the_same_catalogue() -> None:
    former, problems = with_own([read_text(OWN, "x")])
    assert problems == []
    made = former.every_class["s7"]
    assert list(made.centers) == ["copper-clad aluminum"]
    assert made.defaults.center == "copper-clad aluminum"
    assert [former.models[name].kind for name in ("hand-off", "filter 7", "slope 6")] == [
        "coax drop",
        "filter",
        "equalizer",
    ]
    assert former.models["filter 7"].options.variant == "point-of-entry"


def test_a_mistake_beside_former_words_names_the_present_ones() -> None:
    text = OWN.replace("    like: series 6\n", "")
    _, problems = with_own([read_text(text, "x")])
    (said,) = {str(problem) for problem in problems}
    assert said.startswith("x:3:3: s7 has no 'impedance'")
    assert "centre" not in said
