"""A catalogue of an author's own with anything in it is read, or refused with problems that stand in its text."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from coaxwright.catalogue.author_values import with_own
from coaxwright.source import Document, ReadError, read_text

TEXT = """coaxwright catalogue: 1
note: a list
sources: {sheet: {document: a sheet, edition: "2026"}}
classes:
  shop 7:
    like: series 6
    source: data sheet
    also: [S7]
    velocity: 84 %
    attenuation:
      {temperature: 20 °C, spread: {low: -2 %, high: 3 %}, table: {5 MHz: 0.6 dB/100 ft, 1 GHz: 6.3 dB/100 ft}}
    shields: {quad: {outer diameter: 7 mm, screening class: A++}}
    centers: {copper: {size: 18 AWG}}
    jackets: [outdoor, indoor]
    defaults: {shield: quad}
    sources: {velocity: sheet}
devices:
  quiet splitter:
    like: 2-way splitter
    ways: 2
    ports: [{name: in, direction: in, group: in}, {name: out, count: 2, direction: out, group: out}]
    paths: [{from: in, to: out, band: 5 MHz to 1218 MHz, low: 3.2 dB, nominal: 3.4 dB, sources: {low: sheet}}]
    isolations: [{from: out, to: out, band: 5 MHz to 1218 MHz, nominal: 20 dB}]
    power paths: [{from: in, to: out, passes: true}]
    passes power: false
    fed at: [in]
    gain: {nominal: 1 dB}
"""
WHOLE = read_text(TEXT, "x.coax-catalogue.yaml")
PATHS = [path for path in WHOLE.order() if path]
GARBAGE = ["", "x", "0", "-1", "1e9", "true", "null", "[]", "{}", "[x]", "{x: y}", "5 MHz"]
GARBAGE += ["0 dB", "-5 dB", "0 %", "5 %", "-200 %", "0 ohm"]


def changed(path: tuple[str | int, ...], garbage: str) -> str:
    """The text with another value at a path."""
    span = WHOLE.span(path)
    return TEXT[: span.start.index] + garbage + TEXT[span.end.index :]


@settings(deadline=None)  # the first look reads the shipped catalogue
@given(st.sampled_from(PATHS), st.sampled_from(GARBAGE), st.booleans())
def test_read_or_refused_at_a_place(path: tuple[str | int, ...], garbage: str, in_design: bool) -> None:
    text = changed(path, garbage)
    try:
        document: Document = read_text(text, "x.coax-catalogue.yaml")
    except ReadError:
        return  # no plain data any more
    data: Any = document.data
    if in_design and isinstance(data, dict):
        entries = {key: value for key, value in data.items() if key != "coaxwright catalogue"}
        catalogue, problems = with_own([], Document(document.name, text, entries, document.spots))
    else:
        catalogue, problems = with_own([document])
    lines = text.split("\n")
    for problem in problems:
        assert 1 <= problem.span.start.line <= len(lines)
        assert problem.span.start.column <= len(lines[problem.span.start.line - 1]) + 1
        assert problem.what
        assert "\n" not in problem.message
    if not problems:
        assert catalogue.own or "classes" not in data or not data["classes"]
        for name in catalogue.models:
            assert catalogue.models[name].ports is not None
        for name in catalogue.own:
            if name in catalogue.every_class:
                low, nominal, high = catalogue.every_class[name].attenuation.loss_db_per_m(500e6)
                assert 0 < low <= nominal <= high


def test_the_text_as_it_stands_is_read() -> None:
    assert with_own([WHOLE])[1] == []
