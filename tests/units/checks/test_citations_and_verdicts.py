"""How a source is cited, when limits are the same (``coaxwright.checks.limits``), and what a verdict leaves unsaid."""

from __future__ import annotations

import pytest

from coaxwright.checks import Citation, Correction, Limit, Limits, NotMet
from coaxwright.checks.contract import CannotJudge
from coaxwright.design.quantities import Decibels
from coaxwright.network import Unknown


@pytest.mark.parametrize(
    ("citation", "text"),
    [
        (Citation("IEC 60728-1", "Cable networks", "2014", "5.4", "found"), "IEC 60728-1 (2014), 5.4"),
        (Citation("IEC 60728-1", "Cable networks", "", "5.4", "found"), "IEC 60728-1, 5.4"),
        (Citation("IEC 60728-1", "Cable networks", "2014"), "IEC 60728-1 (2014)"),
        (Citation("IEC 60728-1", "", "2014", "5.4", "from memory"), "IEC 60728-1 (2014), 5.4 [from memory]"),
        (Citation("common practice", confidence="common practice"), "common practice, no source"),
    ],
)
def test_a_source_is_cited_with_edition_clause_and_how_it_was_had(citation: Citation, text: str) -> None:
    assert str(citation) == text


def limits(value: str) -> Limits:
    limit = Limit("most", (), Decibels.parse(value), Citation("common practice"), "trade 1")
    return Limits({("most",): limit})


def test_limits_are_the_same_where_they_say_the_same() -> None:
    assert limits("3 dB") == limits("3 dB")
    assert limits("3 dB") != limits("4 dB")
    assert limits("3 dB") != "3 dB"


def test_what_a_verdict_leaves_unsaid() -> None:
    """It stands at a value and not at a key, and is beyond nothing: of several units alike none is worse."""
    told = NotMet("case", ("devices", "X"), {})
    assert (told.at_key, told.excess, told.facet, told.is_by_practice) == (False, 0, "", False)
    assert Correction(("devices", "X"), "Y").at_key is False
    assert CannotJudge(Unknown("x", ())).facet == ""
