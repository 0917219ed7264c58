"""The rule that was probably meant."""

from __future__ import annotations

import pytest

from coaxwright.rules import nearest_rule, topic_of

NAMES = (
    "bonding.conductor-length",
    "bonding.conductor-size",
    "indata.entry-filter",
    "protection.antenna-end",
    "protection.entry-protector",
)


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("bonding.conductor-lenght", "bonding.conductor-length"),
        ("bonding.conductor-sise", "bonding.conductor-size"),
        ("entry.filter", "indata.entry-filter"),
        ("filter at entry", "indata.entry-filter"),
        ("Conductor Size", "bonding.conductor-size"),
        ("protecton-entry", "protection.entry-protector"),
        ("xyzzy", None),
        ("", None),
    ],
)
def test_the_rule_is_found_by_its_words(written: str, meant: str | None) -> None:
    assert nearest_rule(written, NAMES) == meant
    assert nearest_rule(written, reversed(NAMES)) == meant


def test_the_topic_stands_before_the_dot() -> None:
    assert topic_of("bonding.conductor-length") == "bonding"
