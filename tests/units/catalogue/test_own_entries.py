"""Cable classes and devices of an author's own: read like those of the catalogue, and refused with clear errors."""

from __future__ import annotations

import json
from math import log10
from pathlib import Path

import jsonschema
import pytest

from coaxwright.catalogue import CableType, Catalogue, UnknownWords, load_catalogue
from coaxwright.catalogue.author_values import HEADER, STATED, with_own
from coaxwright.catalogue.author_values.entries import Entry
from coaxwright.catalogue.author_values.plausible import device_problems
from coaxwright.source import Problem, read_text

SCHEMA = json.loads((Path(__file__).parents[3] / "schemas" / "catalogue-1.schema.json").read_text(encoding="utf-8"))
HEAD = f"{HEADER}: 1\n"
SHOP = """classes:
  shop 7:
    like: series 6
    source: data sheet of the batch, 2026-03
    velocity: 84 %
    attenuation: {table: {5 MHz: 0.6 dB/100 ft, 1002 MHz: 6.3 dB/100 ft}}
"""
QUIET = """devices:
  quiet splitter:
    like: 2-way splitter
    source: data sheet
    paths: [{from: in, to: out, band: 5 MHz to 1218 MHz, nominal: 3.4 dB}]
"""
WHOLE = """classes:
  whole:
    impedance: 75 ohm
    velocity: 85 %
    center diameter: 1.0 mm
    dielectric diameter: 4.6 mm
    attenuation:
      {kind: maximum, temperature: 68 °F, spread: {high: 5 %}, table: {5 MHz: 2 dB/100 m, 1 GHz: 22 dB/100 m}}
    shields: {tri: {outer diameter: 6.9 mm}, quad: {}}
    centers: {copper: {}}
    jackets: [outdoor, indoor]
"""


def own(text: str, head: str = HEAD) -> tuple[Catalogue, list[Problem]]:
    return with_own([read_text(head + text, "van.coax-catalogue.yaml")])


def made(text: str) -> Catalogue:
    catalogue, problems = own(text)
    assert problems == []
    jsonschema.Draft202012Validator(SCHEMA).validate(read_text(HEAD + text, "x").data)  # as an editor reads it
    return catalogue


def told(text: str, head: str = HEAD) -> list[str]:
    """Line and column, counted below the head, and the message."""
    catalogue, problems = own(text, head)
    assert catalogue is load_catalogue()  # nothing of it is used
    lines = head.count("\n")
    return [f"{one.span.start.line - lines}:{one.span.start.column} {one.message}" for one in problems]


def test_a_class_takes_from_the_one_it_is_like_what_it_does_not_say() -> None:
    catalogue = made(SHOP)
    read = catalogue.cable_type("shop 7 quad outdoor")
    assert isinstance(read, CableType)
    shipped = load_catalogue().every_class["series 6"]
    assert read.cable_class.velocity_factor == 0.84
    assert read.cable_class.impedance_ohm == shipped.impedance_ohm
    assert read.cable_class.shields == shipped.shields
    assert read.cable_class.description == shipped.description
    assert (read.shield.name, read.jacket.name, read.phrase) == ("quad", "outdoor", "shop 7 quad outdoor")
    assert not read.cable_class.also  # other names stay with the class that has them
    assert not read.cable_class.usual
    assert (catalogue.own["shop 7"].file, catalogue.own["shop 7"].document) == (
        "van.coax-catalogue.yaml",
        "data sheet of the batch, 2026-03",
    )


def test_what_it_states_is_the_author_s_word_and_the_rest_is_not() -> None:
    sources = made(SHOP).every_class["shop 7"].sources
    assert sources["velocity"].line == "data sheet of the batch, 2026-03 (stated by the author)"
    assert (sources["attenuation"].confidence, sources["attenuation"].note) == (
        STATED,
        "no spread is stated: taken as 0 %",
    )
    assert sources["impedance"] == load_catalogue().every_class["series 6"].sources["impedance"]
    nameless = made("classes: {bare: {like: series 6, velocity: 84 %}}").every_class["bare"].sources["velocity"]
    assert nameless.line == "the author of van.coax-catalogue.yaml (stated by the author)"


