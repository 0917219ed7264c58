"""What is told of tags that name nothing and of ports that are full: where, in which words, and what would do."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from coaxwright.checks import Correction, NotMet

NotMetOf = Callable[..., dict[str, list[NotMet]]]
KNOWN = "plan.reference-known"
USED = "plan.port-single-use"


def cables(*ends: str) -> str:
    """The section of cables, by ``from to``."""
    pairs = [end.split() for end in ends]
    return "cables:\n" + "".join(
        f"  C-{number}: {{from: {one}, to: {other}, type: series 6, length: 2 m}}\n"
        for number, (one, other) in enumerate(pairs, 1)
    )


@pytest.mark.parametrize(
    ("text", "steps", "at_key"),
    [
        ("places: {attic: {}}\n" + cables("A B").replace("length: 2 m", "route: [atic: 2 m]"), "route.0.atic", True),
        (
            "places: {attic: {}}\n" + cables("A B").replace("length: 2 m", "route: [attic: {length: 2 m, in: RW-9}]"),
            "route.0.attic.in",
            False,
        ),
        ("devices: {C-1: {kind: splitter, ways: 2, ports: {out-9: {connector: F}}}}\n", "ports.out-9", True),
        ("devices: {C-1: {kind: antenna, mast: {of: NOBODY}}}\n", "mast.of", False),
        ("devices: {C-1: {kind: outlet, serves: [nothing]}}\n", "serves.0", False),
    ],
)
def test_a_tag_that_is_a_key_is_told_at_the_key(not_met_of: NotMetOf, text: str, steps: str, at_key: bool) -> None:
    told = {one.facet: one.at_key for one in not_met_of(KNOWN, text)["C-1"]}
    assert told[steps] is at_key


def test_only_a_word_that_is_near_another_is_mended(not_met_of: NotMetOf) -> None:
    text = "devices: {SP1: {kind: splitter, ways: 2}, TV: {kind: outlet}}\n" + cables("SP11 TV", "SP1 QQQQ")
    told = not_met_of(KNOWN, text)
    assert [one.mend for one in told["C-1"]] == [Correction(("cables", "C-1", "from"), "SP1")]
    assert [one.mend for one in told["C-2"]] == [None]


def test_of_two_words_of_a_type_the_one_that_is_wrong_is_named(worded_of: NotMetOf) -> None:
    ends = "devices: {SP1: {kind: splitter, ways: 2}, TV: {kind: outlet}}\n" + cables("SP1 TV")
    (of_two,) = worded_of(KNOWN, ends.replace("series 6", "series 6 qqqq"))["C-1"]
    assert of_two.values["said"].startswith("the cable type 'series 6 qqqq' is not understood: ")
    (of_one,) = worded_of(KNOWN, ends.replace("series 6", "qqqq"))["C-1"]
    assert not of_one.values["said"].startswith("the cable type")


OWN = """catalogue:
  devices:
    quiet splitter: {like: 2-way splitter, source: data sheet}
    bare antenna: {like: UHF antenna, source: data sheet}
    cold tap: {like: 12 dB 4-output tap, source: data sheet}
    half pad: {like: 3 dB attenuator, source: data sheet}
    one more: {like: 1-output drop amplifier, source: data sheet}
    satellites: {like: 8-output multiswitch, source: data sheet}
