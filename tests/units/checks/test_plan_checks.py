"""The branches of the checks of the topic ``plan`` that no example of a rule shows.

They are those of coaxwright.checks.plan.
"""

from __future__ import annotations

import pytest
from asking import said

from coaxwright.analysis import Analysis
from coaxwright.checks import CannotJudge, CheckContext, DoesNotApply, NotMet, Verdict, all_checks
from coaxwright.design import understand
from coaxwright.network import build_network
from coaxwright.rules import combine, shipped_registry
from coaxwright.rules.phrase_book import reason_text
from coaxwright.rules.wording import faults, fill
from coaxwright.source import read_text

HEAD = "coaxwright: 1\ntitle: Bench (invented)\nbasis: {rulesets: [trade 1]}\n"
HOME = """\
services:
  net: {kind: cable broadband, from: DROP, down: {band: 54 to 1002 MHz}}
  air: {kind: terrestrial TV, from: ANT, down: {band: 470 to 602 MHz}}
places: {closet: {}, den: {}}
devices:
  DROP: {kind: coax drop, place: closet}
  ANT:  {kind: antenna, place: closet}
"""


def verdicts(rule: str, text: str, head: str = HEAD) -> dict[str, list[Verdict]]:
    """What a rule says of each subject, by its tag; nothing where it is met."""
    network = build_network(understand(read_text(head + text, "x")))
    check = all_checks()[f"plan.{rule}"]
    limits = combine(["trade 1"], shipped_registry()).rules[f"plan.{rule}"].limits
    site = CheckContext(network, Analysis(network))
    return {
        check.each.describe(thing).tag: list(check.judge(thing, site, limits)) for thing in check.each.select(network)
    }


def not_met(rule: str, text: str, head: str = HEAD) -> dict[str, NotMet]:
    bound = combine(["trade 1"], shipped_registry()).rules[f"plan.{rule}"]
    found = verdicts(rule, text, head)
    return {tag: said(one, bound) for tag, every in found.items() for one in every if isinstance(one, NotMet)}


def because(rule: str, text: str, tag: str) -> str:
    (verdict,) = verdicts(rule, text)[tag]
    assert isinstance(verdict, DoesNotApply)
    return reason_text(verdict, all_checks()[f"plan.{rule}"])


@pytest.mark.parametrize(
    ("tag", "others", "free"),
    [
        ("C-104", ["C-105"], "C-106"),
        ("C-009", [], "C-010"),
        ("GB", [], "GB-2"),
        ("GB", ["GB-2"], "GB-3"),
        ("R3A", [], "R4A"),
        ("C-104", ["c-105"], "C-106"),
    ],
)
def test_next_free_tag(tag: str, others: list[str], free: str) -> None:
    devices = "".join(f"  {other}: {{kind: outlet}}\n" for other in others)
    text = f"devices:\n  {tag}: {{kind: outlet}}\n{devices}raceways: {{{tag}: {{kind: sleeve}}}}\n"
    found = verdicts("tag-unique", text)[tag]
    (twice,) = [verdict for verdict in found if isinstance(verdict, NotMet)]
    assert (twice.case, twice.values["free"]) == ("twice", free)
    assert (twice.values["kind"], twice.values["other_kind"]) == ("raceway", "device")
    assert not_met("tag-unique", text)[tag].values["other_kind"] == "a device"


def test_a_thing_called_like_the_mast_of_an_antenna() -> None:
    text = "devices:\n  ANT: {kind: antenna, mast: {height: 2 m}}\nraceways: {ANT.mast: {kind: sleeve}}\n"
    assert not_met("tag-unique", text)["ANT.mast"].values["other"] == "the mast of ANT"
    assert not_met("tag-unique", text.replace(", mast: {height: 2 m}", "")) == {}


def test_a_dot_in_a_tag_is_sound_where_the_device_has_no_such_port() -> None:
    assert not_met("tag-unique", "devices:\n  SP1: {kind: splitter, ways: 2}\n  SP1.x: {kind: outlet}\n") == {}


def test_an_outlet_without_named_services_is_content_with_any() -> None:
    text = (
        HOME + "  OUT: {kind: outlet, place: den}\ncables:\n  C-1: {from: DROP, to: OUT, type: series 6, length: 2 m}\n"
    )
    assert not_met("outlet-fed", text) == {}


