"""Which pair of stations is told, where two services overlap, and at which joint an aerial gets into the drop."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from asking import worded

from coaxwright.checks import DoesNotApply, NotMet, Verdict

NotMetOf = Callable[..., dict[str, list[NotMet]]]
VerdictsOf = Callable[..., dict[str, list[Verdict]]]
LOSS, OVERLAP, BACKFEED, BANDS = (
    "indata.path-loss",
    "service.band-overlap",
    "service.no-backfeed",
    "satellite.user-band",
)
DATA = "services: {data: {kind: in-home data, from: A}}\n"
SPLITTER = "kind: splitter, ways: 2, variant: in-home data"


def cables(*ends: str) -> str:
    """Cables by their ends and length: ``S A 9 m``."""
    parts = (end.split(maxsplit=2) for end in ends)
    return "cables:\n" + "".join(
        f"  C-{number}: {{from: {one}, to: {other}, type: series 6, length: {length}}}\n"
        for number, (one, other, length) in enumerate(parts, 1)
    )


def stations(*tags: str) -> str:
    return "".join(f"  {tag}: {{kind: in-home data adapter}}\n" for tag in tags)


def test_the_two_stations_furthest_apart_are_told(not_met_of: NotMetOf) -> None:
    """A is beside the first splitter; B and E hang on the second, which parts its outputs, on the longest cables."""
    text = DATA + "devices:\n" + stations("A", "B", "E") + f"  S: {{{SPLITTER}}}\n  T: {{{SPLITTER}}}\n"
    text += cables("S A 1 m", "S T.in 1 m", "T B 250 m", "T E 260 m")
    (told,) = not_met_of(LOSS, text)["data"]
    assert (told.values["one"], told.values["other"]) == ("B", "E")
    assert told.values["others"] == 2
    (told,) = not_met_of(LOSS, text.replace("length: 250 m", "length: 1 m"))["data"]
    assert told.values["others"] == 1


APART = """\
catalogue:
  devices:
    bench splitter:
      like: 2-way splitter
      paths:
        - {{from: in, to: out, band: 5 MHz to 1675 MHz, low: {low} dB, nominal: {nominal} dB, high: {high} dB}}
"""


@pytest.mark.parametrize(
    ("nominal", "case", "over", "decided_by"),
    [
        (50, None, 0, ""),  # the planned loss is 50 dB, the greatest one that is bridged 60 dB
        (50.5, "more than planned", 0.5, "planned"),
        (60, "more than planned", 10, "planned"),
        (61, "beyond reach", 1, "most"),
    ],
)
def test_a_loss_that_is_just_bridged_is_not_beyond_reach(
    not_met_of: NotMetOf, nominal: float, case: str | None, over: float, decided_by: str
) -> None:
    text = APART.format(low=nominal - 2, nominal=nominal, high=nominal + 3) + DATA + "devices:\n" + stations("A", "B")
    text += "  S: {kind: splitter, ways: 2, model: bench splitter}\n" + cables("A S.in 0 m", "S.out-1 B 0 m")
    told = not_met_of(LOSS, text).get("data", [])
    assert [one.case for one in told] == ([case] if case is not None else [])
    for one in told:
        assert one.cites == ((decided_by,),)
        assert one.excess == pytest.approx(over)
        assert worded("{spread}", one, LOSS) == f"{nominal - 2:g} dB to {nominal + 3:g} dB"


def test_each_part_that_parts_stations_is_told_with_a_pair_of_its_own(not_met_of: NotMetOf) -> None:
    text = DATA + "devices:\n" + stations("A", "B", "E") + f"  S: {{{SPLITTER}}}\n  T: {{{SPLITTER}}}\n"
    text += "  P: {kind: drop amplifier, outputs: 1}\n  Q: {kind: drop amplifier, outputs: 1}\n"
    text += cables("A S.in 1 m", "S P.in 1 m", "P B 1 m", "S Q.in 1 m", "Q E 1 m")
    told = {one.facet: {one.values["one"], one.values["other"]} for one in not_met_of(LOSS, text)["data"]}
    assert set(told) == {"P", "Q"}
    assert "B" in told["P"]
    assert "E" in told["Q"]


def two(one: str, other: str) -> str:
    """Two services of two aerials over a splitter to one outlet."""
    return (
        f"services:\n  one: {{kind: terrestrial TV, from: A, {one}}}\n"
        f"  other: {{kind: terrestrial TV, from: B, {other}}}\n"
        "devices:\n  A: {kind: antenna}\n  B: {kind: antenna}\n  S: {kind: splitter, ways: 2}\n"
        "  X: {kind: outlet, serves: [one, other]}\n" + cables("A.out S.out-1 9 m", "B.out S.out-2 9 m", "S.in X 9 m")
    )


@pytest.mark.parametrize(
    ("one", "other", "overlap", "excess_hz"),
    [
        ("down: {band: 470 to 700 MHz}", "down: {band: 600 to 900 MHz}", "100 MHz, from 600 MHz to 700 MHz", 100e6),
        (
            "down: {band: 470 to 700.12345 MHz}",
            "down: {band: 600 to 900 MHz}",
            "100.123 MHz, from 600 MHz to 700.123 MHz",
            100.12345e6,
        ),
        (
            'channels: [{name: "1", frequency: 500 MHz, width: 8 MHz}]',
            "down: {band: 504 to 900 MHz}",
            "the channel at 504 MHz",
            0,
        ),
    ],
)
def test_how_much_two_services_overlap(
    worded_of: NotMetOf, one: str, other: str, overlap: str, excess_hz: float
) -> None:
    ((told,),) = worded_of(OVERLAP, two(one, other)).values()
    assert told.values["overlap"] == overlap
    assert told.excess == pytest.approx(excess_hz)


def test_in_home_data_is_to_stay_below_the_lowest_frequency_that_both_are_on(worded_of: NotMetOf) -> None:
    """Broadband is on 5 to 204 MHz and 258 to 1002 MHz, the data on 100 to 600 MHz."""
    text = (
        "services:\n"
        "  net: {kind: cable broadband, from: D, down: {band: 258 to 1002 MHz}, up: {band: 5 to 204 MHz}}\n"
        "  data: {kind: in-home data, from: M, down: {band: 100 to 600 MHz}}\n"
        "devices:\n  D: {kind: coax drop}\n  S: {kind: splitter, ways: 2}\n"
        "  M: {kind: cable modem, serves: [net, data]}\n  N: {kind: outlet, serves: [net, data]}\n"
    )
    text += cables("D S.in 9 m", "S M 9 m", "S N 9 m")
    ((told,),) = worded_of(OVERLAP, text).values()
    assert (told.case, told.values["below"]) == ("in-home data and broadband", "100 MHz")


DISH = """\
services:
  net: {kind: cable broadband, from: D, down: {band: 54 to 1002 MHz}}
  sat: {kind: satellite IF, from: DISH, down: {band: 950 to 2150 MHz}}
