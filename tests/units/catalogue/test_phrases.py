from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coaxwright.catalogue import CableType, CatalogueError, Misreading, UnknownWords, load_catalogue

CATALOGUE = load_catalogue()


def read(phrase: str) -> CableType:
    cable_type = CATALOGUE.cable_type(phrase)
    assert isinstance(cable_type, CableType), cable_type
    return cable_type


def misread(phrase: str) -> UnknownWords:
    unknown = CATALOGUE.cable_type(phrase)
    assert isinstance(unknown, UnknownWords), unknown
    return unknown


@pytest.mark.parametrize(
    ("phrase", "cable_class", "shield", "center", "jacket", "defaulted"),
    [
        ("series 6 quad copper outdoor", "series 6", "quad", "copper", "outdoor", ()),
        ("series 6 tri copper-clad steel indoor", "series 6", "tri", "copper-clad steel", "indoor", ()),
        ("series 6 quad copper flooded", "series 6", "quad", "copper", "flooded", ()),
        ("series 11 outdoor messenger", "series 11", "60 %", "copper-clad steel", "outdoor messenger",
         ("shield", "center")),
        ("series 6", "series 6", "60 %", "copper-clad steel", "indoor", ("shield", "center", "jacket")),
        ("copper quad series 59", "series 59", "quad", "copper", "indoor", ("jacket",)),
        ("series 6 90% riser", "series 6", "90 %", "copper-clad steel", "riser", ("center",)),
        ("59-type 95 % copper braid", "59-type", "95 %", "copper", "indoor", ("center", "jacket")),
        ("series 7 tri copper", "series 7", "tri", "copper", "indoor", ("jacket",)),
        ("58-type foam outdoor", "58-type foam", "95 %", "tinned copper", "outdoor", ("shield", "center")),
        ("6-type double braid", "6-type double braid", "double braid", "copper-clad steel", "indoor",
         ("shield", "center", "jacket")),
        ("outdoor RG-213/U", "213-type", "95 %", "copper", "outdoor", ("shield", "center")),
        ("15 mm 50 ohm low-loss", "15 mm 50 ohm low-loss", "foil and braid", "copper-clad aluminum", "outdoor",
         ("shield", "center", "jacket")),
        ("10 mm 50 ohm low-loss", "10 mm 50 ohm low-loss", "foil and braid", "copper-clad aluminum", "outdoor",
         ("shield", "center", "jacket")),
    ],
)  # fmt: skip
def test_what_phrases_mean(
    phrase: str, cable_class: str, shield: str, center: str, jacket: str, defaulted: tuple[str, ...]
) -> None:
    cable_type = read(phrase)
    assert cable_type.text == phrase
    assert cable_type.cable_class.name == cable_class
    assert (cable_type.shield.name, cable_type.center.name) == (shield, center)
    assert cable_type.jacket.name == jacket
    assert cable_type.defaulted == defaulted


@pytest.mark.parametrize(
    ("spelling", "canonical"),
    [
        ("Series 6 QUAD Copper", "series 6 quad copper"),
        ("series 6, quad-shield, solid copper, outdoors", "series 6 quad copper outdoor"),
        ("series 6 tri shield CCS direct burial", "series 6 tri copper-clad steel flooded"),
        ("series 6 copper clad steel 60%", "series 6 copper-clad steel 60 %"),
        ("10 mm 50 \N{GREEK CAPITAL LETTER OMEGA} low-loss", "10 mm 50 ohm low-loss"),
        ("10mm 50\N{OHM SIGN} low-loss riser", "10 mm 50 ohm low-loss riser"),
        ("  series  6   quad  quad ", "series 6 quad"),
    ],
)
def test_other_spellings_have_one_canonical_phrase(spelling: str, canonical: str) -> None:
    assert read(spelling).phrase == canonical


@pytest.mark.parametrize(
    ("phrase", "reason", "word", "nearest"),
    [
        ("series 6 qaud copper", Misreading.UNKNOWN_WORD, "qaud", "quad"),
        ("series 6 qaud cooper", Misreading.UNKNOWN_WORD, "qaud", "quad"),
        ("series 6 red", Misreading.UNKNOWN_WORD, "red", None),
        ("series 6 Plenium", Misreading.UNKNOWN_WORD, "Plenium", "plenum"),
        ("series 8 quad", Misreading.UNKNOWN_CLASS, "series 8", "series 7"),
        ("6 mm low-loss", Misreading.UNKNOWN_CLASS, "6 mm low-loss", "6 mm 50 ohm low-loss"),
        ("RG-6 quad copper", Misreading.UNKNOWN_CLASS, "RG-6", "series 6"),
        ("quad RG 11", Misreading.UNKNOWN_CLASS, "RG 11", "series 11"),
        ("RG-59/U", Misreading.UNKNOWN_CLASS, "RG-59/U", "series 59"),
        ("10 mm low-loss", Misreading.UNKNOWN_CLASS, "10 mm low-loss", "10 mm 50 ohm low-loss"),
        ("twisted pair", Misreading.UNKNOWN_CLASS, "twisted pair", None),
        ("quad copper", Misreading.UNKNOWN_CLASS, "quad copper", None),
        ("", Misreading.UNKNOWN_CLASS, "", None),
    ],
)
def test_unknown_words(phrase: str, reason: Misreading, word: str, nearest: str | None) -> None:
    unknown = misread(phrase)
    assert (unknown.text, unknown.reason, unknown.word, unknown.nearest) == (phrase, reason, word, nearest)