def test_one_outlet_that_misses_two_services_is_one_finding() -> None:
    text = HOME + "  OUT: {kind: outlet, place: den, serves: [net, air]}\n"
    found = not_met("outlet-fed", text)
    assert set(found) == {"OUT"}
    assert found["OUT"].values["missing"] == "air and net do not reach"


def test_the_nearest_free_output_is_of_the_same_place_first() -> None:
    text = HOME.replace("  ANT:", "  SP9:  {kind: splitter, ways: 2, place: den}\n  ANT:") + (
        "  SP1: {kind: splitter, ways: 4, place: closet}\n"
        "  OUT: {kind: outlet, place: den, serves: [net]}\n"
        "cables:\n"
        "  C-1: {from: DROP, to: SP1, type: series 6, length: 2 m}\n"
        "  C-2: {from: SP1, to: SP9, type: series 6, length: 2 m}\n"
    )
    assert not_met("outlet-fed", text)["OUT"].values["free"] == "SP9.out-1"


def test_of_a_tap_an_outlet_is_offered_a_tap_and_never_the_way_through() -> None:
    text = HOME + (
        "  TAP: {kind: tap, outputs: 2, value: 12 dB, place: closet}\n"
        "  OUT: {kind: outlet, place: den, serves: [net]}\n"
        "cables:\n"
        "  C-1: {from: DROP, to: TAP, type: series 6, length: 2 m}\n"
    )
    assert not_met("outlet-fed", text)["OUT"].values["free"] == "TAP.tap-1"


@pytest.mark.parametrize(
    ("cable", "involved"),
    [
        ("C-1: {from: DROP, to: OTU, type: series 6, length: 2 m}", ["C-1"]),
        ("C-1: {from: DROP, to: XYZ, type: series 6, length: 2 m}", ["C-1"]),
        ("C-1: {from: DROP, to: ANR, type: series 6, length: 2 m}", []),  # the antenna is meant
        ("C-1: {from: SP1, to: OUT, type: series 6, length: 2 m}", ["SP1"]),  # it is not made
        ("C-1: {from: NONE, to: OUT, type: series 6, length: 2 m}", ["C-1", "OUT"]),
    ],
)
def test_what_may_keep_a_service_away_is_involved(cable: str, involved: list[str]) -> None:
    odd = "  SP1: {kind: splitter, ways: 31, place: closet}\n"
    text = HOME + f"{odd}  OUT: {{kind: outlet, place: den, serves: [net]}}\ncables:\n  {cable}\n"
    found = not_met("outlet-fed", text)
    assert set(found) == {"OUT"}
    assert list(dict.fromkeys(path[1] for path in found["OUT"].involved)) == involved


def test_a_band_that_is_stopped_on_the_way_involves_all_from_where_it_stops() -> None:
    text = HOME + (
        "  DIP: {kind: diplexer, variant: TV/satellite, place: closet}\n"
        "  OUT: {kind: outlet, place: den, serves: [air]}\n"
        "cables:\n"
        "  C-1: {from: ANT, to: DIP, type: series 6, length: 2 m}\n"
        "  C-2: {from: DIP.satellite, to: OUT, type: series 6, length: 2 m}\n"
    )
    found = not_met("outlet-fed", text)["OUT"]
    assert (found.case, found.values["reached"], found.values["services"]) == ("stopped", "DIP", "air")
    assert found.involved == (("devices", "DIP"), ("cables", "C-2"), ("devices", "OUT"))


def test_a_service_whose_device_names_nothing_is_another_rules_finding() -> None:
    text = HOME.replace("from: ANT", "from: ANR") + "  OUT: {kind: outlet, place: den, serves: [air]}\n"
    assert not_met("outlet-fed", text) == {}


def test_a_service_without_frequencies_is_followed_by_its_cables() -> None:
    bare = HOME.replace(", down: {band: 54 to 1002 MHz}", "")
    text = bare + (
        "  SP1: {kind: splitter, ways: 2, place: closet}\n"
        "  OUT: {kind: outlet, place: den, serves: [net]}\n"
        "  BED: {kind: outlet, place: den, serves: [net]}\n"
        "cables:\n"
        "  C-1: {from: DROP, to: SP1, type: series 6, length: 2 m}\n"
        "  C-2: {from: SP1, to: OUT, type: series 6, length: 2 m}\n"
    )
    found = not_met("outlet-fed", text)
    assert set(found) == {"BED"}
    assert found["BED"].values["free"] == "SP1.out-2"


