"""Which splitter is the distribution point of a dwelling, what is free at it, and which dwelling a splitter is of."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from coaxwright.checks import NotMet, Verdict

RUNS = "plan.home-run"
NotMetOf = Callable[..., dict[str, list[NotMet]]]
VerdictsOf = Callable[..., dict[str, list[Verdict]]]
PLACES = "places: {cellar: {}, hall: {}, kitchen: {}, living: {}, bedroom: {}, study: {}}\n"
NET = "services: {net: {kind: cable broadband, from: DROP, down: {band: 54 to 1002 MHz}}}\n"
OUTLETS = """\
  KIT: {kind: outlet, place: kitchen}
  HALL: {kind: outlet, place: hall}
  LIV: {kind: outlet, place: living}
  BED: {kind: outlet, place: bedroom}
  STUDY: {kind: outlet, place: study}
"""


def home(splitters: str, joined: str, places: str = PLACES) -> str:
    """A home of five outlets; ``joined`` names the ends of its cables, such as ``DROP SP1, SP1 KIT``."""
    used = joined.replace(",", " ").split()
    outlets = "".join(line for line in OUTLETS.splitlines(keepends=True) if line.split(":")[0].strip() in used)
    cables = "".join(
        f"  C-{number}: {{from: {one}, to: {other}, type: series 6, length: 9 m}}\n"
        for number, (one, other) in enumerate((pair.split() for pair in joined.split(", ")), 1)
    )
    return f"{places}{NET}devices:\n  DROP: {{kind: coax drop}}\n{splitters}{outlets}cables:\n{cables}"


BESIDE = "  SP2: {kind: splitter, ways: 2, place: living}\n"


def test_as_many_free_outputs_as_cables_are_enough(worded_of: NotMetOf) -> None:
    text = home(
        "  SP1: {kind: splitter, ways: 3, place: cellar}\n" + BESIDE, "DROP SP1, SP1 KIT, SP1 SP2, SP2 LIV, SP2 BED"
    )
    assert [one.case for one in worded_of(RUNS, text)["SP2"]] == ["free outputs"]


def test_a_larger_splitter_has_what_is_missing_and_no_more(worded_of: NotMetOf) -> None:
    """Of two cables one finds the free output of the 3-way splitter: four are asked for."""
    text = home(
        "  SP1: {kind: splitter, ways: 3, place: cellar}\n  SP2: {kind: splitter, ways: 3, place: living}\n",
        "DROP SP1, SP1 KIT, KIT.out HALL, SP1 SP2, SP2 LIV, SP2 BED, SP2 STUDY",
    ).replace("KIT: {kind: outlet,", "KIT: {kind: outlet, variant: loop-through, value: 10 dB,")
    (told,) = worded_of(RUNS, text)["SP2"]
    assert (told.case, told.values["free"], told.values["larger"]) == (
        "larger made",
        "one free output",
        "4-way splitter",
    )


def test_a_splitter_of_no_place_that_feeds_one_outlet_hands_nothing_on(verdicts_of: VerdictsOf) -> None:
    text = home(
        "  SP1: {kind: splitter, ways: 2, place: cellar}\n  SP2: {kind: splitter, ways: 2}\n",
        "DROP SP1, SP1 KIT, SP1 SP2, SP2 LIV",
    )
    assert verdicts_of(RUNS, text)["SP2"] == []


def test_the_splitter_with_most_outlets_of_its_own_is_the_distribution_point(worded_of: NotMetOf) -> None:
    first = "  SP0: {kind: splitter, ways: 2, place: cellar}\n  SP1: {kind: splitter, ways: 4, place: hall}\n"
    text = home(first + BESIDE, "DROP SP0, SP0 SP1, SP1 KIT, SP1 HALL, SP1 SP2, SP2 LIV, SP2 BED")
    assert [one.values["hub"] for one in worded_of(RUNS, text)["SP2"]] == ["SP1"]


def test_what_feeds_sets_alone_is_no_distribution_point(worded_of: NotMetOf) -> None:
    first = "  SP1: {kind: splitter, ways: 2, place: cellar}\n  M: {kind: cable modem, place: cellar}\n"
    assert worded_of(RUNS, home(first + BESIDE, "DROP SP1, SP1 M, SP1 SP2, SP2 LIV, SP2 BED")) == {}


HEAD = "coaxwright: 1\ntitle: Bench (invented)\nbasis: {rulesets: [trade 1], occupancy: multifamily dwelling}\n"


def test_a_splitter_of_no_place_is_of_the_dwelling_of_the_other(worded_of: NotMetOf) -> None:
    """The cottage beside the block is a house of one family."""
    places = "buildings: {block: {}, cottage: {occupancy: one-family dwelling}}\n" + PLACES.replace(
        "{}", "{building: cottage}"
    )
    text = home("  SP1: {kind: splitter, ways: 3}\n" + BESIDE, "DROP SP1, SP1 KIT, SP1 SP2, SP2 LIV, SP2 BED", places)
    (told,) = worded_of(RUNS, text, HEAD)["SP2"]
    assert (told.values["hub"], told.values["hub_place"]) == ("SP1", "no place named")
    assert worded_of(RUNS, text.replace("one-family dwelling", "commercial"), HEAD) == {}


UNITS = """\
places: {cellar: {}}
services: {net: {kind: cable broadband, from: DROP, down: {band: 54 to 1002 MHz}}}
devices:
  DROP: {kind: coax drop, place: cellar}
  S: {kind: splitter, ways: 4, place: cellar}
  O-1: {kind: outlet, place: cellar}
  O-2: {kind: outlet, place: cellar}
