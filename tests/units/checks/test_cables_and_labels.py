"""Cables that end at nothing, that close a loop, or whose labels could be taken for one another."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from coaxwright.checks import CannotJudge, NotMet, Verdict
from coaxwright.network import Unknown

NotMetOf = Callable[..., dict[str, list[NotMet]]]
VerdictsOf = Callable[..., dict[str, list[Verdict]]]
AIR = "services: {air: {kind: terrestrial TV, from: ANT, down: {band: 470 to 602 MHz}}}\n"


def cable(number: int, one: str, other: str, more: str = "") -> str:
    return f"  C-{number}: {{from: {one}, to: {other}, type: series 6, length: 2 m{more}}}\n"


def test_a_device_turned_round_beside_a_port_taken_twice_waits_for_that(verdicts_of: VerdictsOf) -> None:
    text = (
        AIR + "devices:\n  ANT: {kind: antenna}\n  AMP: {kind: drop amplifier, outputs: 1}\n"
        "  OUT: {kind: outlet, serves: [air]}\n  SP: {kind: splitter, ways: 2}\ncables:\n"
    )
    turned = text + cable(1, "ANT", "AMP.out") + cable(2, "AMP.in", "OUT")
    assert [type(one) for one in verdicts_of("plan.direction-kept", turned)["AMP"]] == [NotMet]
    (told,) = verdicts_of("plan.direction-kept", turned + cable(3, "SP", "OUT.in"))["AMP"]
    assert told == CannotJudge(Unknown("port conflict", ("cables", "C-2", "to"), {"device": "OUT"}))


def test_the_other_cables_of_a_loop_are_told_with_the_one_that_closes_it(worded_of: NotMetOf) -> None:
    text = AIR + "devices:\n  ANT: {kind: antenna}\n  A: {kind: splitter, ways: 2}\n  B: {kind: splitter, ways: 2}\n"
    text += "cables:\n" + cable(1, "ANT", "A") + cable(2, "A.out-1", "B.out-1") + cable(3, "A.out-2", "B.out-2")
    ((tag, (told,)),) = worded_of("plan.loop-free", text).items()
    assert {tag, *(path[1] for path, _ in told.related)} == {"C-2", "C-3"}
    assert len(told.related) == 1


HOUSE = """\
places: {closet: {}, den: {}}
devices:
  SP1: {kind: splitter, ways: 2, place: closet}
  SP2: {kind: splitter, ways: 2, place: closet}
  SP3: {kind: splitter, ways: 2}
  SP4: {kind: splitter, ways: 2}
  A: {kind: outlet, place: den}
  B: {kind: outlet, place: den}
  C: {kind: outlet}
  D: {kind: outlet}
cables:
"""


def labeled(first: tuple[str, str, str], second: tuple[str, str, str]) -> str:
    """Two cables with their ends and labels."""
    return HOUSE + "".join(
        cable(number, one, other, f", labels: [{labels}]")
        for number, (one, other, labels) in enumerate((first, second), 1)
    )


@pytest.mark.parametrize(
    ("first", "second", "is_told"),
    [
        # at one device, and at two devices of one place
        (("SP1", "A", "X, P"), ("SP1", "C", "X, Q"), True),
        (("SP1", "A", "X, P"), ("SP2", "C", "X, Q"), True),
        (("SP1", "A", "P, X"), ("SP3", "B", "Q, X"), True),
        # at several places, or nobody knows at which
        (("SP1", "C", "X, P"), ("SP3", "D", "X, Q"), False),
        (("SP3", "A", "X, P"), ("SP4", "B", "X, Q"), False),
        (("SP1", "C", "X, P"), ("SP2", "D", "Q, X"), False),
        # both ends bear it, and one pair of them is at one place
        (("SP1", "C", "X, X"), ("SP2", "D", "X, X"), True),
        # one label names the whole cable, wherever it is
        (("SP3", "A", "X"), ("SP4", "C", "X, Q"), True),
        (("SP3", "A", "X, Q"), ("SP4", "C", "X"), True),
    ],
)
def test_labels_that_could_be_taken_for_one_another(
    worded_of: NotMetOf, first: tuple[str, str, str], second: tuple[str, str, str], is_told: bool
) -> None:
    told = worded_of("plan.label-complete", labeled(first, second))
    assert {tag: [one.facet for one in said] for tag, said in told.items()} == ({"C-2": ["X"]} if is_told else {})


def test_a_pattern_of_which_one_label_is_taken_is_not_followed(worded_of: NotMetOf) -> None:
    text = labeled(("SP1", "A", "C-1/a, C-1/b"), ("SP3", "C", "C-3/a, Z")) + cable(3, "SP4", "D")
    assert [one.values["proposed"] for one in worded_of("plan.label-complete", text)["C-3"]] == ["'C-3'"]


RESERVE = """\
buildings: {{house: {{}}, barn: {{}}}}
places: {{closet: {{building: house}}, den: {{building: house}}, loft: {{building: barn}}}}
devices:
  S: {{kind: {hub}, place: closet}}
  A: {{kind: outlet, place: den}}
  B: {{kind: outlet, place: den}}
  R-1: {{kind: outlet, place: den, state: reserve}}
  R-2: {{kind: outlet, place: den, state: reserve}}
{more}cables:
"""


@pytest.mark.parametrize(
    "more",
    [
        "",
        "  T: {kind: splitter, ways: 2, place: loft}\n",
        "  T: {kind: splitter, ways: 2, place: closet, state: abandoned}\n",
        "  R-0: {kind: outlet, place: loft, state: reserve}\n",
        "  R-3: {kind: combiner, variant: UHF/VHF, place: den, state: reserve}\n",
    ],
)
def test_reserve_is_counted_in_each_building(worded_of: NotMetOf, more: str) -> None:
    text = RESERVE.format(hub="splitter, ways: 2", more=more) + cable(1, "S", "A") + cable(2, "S", "B")
    told = worded_of("plan.spare-capacity", text)
    assert {tag for tag in told if tag in ("R-1", "R-2")} == {"R-1", "R-2"}
    assert {(one.values["spare"], one.values["reserved"]) for one in told["R-1"]} == {
        ("no free outputs", "two outlets")
    }


def test_the_largest_splitter_is_the_one_to_be_exchanged(worded_of: NotMetOf) -> None:
    """Rather than a tap of more outputs, which is made for a trunk."""
    more = "  P: {kind: splitter, ways: 3, place: closet}\n  Q: {kind: tap, outputs: 4, value: 12 dB, place: closet}\n"
    outlets = "".join(f"  O-{number}: {{kind: outlet}}\n" for number in range(8))
    text = RESERVE.format(hub="splitter, ways: 2", more=more + outlets) + cable(1, "S", "A") + cable(2, "S", "B")
    ends = [*(("P", f"O-{number}") for number in range(3)), *(("Q", f"O-{number}") for number in range(3, 7))]
    text += "".join(cable(number, one, other) for number, (one, other) in enumerate(ends, 3))
    assert [one.values["hub"] for one in worded_of("plan.spare-capacity", text)["R-1"]] == ["P"]