def test_sources_may_differ_from_figure_to_figure_and_are_all_stated_by_the_author() -> None:
    catalogue = made(
        "sources:\n  sheet: {document: a sheet, edition: '2026', clause: p. 2}\n"
        "  practice: {document: measured in the shop}\n"
        "classes:\n  bare: {like: series 6, source: a list, velocity: 84 %, impedance: 75 ohm, capacitance: 53 pF/m,\n"
        "         sources: {velocity: sheet, capacitance: practice}}\n"
    )
    sources = catalogue.every_class["bare"].sources
    assert [sources[figure].line for figure in ("velocity", "capacitance", "impedance")] == [
        "a sheet, 2026, p. 2 (stated by the author)",
        "measured in the shop (stated by the author)",  # and not what the catalogue lists under that key
        "a list (stated by the author)",
    ]
    assert sources["shields"] == load_catalogue().every_class["series 6"].sources["shields"]


def test_its_own_table_replaces_the_other_and_is_exact_unless_it_says_a_spread() -> None:
    attenuation = made(SHOP).every_class["shop 7"].attenuation
    # 1 ft is 0.3048 m by definition (NIST SP 811, appendix B.6)
    assert attenuation.published.points == ((5e6, 1002e6), pytest.approx((0.6 / 30.48, 6.3 / 30.48)))
    assert attenuation.loss_db_per_m(1002e6) == pytest.approx((6.3 / 30.48,) * 3)
    assert (attenuation.temperature_c, attenuation.kind) == (20, "typical")
    assert attenuation.beyond is None


def test_a_class_that_is_like_no_other_states_all_and_is_meant_with_the_first_of_each_option() -> None:
    read = made(WHOLE).cable_type("whole")
    assert isinstance(read, CableType)
    assert (read.shield.name, read.center.name, read.jacket.name) == ("tri", "copper", "outdoor")
    assert read.cable_class.description == "whole, as its author describes it"
    low, nominal, high = read.cable_class.attenuation.loss_db_per_m(1e9)
    assert (low, nominal, high) == pytest.approx((0.22, 0.22, 0.22 * 1.05))


def test_a_class_with_other_shields_is_meant_with_the_first_of_them() -> None:
    read = made("classes: {bare: {like: series 6, shields: {quad: {}}}}").cable_type("bare")
    assert isinstance(read, CableType)
    assert read.shield.name == "quad"


def test_the_catalogue_of_the_program_stays_as_it_is() -> None:
    catalogue = made(SHOP + QUIET)
    shipped = load_catalogue()
    assert isinstance(shipped.cable_type("shop 7"), UnknownWords)
    assert not shipped.own
    assert not shipped.models
    for phrase in ("series 6", "series 6 quad copper outdoor", "RG-6", "series 11 flooded"):
        assert catalogue.cable_type(phrase) == shipped.cable_type(phrase)
    assert catalogue.classes == shipped.classes
    assert catalogue.devices is shipped.devices


def test_a_class_marked_usual_may_be_offered_and_others_are_not() -> None:
    catalogue = made("classes: {bare: {like: series 6}, stock: {like: series 6, usual: true, also: [S6]}}")
    assert set(catalogue.classes) - set(load_catalogue().classes) == {"stock"}
    read = catalogue.cable_type("s6 outdoor")
    assert isinstance(read, CableType)
    assert read.cable_class.name == "stock"


def test_a_device_is_found_by_its_name_alone() -> None:
    catalogue = made(QUIET)
    model = catalogue.models["quiet splitter"]
    assert (model.kind, model.ways) == ("splitter", 2)
    assert {(path.loss.low_db, path.loss.nominal_db, path.loss.high_db) for path in model.paths} == {(3.4, 3.4, 3.4)}
    assert model.paths[0].sources["high"].line == "data sheet (stated by the author)"
    assert model.isolations == load_catalogue().made("splitter")[model.options].isolations
    assert catalogue.device("splitter", 2) == load_catalogue().device("splitter", 2)


def test_a_device_may_be_like_one_of_several_sizes_and_an_amplifier_states_its_gain() -> None:
    name = next(entry.name for entry in load_catalogue().made("drop amplifier").values() if entry.gain is not None)
    catalogue = made(
        "devices:\n  cold tap: {like: 12 dB 4-output tap, connector: N}\n"
        f"  booster: {{like: {name}, gain: {{nominal: 15 dB, high: 16 dB}}}}\n"
    )
    tap = catalogue.models["cold tap"]
    assert (tap.options.value_db, tap.options.outputs, {port.connector for port in tap.ports}) == (12, 4, {"N"})
    assert catalogue.models["booster"].gain == (15, 15, 16)