def test_a_set_without_a_cable_in_another_room_than_its_outlet_is_not_fed() -> None:
    text = HOME + (
        "  OUT:   {kind: outlet, place: den}\n"
        "  MODEM: {kind: cable modem, place: den, serves: [net]}\n"
        "cables:\n"
        "  C-1: {from: DROP, to: OUT, type: series 6, length: 2 m}\n"
    )
    assert not_met("outlet-fed", text) == {}
    moved = text.replace("cable modem, place: den", "cable modem, place: closet")
    assert set(not_met("outlet-fed", moved)) == {"MODEM"}


FLATS = """\
basis: {{rulesets: [trade 1], occupancy: {occupancy}}}
places: {{cellar: {{}}, hall: {{}}, living: {{}}, bedroom: {{}}}}
services: {{net: {{kind: cable broadband, from: DROP, down: {{band: 54 to 1002 MHz}}}}}}
devices:
  DROP: {{kind: coax drop, place: cellar}}
  SP1:  {{kind: splitter, ways: 3, place: cellar}}
  ONE:  {{kind: outlet, place: cellar}}
  TWO:  {{kind: outlet, place: bedroom}}
  SP2:  {{kind: splitter, ways: 2, place: hall, owner: {owner}}}
  HALL: {{kind: outlet, place: hall}}
  LIV:  {{kind: outlet, place: living}}
cables:
  C-1: {{from: DROP, to: SP1, type: series 6, length: 2 m}}
  C-2: {{from: SP1, to: ONE, type: series 6, length: 2 m}}
  C-3: {{from: SP1, to: TWO, type: series 6, length: 2 m}}
  C-4: {{from: SP1, to: SP2, type: series 6, length: 2 m}}
  C-5: {{from: SP2, to: HALL, type: series 6, length: 2 m}}
  C-6: {{from: SP2, to: LIV, type: series 6, length: 2 m}}
"""
FLATS_HEAD = "coaxwright: 1\ntitle: Bench (invented)\n"


def test_a_splitter_of_each_flat_is_its_distribution_point() -> None:
    """In a house it hands on to another room; in a block nobody can say that it is not a flat of its own."""
    house = FLATS.format(occupancy="one-family dwelling", owner="owner")
    block = FLATS.format(occupancy="multifamily dwelling", owner="owner")
    assert set(not_met("home-run", house, FLATS_HEAD)) == {"SP2"}
    assert not_met("home-run", block, FLATS_HEAD) == {}
    assert not_met("splitter-depth", block, FLATS_HEAD) == {}


def test_a_splitter_that_hands_on_to_other_rooms_is_one_too_many_in_a_row_as_well() -> None:
    house = FLATS.format(occupancy="one-family dwelling", owner="owner")
    assert set(not_met("splitter-depth", house, FLATS_HEAD)) == set(not_met("home-run", house, FLATS_HEAD)) == {"SP2"}
    apart = house.replace("HALL: {kind: outlet, place: hall}", "HALL: {kind: outlet, place: living}")
    assert not_met("home-run", apart, FLATS_HEAD) == {}
    (said,) = not_met("splitter-depth", apart, FLATS_HEAD).values()
    assert (said.case, said.values["outputs"], said.values["single"]) == ("single made", "4 outputs", "4-way splitter")


def test_a_splitter_of_somebody_else_is_not_counted() -> None:
    house = FLATS.format(occupancy="one-family dwelling", owner="tenant")
    apart = house.replace("HALL: {kind: outlet, place: hall}", "HALL: {kind: outlet, place: living}")
    assert not_met("splitter-depth", apart, FLATS_HEAD) == {}


def test_each_building_has_a_distribution_point_of_its_own() -> None:
    house = FLATS.format(occupancy="one-family dwelling", owner="owner")
    two = house.replace(
        "places: {cellar: {}, hall: {}, living: {},",
        "buildings: {house: {}, barn: {}}\n"
        "places: {cellar: {building: house}, hall: {building: barn}, living: {building: barn},",
    )
    assert not_met("home-run", two, FLATS_HEAD) == {}
    assert not_met("splitter-depth", two, FLATS_HEAD) == {}


