"""Repeated units written out: the tags, where each thing is written, and every mistake in words at its place."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest

from coaxwright.design import NotUnderstood, understand, understand_drawn, whole
from coaxwright.design.contract import committed_schema
from coaxwright.design.fields import TAG_PATTERN
from coaxwright.design.phrases import SECTIONS
from coaxwright.design.units.lines import MOST_THINGS, MOST_UNITS
from coaxwright.design.units.model import CHANGES, PARTS, Typical
from coaxwright.design.units.ranges import NoSeries, tags_of
from coaxwright.source import Document, Drawn, read_text

HEAD = "coaxwright: 1\ntitle: x\nbasis: {rulesets: [trade 1]}\n"
FLAT = """\
typical:
  flat:
    buildings: {store: {entry: [hall, cellar]}}
    places: {hall: {building: house}, lounge: {building: store}}
    services: {tv: {kind: terrestrial TV, from: ANT}}
    devices:
      SP: {kind: splitter, ways: 2, place: hall}
      TV: {kind: outlet, place: lounge, serves: [tv, broadband]}
      LOAD: {kind: terminator, on: SP.out-2}
      ANT: {kind: antenna, place: cellar, mast: {}}
    cables:
      C-1: {from: SP.out-1, to: TV, type: series 6, route: [hall: 6 ft, lounge: {length: 9 ft, in: RW}, cellar: 3 ft]}
    raceways: {RW: {kind: sleeve, places: [hall, cellar]}}
    records: {R-1: {by: the installer, on: 2026-05}}
    bonding:
      IBT: {kind: intersystem bonding termination, place: hall, electrode: service}
      B-1: {from: ANT.mast, to: IBT, conductor: 10 AWG copper}
      B-2: {from: ANT, to: BAR, conductor: 10 AWG copper}
