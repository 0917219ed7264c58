"""Each mistake in a design gives one problem, at its place, in words that a wiring installer can act on."""

from __future__ import annotations

import pytest

from coaxwright.design import NotUnderstood, understand
from coaxwright.source import read_text

HEAD = "coaxwright: 1\ntitle: Heron Lane 14\nbasis: {rulesets: [us 2023]}\n"
KINDS = (
    "coax drop, ground block, protector, splitter, tap, outlet, cable modem, receiver, antenna, preamplifier, "
    "power inserter, drop amplifier, terminator, filter, optical node, dish, LNB, multiswitch, satellite receiver, "
    "modulator, camera, video recorder, cellular booster, in-home data adapter, directional coupler, combiner, "
    "diplexer, attenuator, equalizer, matching pad, matching transformer, DC block, galvanic isolator"
)
BONDS = (
    "bonding conductor, intersystem bonding termination, grounding electrode system, service equipment, "
    "service raceway, "
    "ground rod, ground plate, ground ring, concrete-encased electrode, structural metal, water pipe, gas pipe, "
    "lightning electrode system"
)
CABLE_FIELDS = (
    "from, to, type, route, length, listing, fire class, connectors, labels, color, measured loss, readings, state, "
    "installed, owner, note"
)
TAG = "a tag stands on one line, without a space at its ends or a dot in front"
DATE = "write the day as '2026-05-31', or '2026-05' or '2026' where no more is known"
BOND_LIKE = "'B-1: {from: GB1, to: IBT, conductor: 10 AWG copper}'"
OUTLET_LIKE = "'LIV: {kind: outlet, place: living room}'"


def told(text: str) -> list[str]:
    with pytest.raises(NotUnderstood) as refused:
        understand(read_text(text, "x"))
    return [str(problem).removeprefix("x:") for problem in refused.value.problems]


FORMAT = [
    ("", "1:1: nothing is written here; a design begins with 'coaxwright: 1'"),
    ("# only this\n", "1:1: nothing is written here; a design begins with 'coaxwright: 1'"),
    ("hello", "1:1: this is not a design; a design begins with 'coaxwright: 1'"),
    ("- a", "1:1: this is not a design; a design begins with 'coaxwright: 1'"),
    ("title: x", "1:1: this is not a design; a design begins with 'coaxwright: 1'"),
    ("Coaxwright: 1", "1:1: 'Coaxwright' is not the format line; a design begins with 'coaxwright: 1'"),
    ("coaxwrigt: 1", "1:1: 'coaxwrigt' is not the format line; a design begins with 'coaxwright: 1'"),
    ("coaxwright: 2", "1:13: this file is of format 2; this program reads format 1: take a newer one"),
    ("coaxwright: 1.5", "1:13: format 1.5 is not known here; this program reads format 1"),
    ("coaxwright:", "1:1: the format is not a number; write 'coaxwright: 1'"),
    ("coaxwright: '1'", "1:13: the format is not a number; write 'coaxwright: 1'"),
    ("coaxwright: yes", "1:13: the format is not a number; write 'coaxwright: 1'"),
    ("coaxwright: true", "1:13: the format is not a number; write 'coaxwright: 1'"),
    ("coaxwright: 1", "1:1: the design has no 'title' or 'basis'; write 'title: …' and 'basis: …'"),
    (
        "coaxwright: 1\nTitle: x\nbasis: {rulesets: [us 2023]}",
        "2:1: the design has no field 'Title'; did you mean 'title'?",
    ),
    ("coaxwright: 1\ntitle: x\nbasis:", "3:1: nothing is written after 'basis'; write a group such as '{rulesets: …}'"),
    (
        "coaxwright: 1\ntitle: x\nbasis: us 2023",
        "3:8: 'us 2023' cannot stand for 'basis'; write a group such as '{rulesets: …}'",
    ),
    (
        "coaxwright: 1\ntitle: x\nbasis: {rulesets: us 2023}",
        "3:19: 'us 2023' cannot stand for 'rulesets'; write a list, '[us 2023]'",
    ),
    ("coaxwright: 1\ntitle: x\nbasis: {rulesets: []}", "3:19: the list 'rulesets' is empty; write at least one"),
    (
        "coaxwright: 1\ntitle: x\nbasis: {rulesets: [US 2023]}",
        "3:20: 'US 2023' cannot stand in the list 'rulesets'; write 'us 2023' or 'trade 1' or "
        "'firm/house.coax-ruleset.yaml'; did you mean 'us 2023'?",
    ),
    (
        "coaxwright: 1\ntitle: x\nbasis: {rulesets: [trade]}",
        "3:20: 'trade' cannot stand in the list 'rulesets'; write 'us 2023' or 'trade 1' or "
        "'firm/house.coax-ruleset.yaml'",
    ),
]


