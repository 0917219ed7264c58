"""Who waits for a cable, for which one, and where it is best run from."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from coaxwright.checks import NotMet, Verdict

FED = "plan.outlet-fed"
NotMetOf = Callable[..., dict[str, list[NotMet]]]
VerdictsOf = Callable[..., dict[str, list[Verdict]]]
HOUSE = """\
places: {{closet: {{building: house}}, den: {{building: house}}, attic: {{building: house}}, loft: {{building: barn}}}}
services:
  net: {{kind: cable broadband, from: DROP, down: {{band: 54 to 1002 MHz}}}}
  air: {{kind: terrestrial TV, from: ANT, down: {{band: 470 to 602 MHz}}}}
devices:
  DROP: {{kind: coax drop, place: closet}}
  ANT: {{kind: antenna, place: attic}}
{devices}
{cables}
"""


def house(devices: str, *joined: str) -> str:
    """A house with these devices, and with cables between those that are named in pairs."""
    cables = [
        f"  C-{number}: {{from: {one}, to: {other}, type: series 6, length: 9 m}}"
        for number, (one, other) in enumerate((pair.split() for pair in joined), 1)
    ]
    return HOUSE.format(devices=devices, cables="\n".join(["cables:", *cables]) if cables else "")


def test_a_set_with_a_cable_of_its_own_is_not_plugged_into_the_outlet_beside_it(worded_of: NotMetOf) -> None:
    devices = """\
  WALL: {kind: outlet, serves: [net], place: den}
  SET: {kind: cable modem, serves: [net], place: den}
  SP: {kind: splitter, ways: 2, place: attic}"""
    assert set(worded_of(FED, house(devices, "DROP WALL"))) == set()
    assert set(worded_of(FED, house(devices, "DROP WALL", "SP SET"))) == {"SET"}


def test_things_of_no_place_stand_beside_nothing(worded_of: NotMetOf) -> None:
    devices = "  WALL: {kind: outlet, serves: [net]}\n  SET: {kind: cable modem, serves: [net]}"
    assert set(worded_of(FED, house(devices, "DROP WALL"))) == {"SET"}


def test_a_band_that_is_stopped_and_a_cable_that_is_missing_are_two_findings(worded_of: NotMetOf) -> None:
    devices = "  LP: {kind: filter, variant: low-pass}\n  TV: {kind: outlet, serves: [net, air]}"
    text = house(devices, "DROP LP", "LP TV").replace("54 to 1002 MHz", "1200 to 1300 MHz")
    stopped, missing = worded_of(FED, text)["TV"]
    assert (stopped.case, stopped.facet, stopped.values["services"], stopped.values["reached"]) == (
        "stopped",
        "net",
        "net",
        "LP",
    )
    assert (missing.case, missing.facet, missing.values["missing"]) == ("free port", "", "air does not reach")


def test_only_what_wants_a_service_waits_for_it(worded_of: NotMetOf) -> None:
    devices = """\
  SP: {kind: splitter, ways: 3}
  A-END: {kind: terminator, on: SP.out-2}
  B-OLD: {kind: outlet, serves: [net], state: abandoned}
  TV: {kind: outlet, serves: [net]}"""
    (told,) = worded_of(FED, house(devices, "SP.out-1 TV", "SP.out-3 B-OLD"))["TV"]
    assert told.values["outlets"] == "TV"


def test_what_has_to_be_fed_is_the_first_of_what_hangs_together(worded_of: NotMetOf) -> None:
    devices = """\
  Z: {kind: splitter, ways: 2}
  A: {kind: splitter, ways: 2}
  TV: {kind: outlet, serves: [net]}"""
    (told,) = worded_of(FED, house(devices, "Z A", "A TV"))["TV"]
    assert told.values["why"] == "nothing feeds Z"


@pytest.mark.parametrize(
    ("devices", "joined", "free"),
    [
        ("", [], "DROP"),  # it has no other port
        ("  GB: {kind: ground block, place: closet}", ["DROP GB"], "GB.out"),
        # what stands nowhere is further than what stands in the same building
        (
            "  A: {kind: splitter, ways: 2}\n  B: {kind: splitter, ways: 2, place: closet}\n"
            "  S: {kind: splitter, ways: 2, place: loft}",
            ["DROP S", "S A", "S B"],
            "B.out-1",
        ),
    ],
)
def test_where_a_cable_is_best_run_from(worded_of: NotMetOf, devices: str, joined: list[str], free: str) -> None:
    text = house("  TV: {kind: outlet, serves: [net], place: den}\n" + devices, *joined)
    (told,) = worded_of(FED, text)["TV"]
    assert (told.case, told.values["free"]) == ("free port", free)


def test_the_nearest_of_the_splitters_that_are_full_is_exchanged(worded_of: NotMetOf) -> None:
    devices = "  TV: {kind: outlet, serves: [net], place: den}\n"
    devices += "".join(f"  O-{number}: {{kind: outlet, serves: [net]}}\n" for number in range(4))
    splitters = "".join(
        f"  {tag}: {{kind: splitter, ways: 2, place: {place}}}\n"
        for tag, place in (("S", "loft"), ("A", "closet"), ("B", "den"))
    )
    text = house(devices + splitters, "DROP S", "S A", "S B", "A O-0", "A O-1", "B O-2", "B O-3")
    (told,) = worded_of(FED, text)["TV"]
    assert (told.case, told.values["full"], told.values["larger"]) == ("larger made", "B", "3-way splitter")