STUB = """\
devices:
  DROP: {{kind: coax drop}}
  SP1:  {{kind: splitter, ways: 2}}
  END:  {{{end}}}
{more}cables:
  C-1: {{from: {drop}, to: SP1, type: series 6, length: 2 m}}
  C-2: {{from: SP1, to: END, type: series 6, length: 2 m{state}}}
"""


@pytest.mark.parametrize(
    ("end", "state", "is_stub"),
    [
        ("kind: ground block", "", True),
        ("kind: drop amplifier, outputs: 2", "", True),
        ("kind: splitter, ways: 3", "", True),
        ("kind: splitter, ways: 3, state: reserve", "", False),
        ("kind: splitter, ways: 3", ", state: reserve", False),
        ("kind: splitter, ways: 3", ", state: existing", False),
        ("kind: tap, outputs: 2, value: 12 dB", "", False),
        ("kind: directional coupler, value: 12 dB", "", False),
        ("kind: outlet", "", False),
        ("kind: outlet, variant: loop-through, value: 10 dB", "", False),
        ("kind: video recorder, inputs: 4", "", False),
        ("kind: splitter, ways: 31", "", False),
    ],
)
def test_where_a_new_cable_may_end(end: str, state: str, is_stub: bool) -> None:
    text = STUB.format(end=end, state=state, more="", drop="DROP")
    assert {tag: said.case for tag, said in not_met("dead-end", text).items()} == ({"C-2": "stub"} if is_stub else {})


def test_a_stub_is_not_told_where_a_misspelt_cable_may_lead_on() -> None:
    text = STUB.format(end="kind: ground block", state="", more="  OUT: {kind: outlet}\n", drop="DROP")
    assert set(not_met("dead-end", text)) == {"C-2"}
    assert not_met("dead-end", text + "  C-3: {from: EMD, to: OUT, type: series 6, length: 2 m}\n") == {}


def test_a_drop_that_is_brought_in_and_bonded_may_wait_for_the_house() -> None:
    text = "devices: {DROP: {kind: coax drop}, GB: {kind: ground block}, PI: {kind: power inserter}}\ncables:\n"
    assert not_met("dead-end", f"{text}  C-1: {{from: DROP, to: GB, type: series 6, length: 2 m}}\n") == {}
    assert set(not_met("dead-end", f"{text}  C-1: {{from: DROP, to: PI, type: series 6, length: 2 m}}\n")) == {"C-1"}


def test_a_sheet_that_begins_in_the_middle_has_no_stubs() -> None:
    text = "devices:\n  GB: {kind: ground block}\n  SP: {kind: splitter, ways: 2}\n"
    for ends in ("from: GB, to: SP", "from: SP, to: GB"):
        assert not_met("dead-end", f"{text}cables:\n  C-1: {{{ends}, type: series 6, length: 2 m}}\n") == {}


@pytest.mark.parametrize(
    ("cable", "is_told"),
    [
        ("length: 9 m", True),
        ("route: [attic: 9 m]", True),
        ("route: [yard: 9 m]", False),
        ("route: [yard: 9 m, attic: 1 m]", True),
        ("route: [attic: {length: 9 m, in: R-1}]", False),
        ("length: 9 m, labels: [for later]", False),
    ],
)
def test_which_abandoned_cables_are_told(cable: str, is_told: bool) -> None:
    text = (
        "places: {yard: {exposure: buried}, attic: {exposure: attic}}\n"
        "devices: {A: {kind: splitter, ways: 2}, B: {kind: outlet}}\n"
        "raceways: {R-1: {kind: electrical nonmetallic tubing}}\n"
        f"cables: {{C-1: {{from: A, to: B, type: series 6, {cable}, state: abandoned}}}}\n"
    )
    assert [said.case for said in not_met("dead-end", text).values()] == (["abandoned"] if is_told else [])


def test_labels_of_abandoned_cables_ask_nothing_of_the_others() -> None:
    text = (
        "devices: {A: {kind: splitter, ways: 2}, B: {kind: outlet}}\n"
        "cables:\n"
        "  C-1: {from: A, to: B, type: series 6, length: 2 m}\n"
        "  C-2: {from: A, to: B, type: series 6, length: 2 m, state: abandoned, labels: [old]}\n"
    )
    assert because("label-complete", text, "C-1") == "the design gives no labels"


