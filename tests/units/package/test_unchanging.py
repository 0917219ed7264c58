"""Values compare, hash, show and copy as frozen dataclasses do; that they are never changed, the type checker holds."""

from __future__ import annotations

import copy
import pickle
from dataclasses import dataclass, field, fields, replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coaxwright.frozen_value import frozen_value


@frozen_value
class Mine:
    tag: str
    lengths_m: tuple[float, ...] = ()
    kept: dict[str, int] = field(default_factory=dict, compare=False, repr=False)

    @property
    def total_m(self) -> float:
        return sum(self.lengths_m)


@dataclass(frozen=True, slots=True)
class Model:
    """The same as the standard library makes it."""

    tag: str
    lengths_m: tuple[float, ...] = ()
    kept: dict[str, int] = field(default_factory=dict, compare=False, repr=False)


@frozen_value(eq=False)
class Thing:
    tag: str


@frozen_value
class Alone:
    size: int

    def __repr__(self) -> str:
        return f"<{self.size}>"


FIGURES = st.tuples(st.text(max_size=3), st.lists(st.floats(allow_nan=False), max_size=3).map(tuple))


@given(FIGURES, FIGURES)
def test_it_compares_hashes_and_shows_as_a_frozen_dataclass(one: tuple[str, tuple[float, ...]], other: object) -> None:
    mine, model = (Mine(*one), Mine(*other)), (Model(*one), Model(*other))  # type: ignore[misc]
    assert (mine[0] == mine[1]) is (model[0] == model[1])
    assert (mine[0] != mine[1]) is (model[0] != model[1])
    assert hash(mine[0]) == hash(Mine(*one))
    assert repr(mine[0]) == repr(model[0]).replace("Model", "Mine")
    assert {mine[0], Mine(*one)} == {mine[0]}


def test_what_is_not_compared_makes_no_difference() -> None:
    assert Mine("a", (), {"x": 1}) == Mine("a")
    assert Mine("a") != Model("a")
    assert Mine("a") != "a"


def test_one_field_is_enough() -> None:
    assert Alone(1) == Alone(1)
    assert Alone(1) != Alone(2)
    assert repr(Alone(1)) == "<1>"


def test_a_thing_is_equal_to_itself_alone() -> None:
    thing = Thing("SP1")
    assert thing == thing
    assert thing != Thing("SP1")
    assert len({thing, Thing("SP1")}) == 2


def test_it_has_slots_and_copies_with_a_change() -> None:
    made = Mine("a", (1.0, 2.0))
    assert not hasattr(made, "__dict__")
    assert replace(made, tag="b") == Mine("b", (1.0, 2.0))
    assert made.tag == "a"
    assert made.total_m == 3.0
    assert [one.name for one in fields(made)] == ["tag", "lengths_m", "kept"]


@pytest.mark.parametrize("made", [Mine("a", (1.0,)), Alone(3)])
def test_it_goes_to_another_process_and_back(made: object) -> None:
    assert pickle.loads(pickle.dumps(made)) == made
    assert copy.deepcopy(made) == made
