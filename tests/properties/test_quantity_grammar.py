"""The pattern in the schema and the parser accept the same texts, whoever reads the pattern."""

from __future__ import annotations

from functools import cache
from math import isfinite

import jsonschema_rs
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from coaxwright.design.quantities import Length, Quantity, QuantityError, in_feet, in_meters, shown, total

KINDS = sorted(Quantity.__subclasses__(), key=lambda kind: kind.NAME)


@cache
def validators(kind: type[Quantity]) -> tuple[Draft202012Validator, jsonschema_rs.Draft202012Validator]:
    schema = {"type": "string", "pattern": kind.PATTERN}
    return Draft202012Validator(schema), jsonschema_rs.Draft202012Validator(schema)


def near_the_grammar(kind: type[Quantity]) -> st.SearchStrategy[str]:
    pieces = st.sampled_from(
        [*kind.UNITS, "ft", "MHz", "dB", " ", " ", "to", "at", "/", "/100 ", ".", "-", "−", "+", "(", ")", "'", '"',
         "1", "2", "10", "3/4", "0", "copper", "solid", "AWG", "°", "é", "\t", "１"]
    )  # fmt: skip
    loose = st.lists(pieces, max_size=8).map("".join)
    return st.one_of(st.from_regex(kind.PATTERN, fullmatch=True), loose)


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.NAME)
@settings(max_examples=30, deadline=None)
@given(data=st.data())
def test_schema_and_parser_accept_the_same(kind: type[Quantity], data: st.DataObject) -> None:
    text = data.draw(near_the_grammar(kind)).rstrip("\n")
    try:
        quantity = kind.parse(text)
    except QuantityError:
        parsed = False
    else:
        parsed = True
        assert quantity.text == text
        assert all(
            isfinite(value) for slot in type(quantity).__slots__ if isinstance(value := getattr(quantity, slot), float)
        )
    reference, fast = validators(kind)
    assert (reference.is_valid(text), fast.is_valid(text)) == (parsed, parsed)


@given(st.text("0123456789ft min./'", max_size=12))
@settings(max_examples=200, deadline=None)
def test_the_nearest_is_accepted(text: str) -> None:
    nearest = Length.nearest(text)
    assert nearest is None or Length.parse(nearest).text == nearest


@given(st.floats(-1e12, 1e12), st.integers(0, 4))
def test_shown_is_zero_for_zero_only(value: float, decimals: int) -> None:
    text = shown(value, decimals)
    assert (float(text) == 0) == (value == 0)
    assert "e" not in text


@given(st.lists(st.from_regex(r"^[0-9]{1,4}(?:\.[0-9])? (?:ft|in|m|mm)$", fullmatch=True), max_size=5))
def test_a_total_is_the_sum(texts: list[str]) -> None:
    lengths = [Length.parse(text.strip()) for text in texts]
    whole = total(lengths)
    assert abs(whole.length_m - sum(length.length_m for length in lengths)) < 1e-9
    assert whole.is_metric == (not lengths or any(length.is_metric for length in lengths))


@given(st.floats(0.001, 1e6))
def test_a_computed_length_can_be_written_in_a_design(value: float) -> None:
    for computed in (in_feet(value), in_meters(value)):
        assert abs(Length.parse(computed.text).length_m - computed.length_m) <= 0.05 * 0.3048 * (1 + 1e-9)