devices:
  D: {kind: coax drop}
  DISH: {kind: dish}
  L: {kind: LNB, outputs: 1, on: DISH}
  S: {kind: splitter, ways: 2}
  X: {kind: outlet, serves: [net, sat]}
"""


def test_a_converter_of_a_dish_that_feeds_into_the_drop_is_involved(not_met_of: NotMetOf) -> None:
    text = DISH + cables("D S.in 9 m", "L.out S.out-1 9 m", "S.out-2 X 9 m")
    assert [verdict.involved for (verdict,) in not_met_of(OVERLAP, text).values()] == [(("devices", "L"),)]


def test_what_something_else_feeds_into_the_drop_is_not_involved_in_an_overlap(not_met_of: NotMetOf) -> None:
    text = two("down: {band: 470 to 700 MHz}", "down: {band: 600 to 900 MHz}").replace(
        "devices:\n", "devices:\n  D: {kind: coax drop}\n  M: {kind: modulator}\n  T: {kind: splitter, ways: 2}\n"
    ) + "".join(
        f"  D-{number}: {{from: {one}, to: {other}, type: series 6, length: 9 m}}\n"
        for number, (one, other) in enumerate((("D", "T.in"), ("M.out", "T.out-1")))
    )
    assert [verdict.involved for (verdict,) in not_met_of(OVERLAP, text).values()] == [()]


@pytest.mark.parametrize(
    ("joined", "joint"),
    [
        (("D G.in 9 m", "G.out S.in 9 m", "M.out S.out-1 9 m"), "S"),  # a ground block joins nothing
        (("M.out G.out 9 m", "G.in D 9 m"), "C-1"),
    ],
)
def test_where_a_generator_gets_into_the_drop(worded_of: NotMetOf, joined: tuple[str, ...], joint: str) -> None:
    text = (
        "services: {film: {kind: terrestrial TV, from: M, channels: [{name: '1', frequency: 500 MHz}]}}\n"
        "devices:\n  D: {kind: coax drop}\n  G: {kind: ground block}\n  S: {kind: splitter, ways: 2}\n"
        "  M: {kind: modulator}\n"
    )
    (told,) = worded_of(BACKFEED, text + cables(*joined))["M"]
    assert (told.values["joint"], told.values["frequencies"]) == (joint, "500 MHz")


def receivers(*said: str) -> str:
    """A converter with one output, and four receivers on splitters behind it."""
    devices = "".join(f"  R-{number}: {{{one}, serves: [sat]}}\n" for number, one in enumerate(said, 1))
    devices += "".join(f"  {tag}: {{kind: splitter, ways: 2, variant: satellite}}\n" for tag in "SPQ")
    return (
        "services: {sat: {kind: satellite IF, from: L, down: {band: 950 to 2150 MHz}}}\n"
        f"devices:\n  L: {{kind: LNB, outputs: 1}}\n{devices}"
        + cables(
            "L S.in 9 m", "S P.in 9 m", "S Q.in 9 m", *(f"{to} 9 m" for to in ("P R-1", "P R-2", "Q R-3", "Q R-4"))
        )
    )


def test_one_receiver_with_a_user_band_is_enough_to_ask_the_others_for_theirs(verdicts_of: VerdictsOf) -> None:
    plain = "kind: satellite receiver"
    said = verdicts_of(BANDS, receivers(plain, f"{plain}, user band: 1210 MHz", plain, "kind: outlet"))
    assert {tag: [type(one).__name__ for one in told] for tag, told in said.items()} == {
        "R-1": ["CannotJudge"],
        "R-2": [],
        "R-3": ["CannotJudge"],
        "R-4": ["DoesNotApply"],
    }
    assert said["R-4"] == [DoesNotApply("no receiver")]


def test_the_bands_that_are_taken_are_told(not_met_of: NotMetOf) -> None:
    plain = "kind: satellite receiver"
    bands = (f"{plain}, user band: {mhz} MHz" for mhz in (1210, 1420, 1210))
    (told,) = not_met_of(BANDS, receivers(*bands, plain))["R-3"]
    assert (told.values["others"], told.values["taken"]) == (["R-1"], [1210e6, 1420e6])