@pytest.mark.parametrize(("text", "expected"), FORMAT)
def test_the_first_lines(text: str, expected: str) -> None:
    assert told(text) == [expected]


ONE = [
    # sections
    ("devices:", "4:1: the section 'devices' is empty; leave the line out until there is something to put below it"),
    (
        "devices: [a]",
        f"4:10: a list cannot stand for 'devices'; write a line for each below it, such as {OUTLET_LIKE}",
    ),
    ("Devices: {A: {kind: outlet}}", "4:1: the design has no field 'Devices'; did you mean 'devices'?"),
    ("device: {A: {kind: outlet}}\ndevices: {}", "4:1: the design has no field 'device'; did you mean 'devices'?"),
    ("SP1: {kind: splitter, ways: 2}", "4:1: 'SP1' stands where a section belongs; indent it below 'devices:'"),
    ("IBT: {kind: water pipe, place: p}", "4:1: 'IBT' stands where a section belongs; indent it below 'bonding:'"),
    ("C-1: {from: A, to: B, type: s}", "4:1: 'C-1' stands where a section belongs; indent it below 'cables:'"),
    (
        "devices: {kind: outlet, place: den}",
        f"4:11: 'kind' is a field and stands where a tag belongs; indent it below its tag: {OUTLET_LIKE}",
    ),
    (
        "devices:\n  LIV:\n  kind: outlet\n  place: den",
        f"6:3: 'kind' is a field and stands where a tag belongs; indent it below its tag: {OUTLET_LIKE}",
    ),
    (
        "devices: {C-1: {from: A, to: B, type: s}}",
        "4:11: C-1 has the fields of another section; move it below 'cables:'",
    ),
    (
        "bonding: {C-1: {from: A, to: B, type: s}}",
        "4:11: C-1 has the fields of another section; move it below 'cables:'",
    ),
    ("cables: {A: {kind: outlet}}", "4:10: A has the fields of another section; move it below 'devices:'"),
    ("bond: {}", "4:1: the design has no field 'bond'; did you mean 'bonding'?"),
    # parts
    ("devices: {A: }", "4:11: nothing is written after 'A'; write a group such as '{kind: …}'"),
    ("places: {yard: }", "4:10: nothing is written after 'yard'; write 'yard: {}' where there is nothing more to say"),
    ("devices: {A: splitter}", "4:14: 'splitter' cannot stand for 'A'; write 'A: {kind: splitter}'"),
    ("devices: {A: [outlet]}", f"4:14: a list cannot stand for 'A'; write it like {OUTLET_LIKE}"),
    ("bonding: {B-1: 5}", f"4:16: 5 cannot stand for 'B-1'; write it like {BOND_LIKE}"),
    ("devices: {' A': {kind: outlet}}", f"4:11: ' A' cannot be a tag; {TAG}"),
    ('devices: {"A\\nB": {kind: outlet}}', f"4:11: 'A\\nB' cannot be a tag; {TAG}"),
    ('devices: {"A\\n": {kind: outlet}}', f"4:11: 'A\\n' cannot be a tag; {TAG}"),
    ("devices: {.A: {kind: outlet}}", f"4:11: '.A' cannot be a tag; {TAG}"),
    # kinds
    ("devices: {A: {}}", f"4:11: A has no 'kind'; write 'kind: …' with one of {KINDS}"),
    ("devices: {A: {place: den}}", f"4:11: A has no 'kind'; write 'kind: …' with one of {KINDS}"),
    ("devices: {A: {Kind: outlet}}", "4:15: A has no field 'Kind'; did you mean 'kind'?"),
    ("devices: {A: {kind: Outlet}}", "4:21: 'Outlet' is not a known kind; did you mean 'outlet'?"),
    ("devices: {A: {kind: modem}}", "4:21: 'modem' is not a known kind; did you mean 'cable modem'?"),
    ("devices: {A: {kind: kettle}}", f"4:21: 'kettle' is not a known kind; write one of {KINDS}"),
    ("devices: {A: {kind: 5}}", f"4:21: 5 cannot stand for 'kind'; write one of {KINDS}"),
    ("devices: {A: {kind: }}", f"4:15: nothing is written after 'kind'; write one of {KINDS}"),
    ("devices: {A: {kind: splitter}}", "4:11: A (splitter) has no 'ways'; write 'ways: …'"),
    ("devices: {A: {kind: splitter, wyas: 2}}", "4:31: a splitter has no field 'wyas'; did you mean 'ways'?"),
    (
        "devices: {A: {kind: outlet, gain: 3}}",
        "4:29: an outlet has no field 'gain'; its fields are kind, serves, variant, value, loss, "
        "place, model, impedance, ports, listed, readings, state, installed, owner, note",
    ),
    ("devices: {A: {kind: antenna, gain: 9 dB}}", "4:36: '9 dB' is not an antenna gain; did you mean '9 dBi'?"),
    ("devices: {A: {kind: antenna, gain: 9 fish}}", "4:36: '9 fish' is not an antenna gain; write '9 dBi' or '7 dBd'"),
    (
        "bonding: {B: {}}",
        "4:11: B has no 'from', 'to' or 'conductor'; write 'from: …', 'to: …' and 'conductor: …'",
    ),
    ("bonding: {B: {from: A, to: C}}", "4:11: B has no 'conductor'; write 'conductor: 10 AWG copper'"),
    (
        "bonding: {R: {place: yard}}",
        f"4:11: R has no 'kind', so it would be a bonding conductor, which has no 'place'; write one of {BONDS}",
    ),
    (
        "bonding: {R: {knd: ground rod, place: yard}}",
        "4:15: R, a bonding conductor, has no field 'knd'; did you mean 'kind'?",
    ),
    (
        "bonding: {R: {kind: rod, place: yard}}",
        "4:21: 'rod' is not a known kind; did you mean 'ground rod'?",
    ),
    (
        "services: {s: {kind: TV, from: A}}",
        "4:22: 'TV' is not a known kind; did you mean 'terrestrial TV'?",
    ),
    # keys
    ("cables: {C: {from: A, To: B, type: s}}", "4:23: C has no field 'To'; did you mean 'to'?"),
    ("cables: {C: {form: A, to: B, type: s}}", "4:14: C has no field 'form'; did you mean 'from'?"),
    ("cables: {C: {from: A, type: s}}", "4:10: C has no 'to'; write 'to: …'"),
    (
        "cables: {C: {from: A, to: B, type: s, place: den}}",
        f"4:39: C has no field 'place'; its fields are {CABLE_FIELDS}",
    ),
    (
        "buildings: {h: {lightning-system: true}}",
        "4:17: h has no field 'lightning-system'; did you mean 'lightning system'?",
    ),
    # slips inside braces
    (
        "cables: {C: {from: A, to: B, type: s, note: buried, see plan}}",
        "4:53: the comma before 'see plan' ends the value of 'note'; put the whole text in quotes, "
        "'note: \"buried, see plan\"'",
    ),
    (
        "bonding: {B: {note: 'x \"y\"', see p. 4, from: A, to: C, conductor: 10 AWG copper}}",
        "4:30: the comma before 'see p. 4' ends the value of 'note'; put the whole text in quotes",
    ),
    (
        "cables: {C: {from: A, to: B, type: s, length: 5,5 m}}",
        "4:47: the comma ends the value of 'length'; write 'length: 5.5 m'",
    ),
    ("devices: {A: {kind:outlet, place: den}}", "4:15: a space is missing after 'kind:'; write 'kind: outlet'"),
    (
        "services: {s: {kind: cable broadband, from: A, up: {5 to 42 MHz}}}",
        "4:53: '5 to 42 MHz' stands without its field; write 'band: 5 to 42 MHz'",
    ),
    ("devices: {A: {kind: splitter, outputs: 2}}", "4:31: a splitter has no field 'outputs'; did you mean 'ways'?"),
    ("devices: {A: {kind: outlet, wants: [bb]}}", "4:29: an outlet has no field 'wants'; did you mean 'serves'?"),
    (
        "bonding: {R: {kind: IBT, place: yard}}",
        "4:21: 'IBT' is not a known kind; did you mean 'intersystem bonding termination'?",
    ),
    # words, numbers, yes and no
    (
        "buildings: {h: {lightning system: yes}}",
        "4:35: 'yes' cannot stand for 'lightning system'; write true or false; did you mean 'true'?",
    ),
    (
        "buildings: {h: {lightning system: No}}",
        "4:35: 'No' cannot stand for 'lightning system'; write true or false; did you mean 'false'?",
    ),
    ("buildings: {h: {lightning system: 'true'}}", "4:35: 'true' is in quotes; write true without them"),
    ("buildings: {h: {entry: []}}", "4:24: the list 'entry' is empty; write at least one, or leave the line out"),
    ("buildings: {h: {entry: [a, '']}}", "4:28: nothing is written between the quotes of 'entry'; write a tag"),
    ("devices: {A: {kind: splitter, ways: '3'}}", "4:37: '3' is in quotes; write 3 without them"),
    ("devices: {A: {kind: splitter, ways: 64}}", "4:37: 64 cannot stand for 'ways'; write a whole number from 2 to 32"),
    (
        "devices: {A: {kind: splitter, ways: 1e400}}",
        "4:37: 1e400 cannot stand for 'ways'; write a whole number from 2 to 32",
    ),
    (
        "devices: {A: {kind: splitter, ways: .nan}}",
        "4:37: .nan cannot stand for 'ways'; write a whole number from 2 to 32",
    ),
    (
        "devices: {A: {kind: splitter, ways: 2, variant: balanced}}",
        "4:49: 'balanced' is not a known variant; write one of unbalanced, satellite, in-home data, 50 ohm; "
        "did you mean 'unbalanced'?",
    ),
    (
        "devices: {A: {kind: outlet, serves: broadband}}",
        "4:37: 'broadband' cannot stand for 'serves'; write a list, '[broadband]'",
    ),
    (
        'devices: {A: {kind: outlet, serves: "bb\\n"}}',
        "4:37: 'bb\\n' cannot stand for 'serves'; write a list",
    ),
    ("devices: {A: {kind: terminator, on: }}", "4:33: nothing is written after 'on'; write a tag"),
    (
        "devices: {A: {kind: antenna, mast: 10 ft}}",
        "4:36: '10 ft' cannot stand for 'mast'; write a group such as '{height: …, metal: …}'",
    ),
    ("sheet: true", "4:8: true cannot stand for 'sheet'; write words"),
    ("sheet: [1]", "4:8: a list cannot stand for 'sheet'; write words"),
    ("note: ' '", "4:7: nothing is written between the quotes of 'note'; write words"),
    (
        "stage: as built",
        "4:8: 'as built' is not a known stage; write one of concept, permit, as-built; did you mean 'as-built'?",
    ),
    ("places: {p: {exposure: inside}}", "4:24: 'inside' is not a known exposure; did you mean 'indoors'?"),
    ("records: {R: {by: me, on: last week}}", f"4:27: 'last week' is not a date; {DATE}"),
    ("records: {R: {by: me, on: 2026, calibrated: 12/2025}}", f"4:45: '12/2025' is not a date; {DATE}"),
    (
        "variances: [{rule: a.b, item: A, reason: r, granted by: g, until: next year}]",
        f"4:67: 'next year' is not a date; {DATE}",
    ),
    ("records: {R: {by: me, on: }}", f"4:23: nothing is written after 'on'; {DATE}"),
    ("places: {p: {exposure: outdoor}}", "4:24: 'outdoor' is not a known exposure; did you mean 'outdoors'?"),
    # quantities
    ("devices: {A: {kind: outlet, impedance: 75}}", "4:40: 75 has no unit; write '75 ohm' or '75 Ω'"),
    ("cables: {C: {from: A, to: B, type: s, length: 012}}", "4:47: 012 has no unit; write '012 ft' or '012 m'"),
    (
        "cables: {C: {from: A, to: B, type: s, length: 85 feets}}",
        "4:47: '85 feets' is not a length; did you mean '85 feet'?",
    ),
    (
        "cables: {C: {from: A, to: B, type: s, length: true}}",
        "4:47: true cannot stand for 'length'; write '85 ft' or '26 m' or '6 ft 4 in'",
    ),
    (
        "places: {p: {temperature: 20 C}}",
        "4:27: '20 C' is not a temperature range; write '-10 °F to 130 °F' or '-25 to 55 °C'",
    ),
    (
        "services: {s: {kind: cable broadband, from: A, up: {band: 5-42 MHz}}}",
        "4:59: '5-42 MHz' is not a band; did you mean '5 to 42 MHz'?",
    ),
    (
        "services: {s: {kind: cable broadband, from: A, up: {band: 5 to 42 MHz, level: 9 dBmV}}}",
        "4:79: '9 dBmV' cannot stand for 'level'; write a list, '[10 dBmV at 54 MHz]'",
    ),
    (
        "services: {s: {kind: cable broadband, from: A, up: 5 to 42 MHz}}",
        "4:52: '5 to 42 MHz' cannot stand for 'up'; write a group such as '{band: …}'",
    ),
    (
        "services: {s: {kind: terrestrial TV, from: A, channels: {name: 1}}}",
        "4:57: a group cannot stand for 'channels'; write a list such as '[{name: …, frequency: …}]'",
    ),
    (
        "services: {s: {kind: terrestrial TV, from: A, channels: [{frequency: 1 MHz}]}}",
        "4:58: entry 1 of 'channels' has no 'name'; write 'name: …'",
    ),
]

