"""A whole house with a barn that no clause is broken in, and one change after another, each with its one finding."""

from __future__ import annotations

import pytest
from worked_site import CHANGES, EDITIONS, SITE, TOPICS

from coaxwright.findings import Outcome
from coaxwright.reviewing import judge
from coaxwright.rules import shipped_registry
from coaxwright.source import read_text


def told(edition: str, text: str) -> tuple[tuple[str, Outcome], ...]:
    """All that is told of these topics: rule and outcome, each as often as it is told."""
    review = judge(read_text(text.replace("EDITION", edition), "bench.coax.yaml"), shipped_registry())
    assert [str(problem) for problem in review.problems] == []
    assert review.crashes == ()
    return tuple(sorted((one.rule, one.outcome) for one in review.findings if one.rule.startswith(TOPICS)))


@pytest.mark.parametrize("edition", EDITIONS)
def test_nothing_is_told_of_the_site_as_it_stands(edition: str) -> None:
    assert told(edition, SITE) == ()


@pytest.mark.parametrize("edition", EDITIONS)
@pytest.mark.parametrize("name", CHANGES)
def test_a_change_has_its_one_finding(name: str, edition: str) -> None:
    change = CHANGES[name]
    assert SITE.count(change.old) == 1
    assert told(edition, SITE.replace(change.old, change.new)) == tuple(sorted(change.told))