@pytest.mark.parametrize(
    ("labels", "proposed"),
    [
        ("[C-1]", "'C-2'"),
        ("[C-1/a, C-1/b]", "'C-2/a' and 'C-2/b'"),
        ("[kitchen]", "'C-2'"),
        ("[C-2]", "'C-3'"),
    ],
)
def test_labels_are_proposed_after_the_pattern_of_the_others(labels: str, proposed: str) -> None:
    text = (
        "devices: {A: {kind: splitter, ways: 2}, B: {kind: outlet}, C: {kind: outlet}}\n"
        "cables:\n"
        f"  C-1: {{from: A, to: B, type: series 6, length: 2 m, labels: {labels}}}\n"
        "  C-2: {from: A, to: C, type: series 6, length: 2 m}\n"
    )
    assert not_met("label-complete", text)["C-2"].values["proposed"] == proposed


def test_an_amplifier_turned_round_beside_a_cable_without_a_port_is_told_once() -> None:
    text = HOME + (
        "  AMP: {kind: drop amplifier, outputs: 1, place: closet}\n"
        "  OUT: {kind: outlet, place: den, serves: [air]}\n"
        "cables:\n"
        "  C-1: {from: ANT, to: AMP.out, type: series 6, length: 2 m}\n"
        "  C-2: {from: AMP.in, to: OUT, type: series 6, length: 2 m}\n"
    )
    assert set(not_met("direction-kept", text)) == {"AMP"}
    behind = text.replace("to: AMP.out", "to: GB").replace(
        "cables:\n",
        "  GB: {kind: ground block}\ncables:\n  C-0: {from: GB, to: AMP.out, type: series 6, length: 2 m}\n",
    )
    assert build_network(understand(read_text(HEAD + behind, "x"))).port_conflicts == ()
    assert set(not_met("direction-kept", behind)) == {"AMP"}


def test_a_reserve_outlet_with_a_cable_has_its_port() -> None:
    text = (
        "devices: {A: {kind: splitter, ways: 2}, B: {kind: outlet}, C: {kind: outlet, state: reserve}}\n"
        "cables:\n"
        "  C-1: {from: A, to: B, type: series 6, length: 2 m}\n"
        "  C-2: {from: A, to: C, type: series 6, length: 2 m, state: reserve}\n"
    )
    assert not_met("spare-capacity", text) == {}


def test_a_reserve_outlet_where_nothing_divides() -> None:
    text = "devices: {C: {kind: outlet, state: reserve}, D: {kind: coax drop, state: reserve}}\n"
    assert because("spare-capacity", text, "C") == "nothing divides a signal in its building"
    assert because("spare-capacity", text, "D") == "it is neither an outlet nor a raceway"


def test_the_way_through_a_tap_is_not_spare() -> None:
    text = (
        "devices: {A: {kind: tap, outputs: 1, value: 9 dB}, B: {kind: outlet}, C: {kind: outlet, state: reserve}}\n"
        "cables:\n"
        "  C-1: {from: A.tap, to: B, type: series 6, length: 2 m}\n"
    )
    assert set(not_met("spare-capacity", text)) == {"C"}


def test_a_raceway_that_is_in_use_needs_no_string() -> None:
    text = "raceways: {R-1: {kind: electrical nonmetallic tubing, pull string: false}}\n"
    assert verdicts("spare-capacity", text) == {}


def test_a_loop_of_a_service_without_frequencies_asks_for_them_once() -> None:
    text = HOME.replace(", down: {band: 470 to 602 MHz}", "") + (
        "  SP1: {kind: splitter, ways: 2}\n"
        "  SP2: {kind: splitter, ways: 2}\n"
        "cables:\n"
        "  C-1: {from: ANT, to: SP1, type: series 6, length: 2 m}\n"
        "  C-2: {from: SP1.out-1, to: SP2.out-1, type: series 6, length: 2 m}\n"
        "  C-3: {from: SP1.out-2, to: SP2.out-2, type: series 6, length: 2 m}\n"
    )
    found = verdicts("loop-free", text)
    asked = [(tag, one.unknown.root) for tag, said in found.items() for one in said if isinstance(one, CannotJudge)]
    assert asked == [("C-3", ("services", "air", "down"))]


