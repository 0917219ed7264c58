"""Of several verdicts of one facet the worst alone is told: what is not met before a question that is open."""

from __future__ import annotations

import pytest

from coaxwright.checks.contract import CannotJudge, NotMet
from coaxwright.checks.route._shared import worst_of_each
from coaxwright.design.sentences import short_length
from coaxwright.network import Unknown

OPEN = CannotJudge(Unknown("not stated", ()), facet="den")
NEAR = NotMet("near", (), {}, facet="den")
NEARER = NotMet("near", (), {}, facet="den", excess=0.1)
PARALLEL = NotMet("parallel", (), {}, facet="den")


def test_what_is_not_met_goes_before_a_question_and_that_before_advice() -> None:
    order = [NEARER, NEAR, OPEN, PARALLEL]
    for index, worse in enumerate(order):
        for better in order[index + 1 :]:
            assert list(worst_of_each([worse, better])) == [worse]
            assert list(worst_of_each([better, worse])) == [worse]


def test_facets_do_not_hide_one_another() -> None:
    elsewhere = NotMet("near", (), {}, facet="hall", excess=3)
    assert list(worst_of_each([OPEN, elsewhere, NEAR])) == [NEAR, elsewhere]


@pytest.mark.parametrize(
    ("length_m", "metric", "feet"),
    [
        (0.01234, "12.3 mm", "0.49 in"),
        (0.04, "40 mm", "1.57 in"),
        (0.9999, "999.9 mm", "3.3 ft"),
        (1.5, "1.5 m", "4.9 ft"),
        (0.61, "610 mm", "2 ft"),
    ],
)
def test_a_short_length_is_told_in_the_small_unit(length_m: float, metric: str, feet: str) -> None:
    """From a meter on in meters, from some two feet on in feet."""
    assert (short_length(length_m, True), short_length(length_m, False)) == (metric, feet)
