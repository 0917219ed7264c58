"""A file in former words reads as one in the present words, and each part of it still stands where it is written."""

# ruff: noqa: E501  a text before and after stands on one line

from __future__ import annotations

from copy import deepcopy

import pytest

from coaxwright.source import Document, read_text
from coaxwright.source.former_words import (
    CATALOGUE_WORDS,
    DESIGN_WORDS,
    RULESET_WORDS,
    Branching,
    find,
    with_present_words,
)
from coaxwright.source.former_words.tables import CATALOGUE_PLACES, DESIGN_PLACES, RULESET_PLACES
from coaxwright.source.migration import Made, renew, reworded

HEAD = "coaxwright: 1\ntitle: x (invented)\n"


def present(text: str, words: Branching = DESIGN_WORDS) -> Document:
    return with_present_words(read_text(text, "x"), words)


def written_at(document: Document, *path: str | int, of_key: bool = False) -> str:
    span = document.span(path, of_key=of_key)
    return document.text[span.start.index : span.end.index]


ONE_OF_EACH = """\
coaxwright: 1
title: x (invented)
"draws in": [b.coax-part.yaml]   # more
catalogue:
  classes:
    s7:
      centres: {copper: {size: 18 AWG}, copper-clad aluminium: {size: 18 AWG}}
      centre diameter: 1 mm
      defaults: {shield: tri, centre: copper-clad aluminium}
      sources: {centre diameter: maker, copper-clad aluminium: maker}
    s8: {like: 58-type solid centre}
  devices:
    q: {like: 6 dB equaliser}
    f: {like: in-home data filter, variant: in-home data, kind: filter}
places: {p: {beside: [{what: power cable, by: 'armoured cable'}]}}
services:
  tv: {kind: terrestrial TV, from: A, channels: [{frequency: 55 MHz, standard: analogue}]}
devices:
  D: {kind: service drop}
  Q: {kind: "equaliser", value: 3 dB}
  F: {kind: filter, variant: in-home data}
  S: {kind: splitter, ways: 2, variant: in-home data}
  K: {kind: camera, variant: analogue}
  A: {kind: antenna, mast: {on: power service mast}}
cables:
  C: {from: D, to: F, colour: 012, route: [p: {length: 2 m, tightest bend: 3 in,
      beside: [{what: power cable, by: armoured cable}]}]}
raceways:
  R: {kind: thin-wall metal tubing, holds: [{what: power cable, by: armoured cable}]}
  S: {kind: rigid plastic conduit}
  T: {kind: flexible plastic tubing}
bonding:
  I: {kind: intersystem
      termination, place: p}
  G: {kind: building electrode system, place: p}
  P: {kind: ground plate, place: p, metal: galvanised steel}
typical:
  t:
    devices: {F: {kind: filter, variant: mobile band}, S: {kind: splitter, ways: 2}}
units:
  u: {like: t, but: {devices: {F: {variant: in-home data}, S: {variant: in-home data}}}}
"""
IN_PRESENT_WORDS = """\
coaxwright: 1
title: x (invented)
"includes": [b.coax-part.yaml]   # more
catalogue:
  classes:
    s7:
      centers: {copper: {size: 18 AWG}, copper-clad aluminum: {size: 18 AWG}}
      center diameter: 1 mm
      defaults: {shield: tri, center: copper-clad aluminum}
      sources: {center diameter: maker, copper-clad aluminum: maker}
    s8: {like: 58-type solid center}
  devices:
    q: {like: 6 dB equalizer}
    f: {like: point-of-entry filter, variant: point-of-entry, kind: filter}
places: {p: {beside: [{what: power cable, by: 'armored cable'}]}}
services:
  tv: {kind: terrestrial TV, from: A, channels: [{frequency: 55 MHz, standard: analog}]}
devices:
  D: {kind: coax drop}
  Q: {kind: "equalizer", value: 3 dB}
  F: {kind: filter, variant: point-of-entry}
  S: {kind: splitter, ways: 2, variant: in-home data}
  K: {kind: camera, variant: analog}
  A: {kind: antenna, mast: {on: service mast}}
cables:
  C: {from: D, to: F, color: 012, route: [p: {length: 2 m, bend radius: 3 in,
      beside: [{what: power cable, by: armored cable}]}]}
raceways:
  R: {kind: electrical metallic tubing, holds: [{what: power cable, by: armored cable}]}
  S: {kind: rigid PVC conduit}
  T: {kind: electrical nonmetallic tubing}
bonding:
  I: {kind: intersystem bonding termination, place: p}
  G: {kind: grounding electrode system, place: p}
  P: {kind: ground plate, place: p, metal: galvanized steel}
typical:
  t:
    devices: {F: {kind: filter, variant: mobile band}, S: {kind: splitter, ways: 2}}
units:
  u: {like: t, but: {devices: {F: {variant: point-of-entry}, S: {variant: in-home data}}}}
"""


def test_the_data_is_that_of_the_present_words() -> None:
    document, wanted = present(ONE_OF_EACH), read_text(IN_PRESENT_WORDS, "x")
    assert document.data == wanted.data
    assert list(document.order()) == list(wanted.order()), "keys keep their places"
    assert document.numbers == wanted.numbers
    assert document.text == ONE_OF_EACH