S7 = "classes:\n  s7: {like: series 6, "
TABLE = f"{S7}attenuation: {{table: {{"
Q2 = "devices:\n  q: {like: 2-way splitter, "
WAY = "paths: [{from: in, to: out, band: 5 MHz to 1218 MHz, "
AGAIN = "; look at the data sheet again"
ANOTHER = "; give your own another name"
MISTAKES = [
    # what it is like
    (
        "classes: {s7: {like: seires 6}}",
        "1:22 the program's catalogue has no cable class 'seires 6'; did you mean 'series 6'?",
    ),
    (
        "classes: {s7: {like: thicknet}}",
        "1:22 the program's catalogue has no cable class 'thicknet'; name an entry of the program's catalogue",
    ),
    ("devices: {q: {like: 2-way spliter}}", "1:21 the program's catalogue has no device '2-way spliter'; did you mean"),
    (
        "classes: {s7: {impedance: 75 ohm}}",
        "1:11 s7 has no 'velocity', 'dielectric diameter', 'attenuation', 'shields', 'jackets', "
        "'center diameter' or 'centers'; state all of it, or say 'like: series 6' and only what differs",
    ),
    (
        "devices: {box: {impedance: 75 ohm, ports: []}}",
        "1:11 box has no 'kind' or 'connector'; state all of it, or say 'like: 2-way splitter' and only what differs",
    ),
    # fields and their shapes
    (f"{S7}velocty: 85 %}}", "2:24 s7 has no field 'velocty'; did you mean 'velocity'?"),
    (f"{S7}velocity: fast}}", "2:34 'fast' cannot stand for 'velocity'; write '85 %' or '-8.0 %'"),
    (f"{S7}velocity: 0 %}}", f"2:34 the velocity of a cable is more than nothing{AGAIN}"),
    (f"{S7}impedance: 0 ohm}}", f"2:35 the impedance of a cable is more than nothing{AGAIN}"),
    (f"{S7}source: [a]}}", "2:32 a list cannot stand for 'source'; write words"),
    (f"{S7}source: ''}}", "2:32 '' cannot stand for 'source'; write words"),
    (f"{S7}attenuation: 3 dB}}", "2:37 '3 dB' cannot stand for 'attenuation'; write a group of 'key: value' lines"),
    (f"{S7}shields: {{}}}}", "2:33 nothing is written for 'shields'; write a group of 'key: value' lines"),
    ("classes: {s7: }", "1:15 nothing is written for 's7'; write a group of 'key: value' lines"),
    ("classes: {s  7: {like: series 6}}", "1:11 's  7' cannot be a name; write words with single spaces between them"),
    ("clases: {s7: {like: series 6}}", "1:1 the file has no field 'clases'; did you mean 'classes'?"),
    ("edition: 3", "1:1 the file has no field 'edition'; its fields are coaxwright catalogue, note, sources, classes"),
    (f"{Q2}made as: {{}}}}", "2:29 q has no field 'made as'; its fields are "),
    # sources
    (
        "sources: {sheet: {document: x, confidence: found}}",
        "1:44 'found' cannot stand for 'confidence'; write 'stated by the author'",
    ),
    (f"{S7}velocity: 84 %, sources: {{velocity: sheet}}}}", "2:60 'sheet' is no listed source; the file lists none"),
    (
        f"sources: {{sheet: {{document: x}}}}\n{S7}velocity: 84 %, sources: {{velocity: shet}}}}",
        "3:60 'shet' is no listed source; did you mean 'sheet'?",
    ),
    # names
    ("classes: {series 6: {like: series 6}}", f"1:11 'series 6' is in the program's catalogue already{ANOTHER}"),
    ("classes: {Series 6: {like: series 6}}", f"1:11 'Series 6' is in the program's catalogue already{ANOTHER}"),
    ("classes: {RG-6: {like: series 6}}", f"1:11 'RG-6' means a cable of the program's catalogue{ANOTHER}"),
    ("classes: {series 6 quad: {like: series 6}}", "1:11 'series 6 quad' means a cable of the program's catalogue"),
    ("classes: {quad: {like: series 6}}", f"1:11 'quad' means a shield in the program's catalogue{ANOTHER}"),
    (f"{S7}also: [s8, series 11]}}", f"2:35 'series 11' is in the program's catalogue already{ANOTHER}"),
    ("devices: {2-way splitter: {like: 2-way splitter}}", "1:11 '2-way splitter' is in the program's catalogue"),
    ("devices: {series 6: {like: 2-way splitter}}", "1:11 'series 6' is in the program's catalogue already"),
    (
        "classes: {s7: {like: series 6}}\ndevices: {S7: {like: 2-way splitter}}",
        "2:11 'S7' is there twice, first in van.coax-catalogue.yaml, line 2; give one of them another name",
    ),
    (f"{S7}shields: {{outdoor: {{}}}}}}", "2:34 'outdoor' means a jacket already, and cannot mean a shield; take"),
    # what the catalogue has
    (f"{S7}jackets: [indoor, oudoor]}}", "2:42 'oudoor' is not known; did you mean 'outdoor'?"),
    (f"{S7}jackets: [chain mail]}}", "2:34 'chain mail' is not known; known are indoor,"),
    (f"{S7}defaults: {{shield: quadd}}}}", "2:43 'quadd' is not known; did you mean 'quad'?"),
    (
        f"{S7}shields: {{quad: {{screening class: A+++}}}}}}",
        "2:58 there is no screening class 'A+++'; did you mean 'A++'?",
    ),
    # tables
    (
        f"{S7}attenuation: {{spread: {{low: 5 %}}, table: {{5 MHz: 1 dB/100 ft, 9 MHz: 2 dB/100 ft}}}}}}",
        "2:52 the lowest figure lies below the table, and above nothing; write it such as '-5 %'",
    ),
    (
        f"{S7}attenuation: {{spread: {{high: -5 %}}, table: {{5 MHz: 1 dB/100 ft, 9 MHz: 2 dB/100 ft}}}}}}",
        "2:53 the highest figure lies above the table; write it such as '5 %'",
    ),
    (f"{TABLE}5 MHz: 2 dB/100 ft}}}}}}", "2:45 a table of one point says nothing between frequencies; write two"),
    (
        f"{TABLE}5 MHz: 2 dB/100 ft, 1002 MHz: 1 dB/100 ft}}}}}}",
        f"2:76 the attenuation falls from 5 MHz to 1002 MHz, to 1 dB/100 ft{AGAIN}",
    ),
    (
        f"{TABLE}55 MHz: 2 dB/100 ft, 5 MHz: 3 dB/100 ft}}}}}}",
        "2:74 5 MHz stands after 55 MHz; put the points in rising order",
    ),
    (
        f"{TABLE}1000 MHz: 2 dB/100 ft, 1 GHz: 3 dB/100 ft}}}}}}",
        "2:76 1 GHz stands after 1000 MHz; put the points in rising order",
    ),
    (f"{TABLE}5 MHz: -2 dB/100 ft, 9 MHz: 3 dB/100 ft}}}}}}", "2:53 '-2 dB/100 ft' is not an attenuation; write"),
    (f"{TABLE}5 MHz: 0 dB/100 ft, 9 MHz: 3 dB/100 ft}}}}}}", f"2:53 no cable loses 0 dB/100 ft at 5 MHz{AGAIN}"),
    (f"{TABLE}5 Mhz: 1 dB/100 ft, 9 MHz: 3 dB/100 ft}}}}}}", "2:46 '5 Mhz' is not a frequency; did you mean '5 MHz'?"),
    # devices
    (f"{Q2}kind: spliter}}", "2:35 'spliter' is not a known kind; did you mean 'splitter'?"),
    (f"{Q2}connector: f}}", "2:40 'f' is not a known connector; did you mean 'F'?"),
    (f"{Q2}ways: 4}}", "2:35 it has 2 outputs, and its ways are 4; make the two agree"),
    (f"{Q2}paths: [{{from: in, to: outt, band: 5 to 9 MHz, nominal: 4 dB}}]}}", "2:52 'outt' is no port; did you mean"),
    (f"{Q2}{WAY}low: 5 dB, nominal: 4 dB}}]}}", "2:37 low, nominal and high do not rise"),
    (f"{Q2}{WAY}low: 4 dB}}]}}", "2:37 entry 1 of 'paths' has no 'nominal'; write 'nominal: …'"),
    (f"{Q2}{WAY}amplified: true}}]}}", "2:93 it is amplified, and the device has no gain"),
    # 10 log 2 = 3.01 dB, definition of the decibel
    (
        f"{Q2}{WAY}nominal: 2.4 dB}}]}}",
        f"2:91 it loses 2.4 dB, and dividing between 2 alone takes 3.01 dB{AGAIN}",
    ),
    (
        f"{Q2}{WAY}low: 2.4 dB, nominal: 3.4 dB}}]}}",
        f"2:87 it loses 2.4 dB, and dividing between 2 alone takes 3.01 dB{AGAIN}",
    ),
    (f"{Q2}{WAY}nominal: -3 dB}}]}}", f"2:91 it gains 3 dB, and nothing feeds it{AGAIN}"),
    (
        "devices:\n  q: {like: 12 dB 2-output tap, paths: [{from: in, to: out, band: 5 to 9 MHz, nominal: 0.2 dB},\n"
        "      {from: in, to: tap, band: 5 to 9 MHz, nominal: 10 dB}]}\n",
        # 10^(-0.02) + 2 * 10^(-1) = 0.955 + 0.2
        "2:33 of what goes in at in, 115 % comes out at out, tap-1, tap-2; look at the data sheet again",
    ),
]


