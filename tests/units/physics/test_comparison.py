from __future__ import annotations

from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coaxwright.physics.comparison import at_least, at_most

figures = st.floats(min_value=-1e9, max_value=1e9)


@pytest.mark.parametrize("limit", [20.0, -3.0, 0.0, 6.096, 1e-12, inf, -inf])
def test_a_limit_is_met_when_equal(limit: float) -> None:
    assert at_most(limit, limit)
    assert at_least(limit, limit)


def test_a_sum_that_rounding_moved_meets_its_limit() -> None:
    assert 0.1 + 0.2 > 0.3
    assert at_most(0.1 + 0.2, 0.3)
    assert at_least(10 - 3.5 - 6.4 - 0.1, 0.0)


@pytest.mark.parametrize(("value", "limit"), [(20.0001, 20), (1e-9, 0), (-2.9999, -3)])
def test_what_is_beyond_on_paper_is_beyond(value: float, limit: float) -> None:
    assert not at_most(value, limit)
    assert not at_least(-value, -limit)


def test_not_a_number_meets_nothing() -> None:
    assert not at_most(nan, 1)
    assert not at_least(nan, 1)
    assert not at_most(1, nan)


@given(figures, figures)
def test_one_side_or_the_other(value: float, limit: float) -> None:
    assert at_most(value, limit) or at_least(value, limit)
    assert at_most(value, limit) == at_least(-value, -limit)
