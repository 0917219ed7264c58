"""What was understood of a design: the data, its text within any width, its JSON within its schema."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import fields
from functools import cache
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from coaxwright.analysis import Analysis
from coaxwright.design import NotUnderstood, understand
from coaxwright.network import Known, build_network
from coaxwright.reports.excerpt import columns
from coaxwright.reports.network_report import json_form
from coaxwright.reports.network_report import text as text_form
from coaxwright.reports.network_report.network import ReadCable, ReadDevice, Step
from coaxwright.reports.network_report.parts import NetworkReport
from coaxwright.reports.network_report.report import network_report
from coaxwright.source import read_text

ROOT = Path(__file__).parents[3]
TERN = ROOT / "examples" / "tern-cottage"
SCHEMA = json.loads((ROOT / "schemas" / "understood-1.schema.json").read_text(encoding="utf-8"))
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)

HEAD = "coaxwright: 1\ntitle: Nothing\nbasis: {rulesets: [us 2023]}\n"
ODD = """\
coaxwright: 1
title: An odd site (invented)
basis:
  rulesets: [us 2023]
buildings:
  house: {entry: [side wall, cellar door], occupancy: commercial}
  barn: {lightning system: true}
places:
  side wall: {exposure: outdoors, temperature: -10 °F to 120 °F}
  closet: {building: house}
  loft: {building: huose}
  yard: {exposure: buried}
services:
  bb: {kind: cable broadband, from: DROP, down: {band: 54 MHz to 1002 MHz}, up: {band: 5 MHz to 42 MHz}}
  tv: {kind: terrestrial TV, from: ANTX}
devices:
  DROP: {kind: coax drop, place: side wall, owner: operator}
  GB1: {kind: ground block, place: side wall, state: existing}
  GB2: {kind: ground block, place: side wall}
  GB3: {kind: ground block, place: side wall}
  SP1: {kind: splitter, ways: 3, variant: unbalanced, place: closet}
  SP2: {kind: splitter, ways: 2, place: closet}
  T1: {kind: terminator, on: SP2.out-2}
  TV1: {kind: outlet, place: closet, serves: [bb, tv]}
  TV2: {kind: outlet, place: closet}
  OLD: {kind: outlet, place: closet, state: abandoned}
cables:
  C-1: {from: GB1, to: DROP, type: series 6, length: 3 m}
  C-2: {from: SP1, to: GB1, type: series 6 qaud, route: [side wall: 2 m, closset: 3 m]}
  C-3: {from: SP1.out-1, to: TV1, type: series 6 copper riser}
  C-4: {from: SP1, to: SP2, type: series 6, length: 12 ft, owner: landlord}
  C-5: {from: SP2.out-1, to: TV2, type: series 6, length: 12 ft, state: reserve}
  C-6: {from: SP2.out-1, to: TV1, type: series 6, length: 12 ft}
  C-7: {from: SP2, to: OLD, type: series 6, length: 12 ft, state: abandoned}
bonding:
  ROD: {kind: ground rod, place: side wall}
  IBT: {kind: intersystem bonding termination, place: closet, electrode: service}
  B-1: {from: ROD, to: GB1, conductor: 14 AWG copper}
  B-2: {from: ROD, to: IBT, conductor: 6 AWG copper, length: 4 m}
  B-3: {from: GB2, to: NOWHERE, conductor: 6 AWG copper, length: 4 m}
  B-4: {from: IBT, to: S-9, conductor: 6 AWG copper, length: 4 m}