@pytest.mark.parametrize(("text", "said"), MISTAKES, ids=[said for _, said in MISTAKES])
def test_one_error_for_each_mistake_and_nothing_is_used(text: str, said: str) -> None:
    (message,) = told(text)
    assert message.startswith(said)


def test_every_mistake_of_the_schema_is_one_for_an_editor_too() -> None:
    validator = jsonschema.Draft202012Validator(SCHEMA)
    for text, said in MISTAKES:
        if "has no field" in said or "cannot stand for" in said:
            assert not validator.is_valid(read_text(HEAD + text, "x").data), said


def test_a_mistake_in_one_entry_leaves_no_other_unread() -> None:
    text = f"classes:\n  a: {{like: seires 6}}\n  b: {{like: series 6, velocty: 1 %}}\n{QUIET.replace('3.4', '2')}"
    assert [message.partition(" ")[0] for message in told(text)] == ["2:13", "3:23", "8:67"]


@pytest.mark.parametrize(
    ("head", "said"),
    [
        ("", "1:1 this is not a catalogue; a catalogue begins with 'coaxwright catalogue: 1'"),
        (f"{HEADER}: 2\n", f"0:{len(HEADER) + 3} this program reads catalogues of format 1; write '{HEADER}: 1'"),
        (f"{HEADER}: true\n", f"0:{len(HEADER) + 3} this program reads catalogues of format 1; write '{HEADER}: 1'"),
    ],
)
def test_a_file_that_does_not_begin_as_a_catalogue(head: str, said: str) -> None:
    assert told("clases: {a: b}\n", head) == [said]