ROUTES = [
    ("attic", "9:12: 'attic' cannot stand for 'route'; write '- attic: 38 ft' for each place it runs through"),
    ("{attic: 3 ft}", "9:12: a group cannot stand for 'route'; write '- attic: 38 ft' for each place it runs through"),
    ("[]", "9:12: the list 'route' is empty; write at least one, or leave the line out"),
    ("[attic]", "9:13: 'attic' has no length; write '- attic: 38 ft'"),
    ("[north wall 3 ft]", "9:13: 'north wall 3 ft' lacks the colon after the place; write '- north wall: 3 ft'"),
    ("[wall:5 ft]", "9:13: a space is missing after 'wall:'; write 'wall: 5 ft'"),
    ("[wall: 5,5 m]", "9:19: the comma ends the value of 'wall'; write 'wall: 5.5 m'"),
    ("wall 5 ft", "9:12: 'wall 5 ft' cannot stand for 'route'; write '[wall: 5 ft]'"),
    ("[38]", "9:13: 38 cannot stand in the list 'route'; write '- attic: 38 ft'"),
    ("[{}]", "9:13: a place with its length is missing here; write '- attic: 38 ft'"),
    ("[attic: ]", "9:13: nothing is written after 'attic'; write '85 ft' or '26 m' or '6 ft 4 in'"),
    ("[attic: 3]", "9:20: 3 has no unit; write '3 ft' or '3 m'"),
    ("[attic: 3 ft, closet: 4 fit]", "9:34: '4 fit' is not a length; did you mean '4 ft'?"),
    ("[attic: {}]", "9:13: attic has no 'length'; write 'length: 85 ft'"),
    ("[attic: {lenght: 3 ft}]", "9:21: attic has no field 'lenght'; did you mean 'length'?"),
    (
        "[{attic: 3 ft, closet: 4 ft}]",
        "9:27: two places stand in one entry of the route; write '- attic: 38 ft' for each place",
    ),
    (
        "\n      - attic:\n        length: 3 ft",
        "11:9: 'length' stands beside 'attic', not below it; write '- attic: 38 ft' for each place",
    ),
]


