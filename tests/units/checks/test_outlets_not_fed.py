"""Who waits for a cable, for which one, and where it is best run from."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from coaxwright.analysis import Analysis
from coaxwright.checks import CheckContext, NotMet
from coaxwright.design import understand
from coaxwright.network import build_network
from coaxwright.rules import combine, shipped_registry
from coaxwright.source import read_text

FED = "plan.outlet-fed"
HEAD = "coaxwright: 1\ntitle: Bench (invented)\nbasis: {rulesets: [trade 1]}\n"
NotMetOf = Callable[..., dict[str, list[NotMet]]]
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


BEHIND = "  SP: {kind: splitter, ways: 2}\n  TV: {kind: outlet, serves: [net]}\n  LIV: {kind: outlet, serves: [net]}"


def involved_in(text: str, outlet: str = "TV") -> list[str]:
    (verdict,) = not_met_in(text)[outlet]
    return list(dict.fromkeys(str(path[1]) for path in verdict.involved))


def not_met_in(text: str) -> dict[str, list[NotMet]]:
    network = build_network(understand(read_text(HEAD + text, "x")))
    bound = combine(["trade 1"], shipped_registry()).rules[FED]
    context = CheckContext(network, Analysis(network))
    found = {node.tag: list(bound.check.judge(node, context, bound.limits)) for node in network.devices.values()}
    return {tag: [said for said in every if isinstance(said, NotMet)] for tag, every in found.items()}


@pytest.mark.parametrize(
    ("devices", "joined", "involved"),
    [
        # alone: any loose end may be the one that should come here, unless another device is meant
        ("  TV: {kind: outlet, serves: [net]}", ["DROP NOWHERE"], ["C-1"]),
        ("  TV: {kind: outlet, serves: [net]}", ["DROP TVV"], ["C-1"]),
        ("  TV: {kind: outlet, serves: [net]}", ["DROP ANTT"], []),
        ("  TV: {kind: outlet, serves: [net]}", ["DROP ANT"], []),
        # hanging together with others: a loose end of its own, and one that is meant for one of them
        (BEHIND, ["SP TV", "SP LIV", "DROP NOWHERE"], []),
        (BEHIND, ["SP TV", "SP LIV", "DROP SPP"], ["C-3"]),
        (BEHIND, ["SP TV", "SP LIV", "NOWHERE SP"], ["C-3", "SP"]),
        # a port that two cables want, and a device that is not made
        (BEHIND, ["SP.out-1 TV", "SP.out-1 LIV"], ["C-2", "SP", "LIV"]),
        (BEHIND.replace("ways: 2", "ways: 31"), ["SP TV", "SP LIV"], ["SP"]),
    ],
)
def test_what_is_not_as_it_is_written_may_keep_a_service_away(
    devices: str, joined: list[str], involved: list[str]
) -> None:
    found = involved_in(house(devices, *joined), "LIV" if "SP.out-1 LIV" in joined else "TV")
    assert sorted(found) == sorted(involved)


def test_a_loose_end_of_an_abandoned_cable_keeps_nothing_away() -> None:
    text = house("  TV: {kind: outlet, serves: [net]}", "TV NOWHERE")
    assert involved_in(text) == ["C-1", "TV"]
    assert involved_in(text.replace("length: 9 m", "length: 9 m, state: abandoned")) == []


def test_the_loose_end_comes_before_what_else_is_wrong() -> None:
    text = house(BEHIND, "SP.out-1 TV", "SP.out-1 LIV", "NOWHERE SP")
    assert involved_in(text, "LIV")[0] == "C-3"


def test_outlets_behind_one_device_or_one_missing_cable_are_a_group_and_one_alone_is_none() -> None:
    filtered = "  LP: {kind: filter, variant: low-pass}\n" + BEHIND.replace("serves: [net]", "serves: [air]")
    one = house(filtered, "ANT LP", "LP SP", "SP TV").replace("470 to 602 MHz", "1300 to 1400 MHz")
    (stopped,) = not_met_in(one)["TV"]
    assert (stopped.case, stopped.group, stopped.values["outlets"]) == ("stopped", (), ("TV",))
    two = house(filtered, "ANT LP", "LP SP", "SP TV", "SP LIV").replace("470 to 602 MHz", "1300 to 1400 MHz")
    found = not_met_in(two)
    assert [said.group for tag in ("TV", "LIV") for said in found[tag]] == [("stopped at", "LP")] * 2
    assert found["TV"][0].values["outlets"] == ("LIV", "TV")
    alone = not_met_in(house(BEHIND, "SP TV"))
    assert [said.group for said in alone["TV"]] == [()]
    waiting = not_met_in(house(BEHIND, "SP TV", "SP LIV"))
    assert [said.group for tag in ("TV", "LIV") for said in waiting[tag]] == [("fed over", "SP")] * 2


def test_no_splitter_larger_than_the_largest_is_offered(worded_of: NotMetOf) -> None:
    outlets = "".join(f"  O-{number}: {{kind: outlet, serves: [net]}}\n" for number in range(8))
    devices = f"  TV: {{kind: outlet, serves: [net]}}\n  SP: {{kind: splitter, ways: 8}}\n{outlets}"
    (verdict,) = worded_of(FED, house(devices, "DROP SP", *(f"SP O-{number}" for number in range(8))))["TV"]
    assert verdict.case == "none free"


def test_a_loose_end_elsewhere_is_involved_by_its_cable() -> None:
    (verdict,) = not_met_in(house("  TV: {kind: outlet, serves: [net]}", "DROP NOWHERE"))["TV"]
    assert verdict.involved == (("cables", "C-1"),)