@pytest.mark.parametrize(
    ("phrase", "word", "other"),
    [
        ("series 6 indoor outdoor", "outdoor", "indoor"),
        ("series 6 flooded outdoor messenger", "messenger", "flooded"),
        ("series 6 copper CCS", "CCS", "copper"),
        ("series 6 quad tri-shield", "tri-shield", "quad"),
        ("series 6 series 11", "series 11", "series 6"),
    ],
)
def test_contradictions(phrase: str, word: str, other: str) -> None:
    unknown = misread(phrase)
    assert (unknown.reason, unknown.word, unknown.other) == (Misreading.CONTRADICTION, word, other)
    assert unknown.message == f"{word!r} contradicts {other!r}"


@pytest.mark.parametrize("word", ["58-type", "RG-58", "RG 58", "RG-58/U"])
def test_a_number_that_does_not_fix_the_construction_names_those_that_do(word: str) -> None:
    unknown = misread(f"{word} outdoor")
    assert (unknown.reason, unknown.word, unknown.nearest) == (Misreading.CONSTRUCTION_OPEN, word, None)
    assert unknown.message == (
        f"{word!r} does not fix the construction; write one of 58-type solid center, 58-type foam, 58-type stranded"
    )


@pytest.mark.parametrize("name", CATALOGUE.every_class)
def test_every_class_and_every_other_name_of_it_is_read(name: str) -> None:
    cable_class = CATALOGUE.every_class[name]
    for spelling in (name, *cable_class.also):
        assert read(spelling).cable_class is cable_class
        assert read(spelling).phrase == name
    for shield in cable_class.shields:
        for center in cable_class.centers:
            whole = read(f"{name} {shield} {center} {cable_class.defaults.jacket}")
            assert (whole.shield.name, whole.center.name, whole.defaulted) == (shield, center, ())


def test_options_that_a_class_is_not_made_with() -> None:
    unknown = misread("59-type messenger")
    assert (unknown.reason, unknown.word, unknown.other) == (Misreading.NOT_MADE, "messenger", "59-type")
    assert unknown.message == (
        "59-type is not made with 'messenger'; it is with indoor, riser, plenum, outdoor, flooded"
    )


def test_messages_name_the_word_and_the_nearest() -> None:
    assert misread("series 6 qaud").message == "'qaud' is no word of a cable type; did you mean 'quad'?"
    assert misread("series 8").message == (
        "'series 8' names no cable class; usual ones are series 59, series 6, series 11, 59-type, "
        "10 mm 50 ohm low-loss; did you mean 'series 7'?"
    )


@pytest.mark.parametrize(
    ("phrase", "jacket", "expected"),
    [
        ("series 6 quad copper", "outdoor", "series 6 quad copper outdoor"),
        ("series 6 indoor quad copper", "outdoor", "series 6 outdoor quad copper"),
        ("series 6 outdoor quad", "outdoor", "series 6 outdoor quad"),
        ("series 6 messenger", "outdoor", "series 6 messenger outdoor"),
        ("series 6 riser", "outdoor", "series 6 riser outdoor"),
        ("series 6 outdoor messenger copper", "flooded", "series 6 outdoor flooded copper"),
        ("Series 6, Quad-shield", "flooded", "series 6 quad flooded"),
    ],
)
def test_with_jacket(phrase: str, jacket: str, expected: str) -> None:
    changed = read(phrase).with_jacket(jacket)
    assert changed.phrase == expected
    again = read(changed.phrase)
    assert (again.jackets, again.shield, again.center) == (changed.jackets, changed.shield, changed.center)
    assert again.defaulted == changed.defaulted


def test_with_a_jacket_that_the_class_is_not_made_with() -> None:
    with pytest.raises(CatalogueError, match="59-type: is not made with the jacket 'messenger'"):
        read("59-type").with_jacket("messenger")


def test_jackets_combine_to_the_best_of_both() -> None:
    jacket = read("series 6 riser outdoor").jacket
    assert (jacket.resists_sun_and_wet, jacket.burial_rated, jacket.us_mark) == (True, False, "CATVR")
    assert read("series 6 outdoor flooded").jacket.burial_rated
    assert not read("series 6").jacket.resists_sun_and_wet


def test_figures_of_a_type() -> None:
    quad = read("series 6 quad copper")
    assert quad.impedance_ohm == 75
    assert quad.shield_resistance_ohm_per_m == pytest.approx(5.4 / 304.8)
    assert quad.center_resistance_ohm_per_m == pytest.approx(6.39 / 304.8)
    assert quad.outer_diameter_m == pytest.approx(0.297 * 0.0254)
    assert read("series 6 90 %").shield_resistance_ohm_per_m is None


ORDERS = st.permutations(["series 6", "quad", "copper", "outdoor", "messenger"])


@given(ORDERS)
def test_options_stand_in_any_order(order: list[str]) -> None:
    cable_type = read(" ".join(order))
    assert cable_type.phrase == " ".join(order)
    assert cable_type.defaulted == ()
    assert {jacket.name for jacket in cable_type.jackets} == {"outdoor", "messenger"}


@given(
    st.text(max_size=40) | st.lists(st.sampled_from(["series", "6", "quad", "copper", "%", "60", "foo"])).map(" ".join)
)
def test_no_text_raises(text: str) -> None:
    result = CATALOGUE.cable_type(text)
    assert result.text == text
    if isinstance(result, UnknownWords):
        assert result.message
    else:
        assert read(result.phrase).phrase == result.phrase