NEAR = """\
buildings: {house: {}, barn: {}}
places: {loft: {building: barn}, closet: {building: house}, den: {building: house}}
services: {net: {kind: cable broadband, from: DROP, down: {band: 54 to 1002 MHz}}}
devices:
  DROP: {kind: coax drop, place: closet}
  S0: {kind: splitter, ways: 4, place: closet}
  T-1: {kind: terminator, on: S0.out-4}
  S-A: {kind: splitter, ways: 2, place: loft}
  S-B: {kind: splitter, ways: 2, place: closet}
  S-C: {kind: splitter, ways: 2, place: den}
  TV: {kind: outlet, serves: [net], place: den}
MORE
cables:
  C-0: {from: DROP, to: S0, type: series 6, length: 1 m}
  C-1: {from: S0.out-1, to: S-A, type: series 6, length: 9 m}
  C-2: {from: S0.out-2, to: S-B, type: series 6, length: 9 m}
  C-3: {from: S0.out-3, to: S-C, type: series 6, length: 9 m}
"""


@pytest.mark.parametrize(
    ("taken", "free"),
    [
        ("", "S-C.out-1"),
        ("S-C", "S-B.out-1"),  # of the same building, before the barn
        ("S-C S-B", "S-A.out-1"),
    ],
)
def test_an_outlet_that_nothing_feeds_is_offered_the_nearest_free_output(taken: str, free: str) -> None:
    outlets = "".join(f"  {tag}-O{port}: {{kind: outlet, serves: [net]}}\n" for tag in taken.split() for port in (1, 2))
    cables = "".join(
        f"  {tag}-C{port}: {{from: {tag}.out-{port}, to: {tag}-O{port}, type: series 6, length: 9 m}}\n"
        for tag in taken.split()
        for port in (1, 2)
    )
    text = NEAR.replace("MORE\n", outlets) + cables
    assert not_met("outlet-fed", text)["TV"].values["free"] == free


@pytest.mark.parametrize(
    ("modem", "is_told"),
    [
        ("{kind: cable modem, serves: [net], place: study}", False),  # its lead to the outlet beside it is not drawn
        ("{kind: cable modem, serves: [net], place: attic}", True),
        ("{kind: cable modem, serves: [net]}", True),
        ("{kind: cable modem, serves: [net, other], place: study}", True),  # the outlet gives it one of two
        ("{kind: outlet, serves: [net], place: study}", True),  # an outlet is fed by its own cable
    ],
)
def test_a_set_is_plugged_into_the_outlet_beside_it(modem: str, is_told: bool) -> None:
    text = f"""\
places: {{closet: {{}}, study: {{}}, attic: {{}}}}
services:
  net: {{kind: cable broadband, from: DROP, down: {{band: 54 to 1002 MHz}}}}
  other: {{kind: terrestrial TV, from: ANT, down: {{band: 470 to 602 MHz}}}}
devices:
  DROP: {{kind: coax drop, place: closet}}
  ANT: {{kind: antenna, place: closet}}
  WALL: {{kind: outlet, serves: [net], place: study}}
  HIGH: {{kind: outlet, serves: [other], place: attic}}
  SET: {modem}
cables:
  C-1: {{from: DROP, to: WALL, type: series 6, length: 9 m}}
  C-2: {{from: ANT, to: HIGH, type: series 6, length: 9 m}}
"""
    assert ("SET" in not_met("outlet-fed", text)) is is_told


@pytest.mark.parametrize(
    ("rule", "case", "text"),
    [
        ("plan.home-run", "free outputs", "{larger}"),
        ("plan.home-run", "no larger", "{larger}"),
        ("plan.spare-capacity", "no output, no larger", "{larger}"),
        ("plan.splitter-depth", "no single", "{single}"),
    ],
)
def test_a_firm_may_name_the_part_that_is_not_made_in_its_own_words(rule: str, case: str, text: str) -> None:
    """It reads as nothing, as it always has."""
    types = all_checks()[rule].cases[case]
    assert list(faults(text, types)) == []
    assert fill(text, {}, types, {}) == ""
