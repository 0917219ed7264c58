"""Whatever a design is turned into, it is understood, or refused with problems inside its text."""

from __future__ import annotations

import copy
import io
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from ruamel.yaml import YAML

from coaxwright.design import Design, NotUnderstood, understand
from coaxwright.source import read_text

DESIGN: dict[str, Any] = {
    "coaxwright": 1,
    "title": "Heron Lane 14",
    "basis": {"rulesets": ["us 2023"], "occupancy": "commercial"},
    "buildings": {"house": {"entry": ["north wall"], "lightning system": True}},
    "places": {"attic": {"building": "house", "exposure": "attic", "temperature": "-10 to 50 °C"}},
    "services": {
        "broadband": {
            "kind": "cable broadband",
            "from": "DROP",
            "down": {"band": "54 MHz to 1002 MHz", "level": ["10 dBmV at 54 MHz"]},
        }
    },
    "devices": {
        "SP1": {"kind": "splitter", "ways": 3, "place": "attic"},
        "ANT": {"kind": "antenna", "gain": "9 dBi", "mast": {"height": "10 ft", "metal": True}},
        "LIV": {"kind": "outlet", "serves": ["broadband"]},
    },
    "cables": {"C-1": {"from": "SP1", "to": "LIV", "type": "series 6", "route": [{"attic": "3 ft"}]}},
    "bonding": {
        "B-1": {"from": "ANT.mast", "to": "R", "conductor": "10 AWG copper"},
        "R": {"kind": "ground rod", "place": "yard"},
    },
    "typical": {
        "flat": {
            "places": {"hall": {"building": "house"}},
            "devices": {"TV": {"kind": "outlet", "place": "hall"}, "SP": {"kind": "splitter", "ways": 2}},
            "cables": {"C": {"from": "SP", "to": "TV", "type": "series 6", "route": [{"hall": "3 ft"}]}},
        }
    },
    "units": {
        "u-1 to u-3": {"like": "flat"},
        "u-4": {"like": "flat", "but": {"devices": {"SP": {"ways": 3, "place": "attic"}}}, "leaves out": ["TV", "C"]},
    },
}
WRONG = st.sampled_from(
    [
        None,
        True,
        5,
        3.5,
        float("inf"),
        10**40,
        "",
        " ",
        "yes",
        "outlet",
        "kind",
        "9 dB",
        "85 ft",
        "x\n",
        [],
        {},
        [1],
        ["a"],
        {"kind": "outlet"},
        {"from": "A", "to": "B"},
        {"attic": "3 ft"},
        {"length": None},
        {"like": "flat"},
        [["a"]],
    ]
)
KEYS = st.sampled_from(
    [
        "kind",
        "from",
        "to",
        "place",
        "length",
        "Kind",
        "devices",
        "C-1",
        ".x",
        "x ",
        "gain",
        "title",
        "5",
        "like",
        "but",
        "u-2",
        "SP",
        "u-4/SP",
        "u-3 to u-1",
        "u-1 to u-9",
    ]
)


def paths(value: object, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    steps: Any = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    return [path, *(found for step, inner in steps for found in paths(inner, (*path, step)))]


PATHS = paths(DESIGN)[1:]


def change(design: dict[str, Any], path: tuple[Any, ...], how: str, value: object, key: str) -> None:
    owner: Any = design
    for step in path[:-1]:
        if step not in (owner if isinstance(owner, dict) else range(len(owner)) if isinstance(owner, list) else ()):
            return  # an earlier change took it away
        owner = owner[step]
    if isinstance(owner, dict) and path[-1] in owner:
        old = owner.pop(path[-1])
        if how != "remove":
            owner[path[-1] if how == "replace" else key] = value if how == "replace" else old
    elif isinstance(owner, list) and how == "replace":
        owner[:1] = [copy.deepcopy(value)]


CHANGES = st.lists(
    st.tuples(st.sampled_from(PATHS), st.sampled_from(["remove", "replace", "rename"]), WRONG, KEYS),
    min_size=1,
    max_size=3,
)


@given(CHANGES)
@settings(max_examples=250, deadline=None)
def test_understood_or_refused_with_problems_in_order(changes: list[tuple[Any, str, Any, str]]) -> None:
    design = copy.deepcopy(DESIGN)
    for path, how, value, key in changes:
        change(design, path, how, copy.deepcopy(value), key)
    stream = io.StringIO()
    YAML(typ="safe", pure=True).dump(design, stream)
    document = read_text(stream.getvalue(), "x")
    try:
        understood = understand(document)
    except NotUnderstood as refused:
        found = refused.problems
        assert found
        assert found == sorted(found, key=lambda problem: (problem.span, problem.message))
        for problem in found:
            assert 0 <= problem.span.start.index <= problem.span.end.index <= len(document.text)
            assert "\n" not in problem.message
            assert "None" not in problem.message
    else:
        assert isinstance(understood, Design)


def test_the_unchanged_design_is_understood() -> None:
    stream = io.StringIO()
    YAML(typ="safe", pure=True).dump(DESIGN, stream)
    assert len(understand(read_text(stream.getvalue(), "x")).devices) == 3 + 3 * 2 + 1