def test_a_file_that_is_a_list() -> None:
    assert told("[]\n", "") == ["1:1 this is not a catalogue; a catalogue begins with 'coaxwright catalogue: 1'"]


def test_the_first_line_of_a_file_does_not_belong_in_a_design() -> None:
    below = read_text(f"catalogue:\n  {HEADER}: 1\n  clases: {{}}\n", "a.coax.yaml").below(("catalogue",))
    assert [str(problem) for problem in with_own([], below)[1]] == [
        "a.coax.yaml:2:3: 'coaxwright catalogue' begins a file of its own, not the entries of a design; "
        "take it out here",
        "a.coax.yaml:3:3: the catalogue has no field 'clases'; did you mean 'classes'?",
    ]


def test_two_files_that_name_one_thing_are_told_alike_in_any_order() -> None:
    files = [read_text(HEAD + SHOP, f"{one}.coax-catalogue.yaml") for one in "ab"]
    (problem,) = with_own(files)[1]
    assert str(problem) == (
        "b.coax-catalogue.yaml:3:3: 'shop 7' is there twice, first in a.coax-catalogue.yaml, line 3; "
        "give one of them another name"
    )
    assert with_own(files[::-1])[1] == [problem]


def test_the_order_of_the_files_makes_no_difference() -> None:
    files = [read_text(HEAD + SHOP, "b.coax-catalogue.yaml"), read_text(HEAD + WHOLE, "a.coax-catalogue.yaml")]
    one, other = with_own(files)[0], with_own(files[::-1])[0]
    assert list(one.every_class) == list(other.every_class)
    assert list(one.own.items()) == list(other.own.items())
    assert one.words.meanings == other.words.meanings


def test_a_file_named_twice_is_read_once() -> None:
    file = read_text(HEAD + SHOP, "a.coax-catalogue.yaml")
    assert with_own([file, file])[1] == []


def test_the_shipped_devices_can_all_be() -> None:
    """The bounds that refuse a data sheet hold for the catalogue's own figures."""
    nowhere = read_text("", "x")
    for kind in load_catalogue().devices:
        for entry in load_catalogue().made(kind).values():
            written = Entry("devices", entry.name, nowhere, {})
            assert list(device_problems(written, entry)) == [], entry.name


def test_the_bound_is_that_of_an_ideal_splitter() -> None:
    ideal_db = 10 * log10(2)  # definition of the decibel
    assert own(QUIET.replace("3.4 dB", f"{ideal_db:.2f} dB"))[1] == []
    assert own(QUIET.replace("3.4 dB", "3.0 dB"))[1] == []  # as data sheets round it
    assert len(own(QUIET.replace("3.4 dB", "2.98 dB"))[1]) == 1