def test_each_part_stands_where_its_author_wrote_it() -> None:
    document = present(ONE_OF_EACH)
    assert written_at(document, "includes", of_key=True) == '"draws in"'
    assert written_at(document, "includes", 0) == "b.coax-part.yaml"
    assert written_at(document, "devices", "Q", "kind") == '"equaliser"'
    leg = ("cables", "C", "route", 0, "p")
    assert written_at(document, *leg, "bend radius", of_key=True) == "tightest bend"
    assert written_at(document, *leg, "bend radius") == "3 in"
    assert written_at(document, *leg, "beside", 0, "by") == "armoured cable"
    assert written_at(document, "catalogue", "classes", "s7", "centers", "copper-clad aluminum", "size") == "18 AWG"
    assert document.has((*leg, "bend radius"))
    assert not document.has((*leg, "tightest bend"))
    assert document.numbers["cables", "C", "color"] == "012"


def test_it_is_done_once() -> None:
    document = present(ONE_OF_EACH)
    data = deepcopy(document.data)
    assert find(document, DESIGN_WORDS) == []
    assert with_present_words(document, DESIGN_WORDS).data == data


def test_a_former_key_beside_the_present_one_stays() -> None:
    text = HEAD + "cables: {C: {colour: red, color: blue}}\n"
    assert present(text).data == read_text(text, "x").data


@pytest.mark.parametrize(
    "text",
    [
        "devices: {service drop: {kind: outlet, place: service drop, note: equaliser}}",
        "cables: {colour: {from: A, to: B, labels: [colour]}}",
        "cables: {C: {route: [tightest bend: 3 ft]}}",
        "devices: {K: {kind: receiver, variant: analogue}}",
        "places: {centre: {note: analogue}}",
        "devices: 5\ncables: [colour]\nunits: {u: {but: {devices: {F: {variant: in-home data}}}}}",
        "units: {u: {like: [t], but: {devices: {F: {variant: in-home data}}}}}\ntypical: [t]",
    ],
)
def test_what_only_looks_like_a_former_word_stays(text: str) -> None:
    assert present(HEAD + text).data == read_text(HEAD + text, "x").data


def test_the_text_is_renewed_and_reads_as_the_data() -> None:
    renewal = renew(read_text(ONE_OF_EACH, "x"))
    assert renewal.is_new
    assert renewal.new.text == IN_PRESENT_WORDS
    assert renewal.new.data == present(ONE_OF_EACH).data
    assert renewal.changes[0] == Made(
        renewal.new.span(("includes",), of_key=True).start, "'draws in' is now 'includes'"
    )
    assert len(renewal.changes) == len(find(read_text(ONE_OF_EACH, "x"), DESIGN_WORDS))


@pytest.mark.parametrize("line_break", ["\n", "\r\n", "\r"])
def test_layout_and_comments_stay(line_break: str) -> None:
    text = "coaxwright: 1\ndevices:\n  D:   # the drop\n    kind:  'service drop'   # a service drop\n\n  # end\n"
    wanted = text.replace("'service drop'", "'coax drop'")
    assert renew(read_text(text.replace("\n", line_break), "x")).new.text == wanted.replace("\n", line_break)


def test_a_file_of_an_older_format_gets_both() -> None:
    text = "coaxwright: 0\ncables: {C: {between: [A, B], colour: red}}\ngrounding: {G: {kind: building electrode system}}\n"
    wanted = (
        "coaxwright: 1\ncables: {C: {from: A, to: B, color: red}}\nbonding: {G: {kind: grounding electrode system}}\n"
    )
    assert renew(read_text(text, "x")).new.text == wanted


def test_a_file_in_the_present_words_stays() -> None:
    assert not renew(read_text(IN_PRESENT_WORDS, "x")).is_new


def test_a_word_in_a_text_of_its_own_lines_is_renewed() -> None:
    text = "coaxwright: 1\ndevices:\n  D:\n    kind: |-\n      service drop\n    place: p\n"
    assert renew(read_text(text, "x")).new.data == present(text).data


RULESET = """\
ruleset: house
edition: 1
title: House (invented)
documents: {}
set:
  cable.conductor-material:
    words:
      clad aluminium: {is: "{cable}", should be: copper, remedy: "{suiting}"}   # our words
    sources: [{document: d, cases: [clad aluminium]}]
    limits: {least: {aluminium: {value: 8 AWG aluminium, document: d}}, centre: {value: 20 AWG, document: d}}
"""


def test_rulesets_have_former_words_as_well() -> None:
    renewal = reworded(read_text(RULESET, "x"), RULESET_WORDS)
    assert renewal.new.text == (
        RULESET.replace("clad aluminium", "clad aluminum")
        .replace("{is:", "{found:")
        .replace("should be:", "required:")
        .replace("{aluminium:", "{aluminum:")
        .replace("centre:", "center:")
    )
    assert renewal.new.data == present(RULESET, RULESET_WORDS).data


def test_catalogues_have_former_words_as_well() -> None:
    text = "coaxwright catalogue: 1\nclasses: {s7: {like: series 6, centres: {aluminium: {size: 18 AWG}}}}\n"
    renewal = reworded(read_text(text, "x"), CATALOGUE_WORDS)
    assert renewal.new.text == text.replace("centres", "centers").replace("aluminium", "aluminum")


def test_no_former_word_is_a_present_one_in_its_place() -> None:
    """A word that was left is never given another meaning."""
    for places in (DESIGN_PLACES, CATALOGUE_PLACES, RULESET_PLACES):
        for place in places:
            assert not set(place.words) & set(place.words.values()), place
