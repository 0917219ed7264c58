"""Plain scalars are typed by the core schema of YAML 1.2.

Source: YAML Ain't Markup Language, version 1.2, revision 1.2.2 (2021), section 10.3.2, tag resolution, and
example 10.9. Where the table is silent the value is a text.
"""

from __future__ import annotations

import math

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st
from ruamel.yaml import YAML

from coaxwright.source import ReadError, read_text


def read(scalar: str) -> object:
    data = read_text(f"a: {scalar}\n", "x").data
    assert isinstance(data, dict)
    return data["a"]


def same(one: object, other: object) -> bool:
    if isinstance(one, float) and isinstance(other, float) and math.isnan(one):
        return math.isnan(other)
    return type(one) is type(other) and one == other


VALUES = [
    # YAML 1.1 would read other values out of these
    ("no", "no"),
    ("on", "on"),
    ("yes", "yes"),
    ("off", "off"),
    ("y", "y"),
    ("12:30:45", "12:30:45"),
    ("2027-06-30", "2027-06-30"),
    ("1_000", "1_000"),
    ("0b11", "0b11"),
    ("012", 12),
    ("1e3", 1000.0),
    ("0o14", 12),
    # section 10.3.2
    ("", None),
    ("~", None),
    ("null", None),
    ("Null", None),
    ("NULL", None),
    ("nULL", "nULL"),
    ("true", True),
    ("True", True),
    ("FALSE", False),
    ("tRUE", "tRUE"),
    ("0", 0),
    ("-19", -19),
    ("+12", 12),
    ("0o7", 7),
    ("0o8", "0o8"),
    ("-0o7", "-0o7"),
    ("0x3A", 58),
    ("0x1F", 31),
    ("0X1F", "0X1F"),
    ("0.", 0.0),
    ("1.", 1.0),
    (".5", 0.5),
    ("-.5", -0.5),
    ("-0.0", -0.0),
    ("+12e03", 12000.0),
    ("-2E+05", -200000.0),
    ("1e", "1e"),
    (".", "."),
    ("1.2.3", "1.2.3"),
    ("-", "-"),
    ("+", "+"),
    (".inf", math.inf),
    ("-.Inf", -math.inf),
    ("+.INF", math.inf),
    (".nan", math.nan),
    (".NaN", math.nan),
    ("-.nan", "-.nan"),
    ("inf", "inf"),
    ("nan", "nan"),
    ("1e400", math.inf),
    ("+0x0", "+0x0"),
    ("-0o7", "-0o7"),
    # quoted values are texts
    ("'012'", "012"),
    ('"true"', "true"),
    ("''", ""),
]


@pytest.mark.parametrize(("scalar", "value"), [pair for pair in VALUES if pair[0] != "-"])
def test_value(scalar: str, value: object) -> None:
    assert same(read(scalar), value), read(scalar)


def independent(scalar: str) -> object:
    return YAML(typ="safe", pure=True).load(f"a: {scalar}\n")["a"]


PIECES = st.sampled_from([*"0123456789+-.eExXoOnNaAfFiIuUlLtTrRsS:~yYD_ ", "null", "true", ".inf", ".nan", "0x", "0o"])


@given(st.lists(PIECES, min_size=1, max_size=7).map("".join))
@example("12:30:45")
@example("0o14")
@settings(max_examples=400, deadline=None)
def test_an_independent_reader_of_1_2_agrees(scalar: str) -> None:
    scalar = scalar.strip()
    # That reader goes on accepting these beside 1.2: figures parted by underscores, binary numbers, dates, and a sign
    # before a hexadecimal or octal number, which 10.3.2 does not have.
    assume("_" not in scalar and "0b" not in scalar)
    assume(not (scalar[:1] in "+-" and scalar[1:3] in ("0x", "0o")))
    assume(not (len(scalar) >= 8 and scalar[:4].isdigit() and scalar[4] == "-"))
    try:
        ours = read(scalar)
    except ReadError:
        assume(False)  # punctuation, not a plain scalar
    assert same(ours, independent(scalar)), (ours, independent(scalar))