"""


def read(text: str) -> NetworkReport:
    document = read_text(text, "a.coax.yaml")
    network = build_network(understand(document))
    return network_report(document, network, Analysis(network))


@cache
def odd() -> NetworkReport:
    return read(ODD)


@cache
def tern(name: str = "corrected") -> NetworkReport:
    return read((TERN / f"{name}.coax.yaml").read_text(encoding="utf-8"))


def cable(tag: str, of: NetworkReport) -> ReadCable:
    return next(one for one in of.cables if one.tag == tag)


def device(tag: str, of: NetworkReport) -> ReadDevice:
    return next(one for one in of.devices if one.tag == tag)


class TestPlaces:
    def test_what_is_written_and_what_was_taken_can_be_told_apart(self) -> None:
        told = {
            place.tag: (place.building, place.building_because, place.exposure, place.exposure_by_default)
            for place in odd().places
        }
        assert told == {
            "closet": ("house", "", "indoors", True),
            "loft": ("", "", "indoors", True),
            "side wall": ("house", "its entry", "outdoors", False),
            "yard": ("", "", "buried", False),
        }

    def test_the_only_building_is_taken_and_said_so(self) -> None:
        text = ODD.replace("  barn: {lightning system: true}\n", "").replace("{building: huose}", "{exposure: attic}")
        loft = next(place for place in read(text).places if place.tag == "loft")
        assert (loft.building, loft.building_because) == ("house", "the only building")

    def test_buildings_with_their_entries(self) -> None:
        assert [(one.tag, one.occupancy, one.entries, one.lightning_system) for one in odd().buildings] == [
            ("barn", "", (), True),
            ("house", "commercial", ("side wall",), False),
        ]


class TestCables:
    def test_a_turned_cable_is_told_in_the_direction_of_the_signal_with_its_ports(self) -> None:
        first = cable("C-1", odd())
        assert (str(first.near), str(first.far), first.turned) == ("DROP.out", "GB1.in", True)
        assert not cable("C-5", odd()).turned

    def test_the_route_is_turned_with_the_cable(self) -> None:
        second = cable("C-2", odd())
        assert [(leg.place, leg.known, leg.length) for leg in second.route] == [
            ("closset", False, "3 m"),
            ("side wall", True, "2 m"),
        ]
        assert (second.length.text, second.length.length_m) == ("5 m", 5)

    def test_an_end_without_a_port_says_why(self) -> None:
        assert {
            one.tag: (one.near.unknown, one.far.unknown) for one in odd().cables if one.near.unknown or one.far.unknown
        } == {
            "C-4": ("which port of SP1 is not decided", ""),
            "C-6": ("no out-1 of SP2 is left", "no input of TV1 is left"),
            "C-7": ("C-7 is abandoned and takes no port", "C-7 is abandoned and takes no port"),
        }
        lost = cable("C-104", tern("as-drawn")).far
        assert (lost.device, str(lost), lost.unknown) == ("", "'KITCHN'", "'KITCHN' names no device")

    def test_a_type_is_read_into_its_parts_and_what_was_not_said_is_marked(self) -> None:
        third = cable("C-3", odd()).type
        assert (third.cable_class, third.center, third.jacket) == ("series 6", "copper", "riser")
        assert third.by_default == ("shield",)
        assert third.shield
        second = cable("C-2", odd()).type
        assert second.cable_class == ""
        assert "did you mean 'quad'?" in second.unknown

    def test_the_loss_is_the_analysis_own_at_the_bottom_and_the_top_of_what_is_carried(self) -> None:
        document = read_text(ODD, "a.coax.yaml")
        network = build_network(understand(document))
        losses = cable("C-1", odd()).losses
        assert [loss.frequency_hz for loss in losses] == [5e6, 1002e6]
        for loss in losses:
            answer = Analysis(network).line_loss_db(network.cables["C-1"], loss.frequency_hz)
            assert isinstance(answer, Known)
            assert (loss.low_db, loss.nominal_db, loss.high_db) == (answer.low, answer.nominal, answer.high)

    def test_a_loss_that_is_not_known_says_why(self) -> None:
        assert {loss.unknown for loss in cable("C-3", odd()).losses} == {"C-3 has no length and no route"}
        assert {loss.unknown for loss in cable("C-2", odd()).losses} == {"the type of C-2 is not understood"}
        assert cable("C-7", odd()).loss_unknown == "no service reaches it"
        silent = read(ODD.replace(", down: {band: 54 MHz to 1002 MHz}, up: {band: 5 MHz to 42 MHz}", ""))
        assert cable("C-1", silent).loss_unknown == "the services on it state no frequencies"

    def test_one_channel_has_one_loss(self) -> None:
        text = (TERN / "corrected.coax.yaml").read_text(encoding="utf-8")
        one = read(text.replace('      - {name: "33", frequency: 587 MHz, standard: 8VSB, field: 61 dBµV/m}\n', ""))
        assert [loss.frequency_hz for loss in cable("C-201", one).losses] == [533e6]


class TestServices:
    def test_each_way_is_followed_to_its_end_before_the_next(self) -> None:
        assert next(one for one in odd().services if one.tag == "bb").steps == (
            Step("C-1", "GB1", 0, False, False),
            Step("C-2", "SP1", 0, False, False),
            Step("C-3", "TV1", 1, True, False),
            Step("C-4", "SP2", 1, True, False),
            Step("C-5", "TV2", 2, True, False),
            Step("C-6", "TV1", 2, True, True),
        )

    def test_a_service_from_nowhere_has_no_way(self) -> None:
        tv = next(one for one in odd().services if one.tag == "tv")
        assert (tv.from_, tv.start, tv.steps) == ("ANTX", "", ())

    def test_in_home_data_goes_between_its_stations(self) -> None:
        text = (
            f"{HEAD}services:\n  net: {{kind: cable broadband, from: DROP, down: {{band: 54 MHz to 1002 MHz}}}}\n"
            "  home: {kind: in-home data, from: GW}\n"
            "devices:\n  DROP: {kind: coax drop}\n  SP: {kind: splitter, ways: 3, variant: in-home data}\n"
            "  GW: {kind: cable modem, serves: [net, home]}\n  DEN: {kind: outlet, serves: [home]}\n"
            "  BED: {kind: outlet, serves: [net]}\n  BARN: {kind: outlet, serves: [home]}\n"
            "cables:\n  C-1: {from: DROP, to: SP, type: series 6}\n  C-2: {from: SP, to: GW, type: series 6}\n"
            "  C-3: {from: SP, to: DEN, type: series 6}\n  C-4: {from: SP, to: BED, type: series 6}\n"
        )
        shown = read(text)
        home = next(one for one in shown.services if one.tag == "home")
        assert (home.stations, home.over, home.steps) == (("BARN", "DEN", "GW"), ("C-2", "C-3"), ())
        assert {one.tag: one.carries for one in shown.cables}["C-2"] == ("home", "net")
        assert {one.tag: one.carries for one in shown.cables}["C-4"] == ("net",)
        assert [(one.service, one.arrives) for one in device("DEN", shown).wants] == [("home", True)]
        assert [(one.service, one.arrives) for one in device("BARN", shown).wants] == [("home", False)]
        page = text_form.render(shown, 100)
        assert "both ways between its stations:" in page
        assert "over C-2 and C-3" in page
        assert "BARN (outlet, place not stated), wants home, which does not come here" in page
        VALIDATOR.validate(json.loads(json_form.render(shown)))

    def test_a_circle_ends(self) -> None:
        text = ODD.replace("to: TV2, type", "to: GB3, type").replace(
            "  C-6: {from: SP2.out-1, to: TV1,", "  C-6: {from: GB3, to: SP1,"
        )
        steps = next(one for one in read(text).services if one.tag == "bb").steps
        assert steps[-1] == Step("C-6", "SP1", 1, False, True)

    def test_a_way_of_many_joints_is_told_to_its_end(self) -> None:
        number = 1500
        devices = "".join(f"  GB{i}: {{kind: ground block}}\n" for i in range(number))
        cables = "".join(f"  C{i}: {{from: GB{i}, to: GB{i + 1}, type: series 6}}\n" for i in range(number - 1))
        long = read(
            f"{HEAD}services:\n  bb: {{kind: cable broadband, from: GB0}}\ndevices:\n{devices}cables:\n{cables}"
        )
        assert len(long.services[0].steps) == number - 1
        assert json.loads(json_form.render(long))["design"]["services"][0]["steps"][-1]["device"] == "GB1499"

    def test_a_service_that_is_wanted_where_it_does_not_come(self) -> None:
        assert [(one.service, one.arrives) for one in device("TV1", odd()).wants] == [("bb", True), ("tv", False)]


class TestDevices:
    def test_free_ports_are_those_that_no_cable_or_part_takes(self) -> None:
        free = {one.tag: one.free_ports for one in odd().devices if one.free_ports}
        assert free == {
            "GB2": ("in", "out"),
            "GB3": ("in", "out"),
            "SP1": ("low-loss", "out-2"),
            "OLD": ("in",),
        }
        assert {port.name: port.tenant for port in device("SP2", odd()).ports} == {
            "in": "C-4",
            "out-1": "C-5",
            "out-2": "T1",
        }

    def test_what_a_device_is_in_words(self) -> None:
        assert device("SP1", odd()).what == "3-way unbalanced splitter"
        assert device("T1", odd()).on == "SP2.out-2"
        assert device("ANT", tern()).mast == "metal mast, 8 ft high"
        many = device("SP2", read(ODD.replace("ways: 2", "ways: 31")))
        assert (many.what, len(many.ports)) == ("31-way splitter", 32)


class TestEntriesAndBonds:
    def test_an_entry_with_its_protector(self) -> None:
        assert [
            (one.cable, one.building, one.line, one.protector, one.unknown) for one in tern("as-drawn").entries
        ] == [
            ("C-102", "house", "from the coax drop DROP", "GB1", ""),
            ("C-106", "house", "between buildings, from or to studio", "GB3", ""),
            ("C-107", "studio", "between buildings, from or to house", "", ""),
            ("C-203", "house", "from the antenna ANT", "GB2", ""),
        ]

    def test_an_entry_whose_protector_is_not_known_says_why(self) -> None:
        text = ODD.replace("to: GB1, type: series 6 qaud", "to: GB9, type: series 6")
        entry = next(one for one in read(text).entries if one.cable == "C-2")
        assert (entry.protector, entry.unknown) == ("", "'GB9' names no device")

    def test_the_way_over_conductors_in_the_direction_of_the_electrode(self) -> None:
        way = next(bond for bond in tern().bonds if bond.thing == "GB5")
        assert [(step.conductor, step.size, step.length, step.to) for step in way.steps] == [
            ("B-6", "10 AWG copper", "5 ft", "ANT.mast"),
            ("B-5", "10 AWG copper", "41 ft", "IBT"),
        ]
        assert (way.electrode, way.electrode_what) == ("IBT", "intersystem bonding termination, north wall")
        assert way.length.text == "46 ft"

    def test_an_electrode_of_its_own_and_the_way_on_from_it(self) -> None:
        way = next(bond for bond in odd().bonds if bond.thing == "GB1")
        assert [(step.conductor, step.to) for step in way.steps] == [("B-1", "ROD")]
        assert [(step.conductor, step.to) for step in way.onwards] == [("B-2", "IBT")]
        assert (way.length.text, way.length.unknown) == ("", "B-1 has no length")

    def test_no_way_to_an_electrode_says_why(self) -> None:
        text = ODD.replace("  B-4: {from: IBT, to: S-9,", "  B-4: {from: GB3, to: SP1,")
        assert {bond.thing: bond.nowhere for bond in odd().bonds if bond.nowhere} == {
            "GB2": "B-3 leads to 'NOWHERE', which names nothing",
            "GB3": "no bonding conductor is joined to it",
        }
        assert next(bond.nowhere for bond in read(text).bonds if bond.thing == "GB3") == (
            "what is joined by B-4 leads to no electrode"
        )


class TestGaps:
    def test_what_was_taken_and_for_which_things(self) -> None:
        told = {(one.what, one.value): one.of for one in odd().taken}
        assert told["stage", "permit"] == ("the design",)
        assert told["exposure", "indoors"] == ("closet", "loft")
        assert told["building", "house"] == ("side wall",)
        assert told["lightning system", "none"] == ("house",)
        assert told["jacket", "indoor"] == ("C-1", "C-4", "C-5", "C-6", "C-7")
        assert ("occupancy, from the basis", "commercial") not in told
        assert {(one.what, one.value): one.of for one in tern().taken}["mast", "of metal"] == ("ANT",)
        assert not any("side wall" in of for (what, _), of in told.items() if what.startswith("temperature"))

    def test_what_could_not_be_connected_stands_with_its_place_in_the_order_of_the_file(self) -> None:
        found = [(str(one.where), one.item, one.text.partition(";")[0]) for one in odd().unconnected]
        assert found == [
            ("a.coax.yaml:6:30", "house", "'cellar door' is no place"),
            ("a.coax.yaml:11:20", "loft", "'huose' is no building"),
            ("a.coax.yaml:15:36", "tv", "'ANTX' is no device"),
            ("a.coax.yaml:29:35", "C-2", "'series 6 qaud' is no cable type"),
            ("a.coax.yaml:29:74", "C-2", "'closset' is no place"),
            ("a.coax.yaml:31:15", "C-4", "'SP1' could be SP1.low-loss or SP1.out-2, which are not alike"),
            ("a.coax.yaml:33:15", "C-6", "C-6 finds SP2.out-1 taken by C-5"),
            ("a.coax.yaml:33:30", "C-6", "C-6 finds no input left at TV1: it has one input, for C-3 and C-6"),
            ("a.coax.yaml:40:24", "B-3", "'NOWHERE' is no thing to bond to"),
            ("a.coax.yaml:41:24", "B-4", "'S-9' is no thing to bond to"),
        ]
        assert tern().unconnected == ()

    def test_the_place_is_where_the_words_are(self) -> None:
        lines = ODD.splitlines()
        for one in odd().unconnected:
            rest = lines[one.where.line - 1][one.where.column - 1 :]
            quoted = one.text.split("'")[1] if one.text.startswith("'") else None
            assert rest.startswith(quoted or ("SP2.out-1", "TV1")), one

    def test_a_port_of_a_sort_that_a_device_has_not(self) -> None:
        text = ODD.replace(
            "  C-7: {from: SP2, to: OLD, type: series 6, length: 12 ft, state: abandoned}",
            "  C-7: {from: TV2, to: OLD, type: series 6}",
        )
        assert "C-7 finds no output at TV2, which has none" in [one.text for one in read(text).unconnected]


WIDE = "長い屋根裏部屋" * 12
LONG = "x" * 150
DESIGNS = {
    "corrected": (TERN / "corrected.coax.yaml").read_text(encoding="utf-8"),
    "as drawn": (TERN / "as-drawn.coax.yaml").read_text(encoding="utf-8"),
    "odd": ODD,
    "nothing": HEAD,
    "wide": ODD.replace("side wall", WIDE).replace("TV1", f"{LONG}.1"),
    "hidden": ODD.replace("An odd site", "An \u202eodd\u2066 site"),
}


class TestText:
    @pytest.mark.parametrize("width", [60, 80, 120])
    @pytest.mark.parametrize("name", DESIGNS)
    def test_every_line_is_within_the_width(self, name: str, width: int) -> None:
        text = text_form.render(read(DESIGNS[name]), width)
        assert max(map(columns, text.splitlines())) <= width
        assert "\n\n\n" not in text
        assert not any(line != line.rstrip() for line in text.split("\n"))
        assert text.endswith("'coaxwright review' judges.\n")

    def test_a_chain_of_many_splitters_leaves_room_for_words(self) -> None:
        number = 40
        devices = "".join(f"  SP{i}: {{kind: splitter, ways: 2}}\n  TV{i}: {{kind: outlet}}\n" for i in range(number))
        cables = "".join(
            f"  C{i}: {{from: SP{i}, to: SP{i + 1}, type: series 6}}\n"
            f"  D{i}: {{from: SP{i}, to: TV{i}, type: series 6}}\n"
            for i in range(number - 1)
        )
        service = "services:\n  bb: {kind: cable broadband, from: SP0}\n"
        text = text_form.render(read(f"{HEAD}{service}devices:\n{devices}cables:\n{cables}"), 60)
        assert max(map(len, text.splitlines())) <= 60
        assert "C38 from SP38.out-1 to SP39.in\n" in text

    def test_hidden_characters_do_not_reach_a_terminal(self) -> None:
        text = text_form.render(read(DESIGNS["hidden"]), 80)
        assert text.startswith("An \N{REPLACEMENT CHARACTER}odd\N{REPLACEMENT CHARACTER} site (invented)\n")

    def test_the_way_of_a_service_reads_from_device_to_cable_to_device(self) -> None:
        lines = [line.strip() for line in text_form.render(tern(), 80).splitlines()]
        way = [line for line in lines if line.startswith(("DROP (", "C-101 from", "GB1 (", "C-102 from", "SP1 ("))]
        assert way[:5] == [
            "DROP (coax drop, north wall), the operator's",
            "C-101 from DROP.out to GB1.in",
            "GB1 (ground block, north wall)",
            "C-102 from GB1.out to SP1.in",
            "SP1 (4-way splitter, closet)",
        ]

    def test_only_a_divided_signal_moves_to_the_right(self) -> None:
        lines = text_form.render(tern(), 80).splitlines()
        indents = {
            line.split()[0]: len(line) - len(line.lstrip()) for line in lines if " from " in line and "." in line
        }
        assert {indents[tag] for tag in ("C-101", "C-102", "C-201", "C-205")} == {4}
        assert {indents[tag] for tag in ("C-103", "C-106", "C-107", "C-108")} == {7}

    def test_a_cable_of_two_services_is_told_in_full_once(self) -> None:
        text = ODD.replace("from: ANTX", "from: GB1")
        shown = text_form.render(read(text), 100)
        assert shown.count("C-3 from SP1.out-1 to TV1.in") == 2
        assert shown.count("C-3 from SP1.out-1 to TV1.in, told above") == 1

    def test_every_tag_of_a_design_is_told(self) -> None:
        for name in ("corrected", "as drawn", "odd"):
            told = read(DESIGNS[name])
            text = text_form.render(told, 100)
            things = (*told.buildings, *told.places, *told.services, *told.devices, *told.cables, *told.bonding)
            assert [thing.tag for thing in things if thing.tag not in text] == []

    @pytest.mark.parametrize(
        "words",
        [
            "written from GB1 to DROP; the signal runs the other way",
            "type    'series 6 qaud' is not understood: ",
            "'closset' 3 m, side wall 2 m; total 5 m",
            "TV1 (outlet, closet), wants bb and tv, of which tv does not come here",
            "SP2 (2-way splitter, closet), with T1 (terminator) on out-2",
            "C-4 from SP1 to SP2.in, the landlord's",
            "C-5 from SP2.out-1 to TV2.in, kept in reserve",
            "TV1, which the signal reached before",
            "comes from 'ANTX', which names no device",
            "OLD (outlet, closet), abandoned",
            "SP1  low-loss and out-2 (3-way unbalanced splitter); C-4 has none yet",
            "no way to an electrode: B-3 leads to 'NOWHERE', which names nothing",
            "and from ROD on to the building's electrode system",
            "IBT (intersystem bonding termination, closet), joined to the electrodes of the electrical service",
            "B-4 from IBT to S-9, 6 AWG copper: no protector or mast is bonded over it",
            "outdoors, -10 °F to 120 °F, of house as its entry",
        ],
    )
    def test_words_of_an_odd_site(self, words: str) -> None:
        assert words in text_form.render(odd(), 120)

    def test_no_order_of_the_file_shows(self) -> None:
        head, *sections = DESIGNS["corrected"].split("\n\n")
        turned = []
        for section in sections:
            name, *items = section.rstrip("\n").split("\n")
            blocks: list[list[str]] = []
            for line in items:
                if line.startswith("   ") and blocks:
                    blocks[-1].append(line)
                else:
                    blocks.append([line])
            turned.append("\n".join([name, *("\n".join(block) for block in reversed(blocks))]))
        again = read("\n\n".join([head, *reversed(turned)]) + "\n")
        assert again == tern()


class TestJson:
    def test_the_schema_keeps_to_its_metaschema(self) -> None:
        jsonschema.Draft202012Validator.check_schema(SCHEMA)
        assert SCHEMA["$schema"] == jsonschema.Draft202012Validator.META_SCHEMA["$id"]

    def test_the_schema_describes_and_requires_every_property(self) -> None:
        objects = list(_objects(SCHEMA))
        for schema in objects:
            assert schema["additionalProperties"] is False
            assert schema["required"] == list(schema["properties"])
            assert all(entry["description"] for entry in schema["properties"].values())
        assert len(objects) > 20

    @pytest.mark.parametrize("name", DESIGNS)
    def test_every_design_keeps_to_the_schema(self, name: str) -> None:
        output = json.loads(json_form.render(read(DESIGNS[name])))
        assert [f"{error.json_path}: {error.message}" for error in VALIDATOR.iter_errors(output)] == []
        deprecated = {"own figures"}
        assert len(output["design"].keys() - deprecated) == len(fields(NetworkReport)) - 1

    def test_problems_keep_to_the_schema(self) -> None:
        with pytest.raises(NotUnderstood) as caught:
            read(ODD + "color: red\n")
        output = json.loads(json_form.render_problems("a.coax.yaml", caught.value.problems))
        assert [error.message for error in VALIDATOR.iter_errors(output)] == []
        assert (output["design"], output["problems"][0]["where"]["line"]) == (None, 42)

    @pytest.mark.parametrize(
        ("path", "value", "mistake"),
        [
            (("design", "cables", 0, "turned"), "yes", "type"),
            (("design", "stage"), "draft", "enum"),
            (("design", "title"), "", "minLength"),
            (("design", "devices", 0, "color"), "red", "additionalProperties"),
            (("design",), None, "minItems"),
        ],
    )
    def test_the_schema_refuses_what_we_never_write(self, path: tuple[Any, ...], value: object, mistake: str) -> None:
        output = json.loads(json_form.render(odd()))
        *way, last = path
        part = output
        for step in way:
            part = part[step]
        part[last] = value
        assert mistake in {error.validator for error in _leaves(VALIDATOR.iter_errors(output))}

    def test_names_and_figures_are_those_of_the_data(self) -> None:
        output = json.loads(json_form.render(odd()))
        assert (output["coaxwright understood"], output["file"], output["problems"]) == (1, "a.coax.yaml", [])
        first = output["design"]["cables"][0]
        loss = cable("C-1", odd()).losses[1]
        assert (first["tag"], first["near"]["port"], first["far"]["port"]) == ("C-1", "out", "in")
        assert first["losses"][1]["frequency Hz"] == 1002e6
        assert loss.nominal_db is not None
        assert first["losses"][1]["nominal dB"] == round(loss.nominal_db, 4)
        assert output["design"]["services"][1]["from"] == "ANTX"


def _objects(schema: object) -> Iterator[dict[str, Any]]:
    """The schemas of whole objects; what stands under if, then and else only narrows one."""
    if isinstance(schema, dict):
        if schema.get("type") == "object":
            yield schema
        for key, value in schema.items():
            if key not in ("if", "then", "else"):
                yield from _objects(value)


def _leaves(errors: Any) -> Iterator[Any]:
    for error in errors:
        yield error
        yield from _leaves(error.context)