"""


def out(text: str) -> Document:
    return whole(read_text(HEAD + text, "x"))


def data(text: str) -> dict[str, Any]:
    found = out(text).data
    assert isinstance(found, dict)
    return found


def told(text: str) -> list[str]:
    with pytest.raises(NotUnderstood) as caught:
        out(text)
    return [str(problem).removeprefix("x:") for problem in caught.value.problems]


def test_a_unit_is_written_out_with_full_tags_inside_and_plain_ones_outside() -> None:
    written = data(FLAT + "places: {cellar: {}}\nunits: {f/1: {like: flat}}\n")
    assert {section: written[section] for section in SECTIONS} == {
        "buildings": {"f/1/store": {"entry": ["f/1/hall", "cellar"]}},
        "places": {"cellar": {}, "f/1/hall": {"building": "house"}, "f/1/lounge": {"building": "f/1/store"}},
        "services": {"f/1/tv": {"kind": "terrestrial TV", "from": "f/1/ANT"}},
        "devices": {
            "f/1/SP": {"kind": "splitter", "ways": 2, "place": "f/1/hall"},
            "f/1/TV": {"kind": "outlet", "place": "f/1/lounge", "serves": ["f/1/tv", "broadband"]},
            "f/1/LOAD": {"kind": "terminator", "on": "f/1/SP.out-2"},
            "f/1/ANT": {"kind": "antenna", "place": "cellar", "mast": {}},
        },
        "cables": {
            "f/1/C-1": {
                "from": "f/1/SP.out-1",
                "to": "f/1/TV",
                "type": "series 6",
                "route": [{"f/1/hall": "6 ft"}, {"f/1/lounge": {"length": "9 ft", "in": "f/1/RW"}}, {"cellar": "3 ft"}],
            }
        },
        "raceways": {"f/1/RW": {"kind": "sleeve", "places": ["f/1/hall", "cellar"]}},
        "records": {"f/1/R-1": {"by": "the installer", "on": "2026-05"}},
        "bonding": {
            "f/1/IBT": {"kind": "intersystem bonding termination", "place": "f/1/hall", "electrode": "service"},
            "f/1/B-1": {"from": "f/1/ANT.mast", "to": "f/1/IBT", "conductor": "10 AWG copper"},
            "f/1/B-2": {"from": "f/1/ANT", "to": "BAR", "conductor": "10 AWG copper"},
        },
    }
    assert "typical" not in written
    assert "units" not in written


def test_a_field_looks_only_for_the_things_it_can_name() -> None:
    written = data(
        "places: {A: {}}\ntypical: {u: {devices: {A: {kind: outlet, place: A}, p: {kind: outlet, place: p}},"
        " places: {p: {}}}}\nunits: {u1: {like: u}}\n"
    )
    assert {tag: device["place"] for tag, device in written["devices"].items()} == {"u1/A": "A", "u1/p": "u1/p"}


def test_a_tag_that_names_nothing_belongs_where_something_like_it_is() -> None:
    written = data(
        "devices: {NODE: {kind: outlet}}\ntypical: {u: {devices: {KITCHEN: {kind: outlet}}, cables: {"
        "A: {from: KITCHN.in, to: NOED, type: s}, B: {from: XX, to: v/KITCHN, type: s}}}}\nunits: {u1: {like: u}}\n"
    )
    ends = {tag: (cable["from"], cable["to"]) for tag, cable in written["cables"].items()}
    assert ends == {"u1/A": ("u1/KITCHN.in", "NOED"), "u1/B": ("XX", "v/KITCHN")}


def test_what_differs_replaces_whole_fields_and_what_is_left_out_is_not_there() -> None:
    text = FLAT + (
        "units:\n  f-01 to f-03: {like: flat}\n"
        "  f-04: {like: flat, but: {cables: {C-1: {to: SP, route: [hall: 7 ft]}}}, leaves out: [TV, B-2]}\n"
    )
    written = data(text)
    assert written["cables"]["f-04/C-1"] == {
        "from": "f-04/SP.out-1", "to": "f-04/SP", "type": "series 6", "route": [{"f-04/hall": "7 ft"}]
    }  # fmt: skip
    assert len(written["cables"]["f-03/C-1"]["route"]) == 3
    assert [tag for tag in written["devices"] if tag.endswith("TV")] == ["f-01/TV", "f-02/TV", "f-03/TV"]
    assert "f-04/B-2" not in written["bonding"]
    assert list(written["places"])[-2:] == ["f-04/hall", "f-04/lounge"]


def test_a_tag_of_what_is_left_out_is_looked_for_outside() -> None:
    text = "typical: {u: {devices: {A: {kind: outlet}, B: {kind: terminator, on: A}}}}\n"
    written = data(text + "devices: {A: {kind: outlet}}\nunits: {u1: {like: u, leaves out: [A]}, u2: {like: u}}\n")
    assert {tag: device.get("on") for tag, device in written["devices"].items()} == {
        "A": None, "u1/B": "A", "u2/A": None, "u2/B": "u2/A"
    }  # fmt: skip


def test_every_path_leads_to_where_it_is_written() -> None:
    text = FLAT + (
        "places: {cellar: {}}\nunits:\n  f-1 to f-2: {like: flat}\n"
        "  f-3: {like: flat, but: {cables: {C-1: {route: [hall: 7 ft]}}}}\n"
    )
    document = out(text)
    lines = (HEAD + text).splitlines()

    def at(*path: str | int, of_key: bool = False) -> str:
        assert document.has(path)
        span = document.span(path, of_key=of_key)
        return lines[span.start.line - 1][span.start.column - 1 : span.end.column - 1]

    assert at("cables", "f-2/C-1", "route", 1, "f-2/lounge", "length") == "9 ft"
    assert at("cables", "f-2/C-1", "route", 0, "f-2/hall", of_key=True) == "hall"
    assert at("cables", "f-2/C-1", "route", 2, "cellar") == "3 ft"
    assert at("cables", "f-3/C-1", "route", 0, "f-3/hall") == "7 ft"
    assert at("cables", "f-3/C-1", "type") == "series 6"
    assert at("cables", "f-3/C-1", of_key=True) == "C-1"
    assert at("places", "cellar") == "{}"
    assert not document.has(("cables", "f-2/C-1", "length"))
    assert document.written(("devices", "f-1/SP", "place")) == ("typical", "flat", "devices", "SP", "place")
    changed = ("units", "f-3", "but", "cables", "C-1", "route")
    assert document.written(("cables", "f-3/C-1", "route")) == changed
    assert document.sharing(("typical", "flat", "cables", "C-1", "route")) == ("f-1", "f-2")
    assert document.sharing(("typical", "flat", "cables", "C-1", "type")) == ("f-1", "f-2", "f-3")
    assert document.sharing(changed) == ("f-3",)
    assert document.sharing(("places", "cellar")) == ()


def test_tags_that_look_like_numbers_are_taken_as_written() -> None:
    design = understand(
        read_text(
            HEAD + "typical: {01: {places: {012: {}}, devices: {5: {kind: outlet, place: 012},"
            " 6: {kind: terminator, on: 5}}}}\n"
            "units: {007: {like: 01, but: {devices: {6: {on: 5.0}}}, leaves out: [012]}, 008: {like: 01}}\n",
            "x",
        )
    )
    assert {tag: device.place for tag, device in design.devices.items() if device.place} == {
        "007/5": "012",
        "008/5": "008/012",
    }
    assert {tag: device.on for tag, device in design.devices.items() if device.on} == {
        "007/6": "007/5.0",
        "008/6": "008/5",
    }


def test_writing_out_leaves_the_file_as_it_was_and_can_be_done_again() -> None:
    document = read_text(HEAD + FLAT + "units: {f-1 to f-3: {like: flat}}\n", "x")
    first = whole(document)
    assert whole(document).data == first.data
    assert whole(first) is first
    assert isinstance(document.data, dict)
    assert "units" in document.data


@pytest.mark.parametrize(
    ("key", "tags"),
    [
        ("flat", ["flat"]),
        ("flat-01", ["flat-01"]),
        ("101 to 103", ["101", "102", "103"]),
        ("flat-08 to flat-11", ["flat-08", "flat-09", "flat-10", "flat-11"]),
        ("b2 1a to b2 3a", ["b2 1a", "b2 2a", "b2 3a"]),
        ("1-to-9", ["1-to-9"]),
        ("flat-1-2", ["flat-1-2"]),
        ("flat-1.2", ["flat-1.2"]),
        ("level 2 - stack 4", ["level 2 - stack 4"]),
        ("flat-4..2", ["flat-4..2"]),
    ],
)
def test_ranges(key: str, tags: list[str]) -> None:
    found = tags_of(key)
    assert not isinstance(found, NoSeries)
    assert list(found) == tags
    assert len(found) == len(tags)


LIKE = "write it like 'flat-01 to flat-12'"
RANGES = [
    ("f-12 to f-01", "'f-12 to f-01' does not count up; write 'f-01 to f-12'"),
    ("f-1..2", "'f-1..2' is no range; did you mean 'f-1 to f-2'?"),
    ("f-8..f-12", "'f-8..f-12' is no range; did you mean 'f-08 to f-12'?"),
    ("f-01…12", "'f-01…12' is no range; did you mean 'f-01 to f-12'?"),
    ("101 – 112", "'101 – 112' is no range; did you mean '101 to 112'?"),
    ("f-1 - f-2", "'f-1 - f-2' is no range; did you mean 'f-1 to f-2'?"),
    ("f-1 through f-2", "'f-1 through f-2' is no range; did you mean 'f-1 to f-2'?"),
    ("f-01 to f-01", "'f-01 to f-01' does not count up; write 'f-01' for one unit"),
    ("f-9 to f-12", "the figures of 'f-9 to f-12' are not of one width; write 'f-09 to f-12'"),
    ("f-01 to g-12", f"the words around the figures differ in 'f-01 to g-12'; {LIKE}"),
    ("f-01 to f-12a", f"the words around the figures differ in 'f-01 to f-12a'; {LIKE}"),
    ("hall to hall", f"'hall to hall' has no figures to count; {LIKE}"),
    ("a1-1 to a2-2", f"'a1-1 to a2-2' counts in more than one place; {LIKE}"),
    ("f-1 to f-2 to f-3", f"'f-1 to f-2 to f-3' is no range; {LIKE}"),
    ("f-0000000001 to f-0000000002",
     "the figures of 'f-0000000001 to f-0000000002' are too many; count with 9 figures at most"),
    ("f-0001 to f-1001", f"these would be 1,001 units in all; a design holds {MOST_UNITS:,} at most"),
    ("f-000000001 to f-999999999", f"these would be 999,999,999 units in all; a design holds {MOST_UNITS:,} at most"),
]  # fmt: skip


@pytest.mark.parametrize(("key", "message"), RANGES, ids=[key for key, _ in RANGES])
def test_a_range_that_cannot_be_counted_is_told_at_its_key(key: str, message: str) -> None:
    assert told(f"typical: {{flat: {{}}}}\nunits:\n  {key}: {{like: flat}}\n") == [f"6:3: {message}"]


TYPICAL = "typical: {flat: {places: {hall: {}}, devices: {SP: {kind: splitter, ways: 2}, TV: {kind: outlet}}}, b: {}}\n"
LINES = [
    ("u: {like: flta}", "5:19: there is no typical unit 'flta'; did you mean 'flat'?"),
    ("u: {like: xyz}", "5:19: there is no typical unit 'xyz'; the typical units are flat, b"),
    ("flat: {like: flat}", "5:9: 'flat' is the tag of a typical unit; give the unit another"),
    ("u: {like: u}", "5:19: 'u' is a unit, not a typical one; describe what they share below 'typical:'"),
    ("u-1 to u-3: {like: b}, u-2: {like: b}",
     "5:32: the unit 'u-2' is there twice, first in x, line 5; give one of them another tag"),
    ("u: {like: flat, but: {devices: {TVs: {}}}}", "5:41: flat has no 'TVs' in its devices; did you mean 'TV'?"),
    ("u: {like: flat, but: {devices: {R-9: {}}}}", "5:41: flat has no 'R-9' in its devices; its devices are SP, TV"),
    ("u: {like: flat, but: {cables: {C-1: {}}}}",
     "5:31: flat has no cables; what differs is something that it has"),
    ("u: {like: flat, leaves out: [TVs]}", "5:38: flat has no 'TVs'; did you mean 'TV'?"),
    ("u: {like: flat, leaves out: [R-9]}", "5:38: flat has no 'R-9'; its tags are hall, SP, TV"),
    ("u: {like: flat, but: {devices: {TV: {}}}, leaves out: [TV]}",
     "5:41: 'TV' is left out below, and so cannot differ; take one of the two out"),
    ("u: {like: flat, but: {devices: {TV: {ways: 3}}}}",
     "5:46: an outlet has no field 'ways'; its fields are kind, serves, variant, value, loss, "
     "place, model, impedance, ports, listed, readings, state, installed, owner, note"),
    ("u: {like: flat, but: {devices: {TV: {kind: splitter}}}}",
     "5:41: TV (splitter) has no 'ways'; write 'ways: …'"),
    ("u: {like: flat, but: {devices: {SP: {kind: antenna}}}}",
     "5:41: an antenna has no field 'ways'; its fields are kind, variant, gain, serves, mast, "
     "below roof edge, from wall, place, model, impedance, ports, listed, readings, state, installed, owner, note"),
    ("u: {like: flat, but: {devices: {SP: {ways: 64}}}}",
     "5:52: 64 cannot stand for 'ways'; write a whole number from 2 to 32"),
    ("u: {like: flat, but: {devices: {SP: {hue: red}}}}",
     "5:46: SP has no field 'hue'; its fields are kind, place, on, model, ways, inputs, outputs, value, variant, "
     "gain, noise figure, loss, split, input level, … (36 in all)"),
    ("u: {like: flat, but: {cabels: {}}}", "5:31: 'but' has no field 'cabels'; did you mean 'cables'?"),
    ("u: {}", "5:9: u has no 'like'; write 'like: …'"),
    ("u: flat", "5:12: 'flat' cannot stand for 'u'; write a group such as '{like: …}'"),
]  # fmt: skip


@pytest.mark.parametrize(("line", "message"), LINES, ids=[line for line, _ in LINES])
def test_one_mistake_in_a_unit_gives_one_problem(line: str, message: str) -> None:
    assert told(f"{TYPICAL}units: {{{line}}}\n") == [message]


OTHERS = [
    ("typical: {f: {devices: {A: {kind: outlet}}, places: {A: {}}}}\nunits: {u: {like: f, leaves out: [A]}}\n",
     "5:35: 'A' stands in the places and in the devices of f; give each of them a tag of its own there"),
    (TYPICAL + "units: {u: {like: flat}}\ndevices: {u/SP: {kind: outlet}}\n",
     "6:11: 'u/SP' is already there, as a part of the unit u; give it another tag"),
    ("typical: {a: {devices: {c/d: {kind: outlet}}}, b: {devices: {d: {kind: outlet}}}}\n"
     "units: {e: {like: a}, e/c: {like: b}}\n",
     "5:23: 'e/c/d' would be a part of e and of e/c; give one of the units another tag"),
    (TYPICAL + "units: {u: {like: flat}}\ndevices: {flat/SP: {kind: outlet}}\n",
     "6:11: 'flat/SP' is what findings call SP of the typical unit flat; give it another tag"),
    ("typical: {f: {units: {g: {like: f}}}}\n",
     "4:15: a typical unit holds no units of its own in this format; describe each of them by itself below 'units:' "
     "at the top"),
    ("typical: {f: {devces: {}}}\n", "4:15: f has no field 'devces'; did you mean 'devices'?"),
    ("typical: {f: {devices: {A: {kind: spliter}}}}\n",
     "4:35: 'spliter' is not a known kind; did you mean 'splitter'?"),
    ("typical: {f: {devices: {A: {kind: splitter, wyas: 2}}}}\n",
     "4:45: a splitter has no field 'wyas'; did you mean 'ways'?"),
    ("typical: {f: {cables: {C: {from: A, to: B, type: s, route: [attic]}}}}\n",
     "4:61: 'attic' has no length; write '- attic: 38 ft'"),
    ("typical: {f: {devices: {kind: outlet}}}\n",
     "4:25: 'kind' is a field and stands where a tag belongs; indent it below its tag: "
     "'LIV: {kind: outlet, place: living room}'"),
    ("units: {u: {like: flat}}\n", "4:19: there is no typical unit 'flat'; describe it below 'typical:'"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "message"), OTHERS, ids=[text[:60] for text, _ in OTHERS])
def test_other_mistakes_are_told_once_at_their_place(text: str, message: str) -> None:
    assert told(text) == [message]


def test_a_tag_with_a_slash_that_is_nobodys_stays() -> None:
    assert list(data(TYPICAL + "units: {u: {like: flat}}\ndevices: {v/SP: {kind: outlet}}\n")["devices"]) == [
        "v/SP", "u/SP", "u/TV"
    ]  # fmt: skip


def test_the_units_together_are_not_without_bound() -> None:
    devices = ", ".join(f"D{number}: {{kind: outlet}}" for number in range(MOST_THINGS // 1000 + 1))
    text = f"typical: {{flat: {{devices: {{{devices}}}}}}}\nunits:\n  u-000 to u-999: {{like: flat}}\n"
    assert told(text) == ["6:3: the units would hold more than 100,000 things; divide the site into several designs"]


def test_mistakes_of_form_and_of_units_are_told_together() -> None:
    text = "stage: permitt\ntypical: {f: {devices: {A: {kind: spliter}}}}\n"
    text += "units:\n  u: {like: g}\n  v-2 to v-1: {like: f, but: []}\n"
    assert told(text) == [
        "4:8: 'permitt' is not a known stage; write one of concept, permit, as-built; did you mean 'permit'?",
        "5:35: 'spliter' is not a known kind; did you mean 'splitter'?",
        "7:13: there is no typical unit 'g'; the typical units are f",
        "8:3: 'v-2 to v-1' does not count up; write 'v-1 to v-2'",
        "8:30: a list cannot stand for 'but'; write a group such as '{buildings: …, places: …}'",
    ]


def part(name: str, text: str) -> Document:
    return read_text("coaxwright part: 1\n" + text, name)


def test_typical_units_and_units_may_stand_in_parts() -> None:
    main = read_text(HEAD + "includes: [a, b]\nunits: {u-1: {like: flat}}\n", "x")
    flats = part("a", "typical: {flat: {devices: {TV: {kind: outlet}, 7: {kind: terminator, on: TV}}}}\n")
    others = part("b", "units: {u-2: {like: flat, but: {devices: {TV: {state: existing}}}}}\n")
    document = whole(understand_drawn(Drawn(main, (flats, others))))
    assert isinstance(document.data, dict)
    assert document.data["devices"]["u-2/TV"] == {"kind": "outlet", "state": "existing"}
    assert document.data["devices"]["u-1/7"] == {"kind": "terminator", "on": "u-1/TV"}
    assert document.owner(("devices", "u-1/TV", "kind")) is flats
    assert document.owner(("devices", "u-2/TV", "kind")) is flats
    assert document.owner(("devices", "u-2/TV", "state")) is others
    span = document.span(("devices", "u-2/TV", "state"))
    assert others.text[span.start.index : span.end.index] == "existing"


def test_mistakes_of_all_files_are_told_together() -> None:
    main = read_text(HEAD + "includes: [a, b]\nstage: permitt\nunits: {u-1: {like: flta}, u-2: {like: flat}}\n", "x")
    flats = part("a", "typical: {flat: {devices: {TV: {kind: outlt}}}}\ndevices: {u-2/TV: {kind: outlet}}\n")
    others = part("b", "units: {u-2 to u-4: {like: flat}, u-1: {like: flat}}\n")
    with pytest.raises(NotUnderstood) as caught:
        understand_drawn(Drawn(main, (flats, others)))
    assert [str(problem) for problem in caught.value.problems] == [
        "x:5:8: 'permitt' is not a known stage; write one of concept, permit, as-built; did you mean 'permit'?",
        "x:6:21: there is no typical unit 'flta'; did you mean 'flat'?",
        "a:2:39: 'outlt' is not a known kind; did you mean 'outlet'?",
        "a:3:11: 'u-2/TV' is already there, as a part of the unit u-2; give it another tag",
        "b:2:9: the unit 'u-2' is there twice, first in x, line 6; give one of them another tag",
        "b:2:35: 'u-1' stands in two files, first in x, line 6; give one of them another tag",
    ]


def test_the_models_follow_the_sections_of_a_design() -> None:
    assert list(PARTS) == list(CHANGES) == list(Typical.model_fields) == list(SECTIONS)
    assert all(not field.is_required() for change in CHANGES.values() for field in change.model_fields.values())


def fields(node: Any, path: str) -> Iterator[tuple[str, dict[str, Any]]]:
    """Every schema inside a part, with its path, references followed."""
    if "$ref" in node:
        node = committed_schema()["$defs"][node["$ref"].rpartition("/")[2]]
    yield path, node
    for name, child in node.get("properties", {}).items():
        yield from fields(child, f"{path}.{name}")
    for keyword in ("items", "additionalProperties", "then", "else", "propertyNames"):
        if isinstance(node.get(keyword), dict):
            yield from fields(node[keyword], path)
    for child in node.get("allOf", ()):
        if "if" not in child:
            yield from fields(child, path)


def test_every_tag_inside_a_part_says_what_it_names() -> None:
    """A field that holds a tag is one of the kinds of tags of fields.py, so that units can be written out."""
    schema = committed_schema()
    tags = [
        (path, node)
        for section in SECTIONS
        for path, node in fields(schema["properties"][section]["additionalProperties"], section)
        if node.get("pattern") == TAG_PATTERN
    ]
    assert len(tags) > 12
    assert [path for path, node in tags if not set(node.get("names", ())) & set(SECTIONS)] == []


def test_a_design_without_units_is_left_alone() -> None:
    document = read_text(HEAD + "devices: {A/B: {kind: outlet}}\n", "x")
    assert whole(document) is document
    assert not document.repeats
    assert document.instance(("devices", "A/B")) is None