cables:
  R-1: {from: DROP, to: S, type: series 6, length: 9 m}
  R-2: {from: S, to: O-1, type: series 6, length: 9 m}
  R-3: {from: S, to: O-2, type: series 6, length: 9 m}
typical:
  flat:
    places: {hall: {}, living: {}, bedroom: {}}
    devices:
      P: {kind: splitter, ways: 3, place: hall}
      KIT: {kind: outlet, place: hall}
      LIV: {kind: outlet, place: living}
      BED: {kind: outlet, place: bedroom}
    cables:
      D-1: {from: S, to: P, type: series 6, length: 9 m}
      D-2: {from: P, to: KIT, type: series 6, length: 9 m}
      D-3: {from: P, to: LIV, type: series 6, length: 9 m}
units: {1 to 2: {like: flat}}
"""


@pytest.mark.parametrize("occupancy", ["multifamily dwelling", "one-family dwelling"])
def test_each_unit_is_a_dwelling_of_its_own(worded_of: NotMetOf, occupancy: str) -> None:
    """The splitter of the cellar is nobody's distribution point, though it has outlets of its own."""
    assert worded_of(RUNS, UNITS, HEAD.replace("multifamily dwelling", occupancy)) == {}


def test_within_one_unit_one_splitter_is_the_distribution_point(worded_of: NotMetOf) -> None:
    text = UNITS.replace("D-3: {from: P,", "D-4: {from: P, to: Q, type: series 6, length: 9 m}\n      D-3: {from: Q,")
    text = text.replace(
        "cables:\n      D-1", "  Q: {kind: splitter, ways: 2, place: living}\n    cables:\n      D-1"
    ).replace("units:", "      D-5: {from: Q, to: BED, type: series 6, length: 9 m}\nunits:")
    assert {tag: [one.values["hub"] for one in said] for tag, said in worded_of(RUNS, text, HEAD).items()} == {
        "1/Q": ["1/P"],
        "2/Q": ["2/P"],
    }


def test_no_flat_is_wired_from_the_splitter_of_another(worded_of: NotMetOf) -> None:
    """The second flat hangs on a splitter of the first, beside an outlet and with one behind it."""
    text = UNITS.replace("      D-1: {from: S, to: P, type: series 6, length: 9 m}\n", "").replace(
        "typical:",
        "  R-4: {from: S, to: 1/P, type: series 6, length: 9 m}\n"
        "  R-5: {from: 1/P, to: 2/P, type: series 6, length: 9 m}\ntypical:",
    )
    assert worded_of(RUNS, text, HEAD) == {}