@pytest.mark.parametrize(("text", "expected"), ONE, ids=[text[:60] for text, _ in ONE])
def test_one_mistake_gives_one_problem(text: str, expected: str) -> None:
    assert told(HEAD + text + "\n") == [expected]


@pytest.mark.parametrize(("route", "expected"), ROUTES, ids=[route[:40] for route, _ in ROUTES])
def test_routes(route: str, expected: str) -> None:
    text = f"cables:\n  C-1:\n    from: A\n    to: B\n    type: series 6\n    route: {route}\n"
    assert told(HEAD + text) == [expected]


def test_all_problems_of_a_file_in_the_order_of_its_text() -> None:
    text = """\
coaxwright: 1
titel: Heron Lane 14
stage: permitt
basis: {rulesets: [us 2023]}
cables:
  C-1: {from: SP1, type: series 6, length: 85 feets}
  C-2: {from: SP1, to: LIV, type: series 6, length: 85, hue: white}
devices:
  SP2: {kind: spliter, ways: 3}
"""
    assert told(text) == [
        "2:1: the design has no field 'titel'; did you mean 'title'?",
        "3:8: 'permitt' is not a known stage; write one of concept, permit, as-built; did you mean 'permit'?",
        "6:3: C-1 has no 'to'; write 'to: …'",
        "6:44: '85 feets' is not a length; did you mean '85 feet'?",
        "7:53: 85 has no unit; write '85 ft' or '85 m'",
        f"7:57: C-2 has no field 'hue'; its fields are {CABLE_FIELDS}",
        "9:15: 'spliter' is not a known kind; did you mean 'splitter'?",
    ]


def test_a_long_value_is_shortened() -> None:
    (problem,) = told(HEAD + "stage: " + "z" * 1_000_000)
    assert len(problem) < 150
    assert "zzz…' is not a known stage" in problem


def test_feet_and_inches_are_shown_as_written() -> None:
    assert told(HEAD + "stage: 6'4\"") == ["4:8: '6'4\"' is not a known stage; write one of concept, permit, as-built"]