"""


@pytest.mark.parametrize(
    ("device", "kind", "made"),
    [
        ("kind: splitter, ways: 3, model: quiet splitter", "a splitter with 3 ways", "a splitter with 2 ways"),
        ("kind: antenna, variant: VHF, model: bare antenna", "a VHF antenna", "a UHF antenna"),
        ("kind: outlet, model: cold tap", "an outlet", "a tap of 12 dB with 4 outputs"),
        (
            "kind: tap, value: 12.5 dB, outputs: 2, model: half pad",
            "a tap of 12.5 dB with 2 outputs",
            "an attenuator of 3 dB",
        ),
        ("kind: outlet, model: one more", "an outlet", "a drop amplifier with 1 output"),
        ("kind: outlet, model: satellites", "an outlet", "a multiswitch with 8 outputs"),
    ],
)
def test_a_device_and_the_model_that_it_is_not_are_told_by_kind_and_size(
    worded_of: NotMetOf, device: str, kind: str, made: str
) -> None:
    (differs,) = worded_of(KNOWN, f"{OWN}devices: {{D: {{{device}}}}}\n")["D"]
    assert differs.case == "model differs"
    assert (differs.values["kind"], differs.values["made"]) == (kind, made)


def test_a_port_that_cannot_be_told_is_told_unless_its_name_is_what_is_wrong(not_met_of: NotMetOf) -> None:
    coupler = "devices: {DC: {kind: directional coupler, value: 9 dB}, TV: {kind: splitter, ways: 2}}\n"
    both = not_met_of(KNOWN, coupler + cables("DC NOWHERE"))["C-1"]
    assert {one.facet: one.case for one in both} == {"to": "unknown", "from": "undecided"}
    assert [one.facet for one in not_met_of(KNOWN, coupler + cables("DC.qqqq TV"))["C-1"]] == ["from"]


@pytest.mark.parametrize(
    ("tags", "known"),
    [
        ("ACEGIKMO", "A, C, E, G, I, K, M or O"),
        ("ACEGIKMOQ", "one of the 9 devices"),
    ],
)
def test_as_many_tags_are_listed_as_can_be_read(worded_of: NotMetOf, tags: str, known: str) -> None:
    text = "devices:\n" + "".join(f"  {tag}: {{kind: outlet}}\n" for tag in tags) + cables("zzzz A")
    assert [one.values["known"] for one in worded_of(KNOWN, text)["C-1"]] == [known]


@pytest.mark.parametrize(
    ("number", "ordinal"),
    [
        *((3, "3rd"), (4, "4th"), (11, "11th"), (12, "12th"), (13, "13th"), (21, "21st"), (22, "22nd"), (23, "23rd")),
        *((30, "30th"), (101, "101st"), (111, "111th"), (112, "112th"), (113, "113th")),
    ],
)
def test_which_cable_is_one_too_many_is_told_as_it_is_spoken(worded_of: NotMetOf, number: int, ordinal: str) -> None:
    text = "devices:\n  SP1: {kind: splitter, ways: 2}\n"
    text += "".join(f"  TV-{one}: {{kind: outlet}}\n" for one in range(number))
    (told,) = worded_of(USED, text + cables(*(f"SP1 TV-{one}" for one in range(number))))["SP1"]
    assert told.values["ordinal"] == ordinal
    assert len(told.related) == number - 3  # all that find no port but the first, where the finding stands


SETS = "  A: {kind: outlet}\n  B: {kind: outlet}\n  C: {kind: outlet}\n  S1: {kind: splitter, ways: 2}\n"
SETS += "  S2: {kind: splitter, ways: 2}\n"


@pytest.mark.parametrize(
    ("device", "joined", "larger"),
    [
        ("{kind: splitter, ways: 2}", ("X A", "X B", "X C"), "a 3-way splitter"),
        ("{kind: tap, outputs: 1, value: 12 dB}", ("X A", "X B"), "a 12 dB 2-output tap"),
        ("{kind: drop amplifier, outputs: 1}", ("X A", "X B", "X C"), "a 4-output drop amplifier"),
        ("{kind: splitter, ways: 2}", ("S1 X", "S2 X", "X A"), None),  # none has more inputs
        # a larger tap has one way through as well, which is what both want
        ("{kind: tap, outputs: 1, value: 12 dB}", ("X.tap A", "X S1", "X S2"), None),
        ("{kind: ground block}", ("S1 X", "X A", "X B"), None),
    ],
)
def test_a_larger_device_is_offered_where_it_has_more_of_the_ports_wanted(
    worded_of: NotMetOf, device: str, joined: tuple[str, ...], larger: str | None
) -> None:
    (told,) = worded_of(USED, f"devices:\n  X: {device}\n{SETS}" + cables(*joined))["X"]
    assert told.values.get("larger") == larger
    assert told.case == ("full" if larger is None else "larger made")


def test_no_multiswitch_has_more_inputs_for_a_polarization(not_met_of: NotMetOf) -> None:
    inputs = ("vertical-low", "vertical-high", "horizontal-low", "horizontal-high", "terrestrial")
    lnbs = "".join(f"  L{number}: {{kind: antenna}}\n" for number in range(6))
    text = f"devices:\n  MS: {{kind: multiswitch, outputs: 4}}\n{lnbs}"
    text += cables(*(f"L{number} MS.{name}" for number, name in enumerate(inputs)), "L5 MS")
    (told,) = not_met_of(USED, text)["MS"]
    assert told.case == "full"
