"""Limits without a code: what is computed is computed again, and what has no source says so."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from pathlib import Path

import pytest

from coaxwright.checks import Limit
from coaxwright.design.quantities import LengthPair
from coaxwright.rules import combine, shipped_registry

DATA = Path(__file__).parent / "data"
FACTS = {
    "NFPA 70": "nfpa_70.csv",
    "NFPA 70 chapter 9": "nfpa_70_chapter_9.csv",
    "ANSI/TIA-570": "tia_570.csv",
    "DOCSIS PHY 3.0": "docsis_phy.csv",
    "DOCSIS RFI": "docsis_rfi.csv",
    "IEC/EN 60728-1": "en_60728_1.csv",
    "ATSC A/74": "atsc_a74.csv",
    "CPSC advice": "cpsc_advice.csv",
    "installer notes": "installer_notes.csv",
}
"""The data file of each document that a limit may cite as seen."""
WITHOUT_A_FACT = {"from memory", "common practice", "derived"}
DERIVED = {("cable.run-length", "longest", "series 59"), ("cable.run-length", "longest", "series 11")}


def rows(name: str) -> list[dict[str, str]]:
    return list(csv.DictReader((DATA / name).read_text(encoding="utf-8").splitlines()))


def _limits() -> Iterator[tuple[str, str, Limit]]:
    shelf = shipped_registry()
    for name in shelf.names:
        for edition in shelf.editions(name):
            label = f"{name} {edition}"
            for rule in combine([label], shelf).rules.values():
                yield from ((label, rule.name, limit) for limit in rule.limits.all() if limit.origin == label)


LIMITS = list(_limits())


def longest(name: str) -> LengthPair:
    pair = combine(["trade 1"], shipped_registry()).rules["cable.run-length"].limits.row(LengthPair, "longest", name)
    assert pair is not None
    return pair


@pytest.mark.parametrize(
    ("label", "rule", "limit"),
    LIMITS,
    ids=[f"{label}: {rule}: {' / '.join((limit.name, *limit.keys))}" for label, rule, limit in LIMITS],
)
def test_every_limit_rests_on_a_fact_or_says_that_it_does_not(label: str, rule: str, limit: Limit) -> None:
    source = limit.source
    if source.confidence in WITHOUT_A_FACT:
        assert (source.confidence == "derived") == ((rule, limit.name, *limit.keys) in DERIVED)
        return
    facts = [
        row
        for row in rows(FACTS[source.document])
        if (row["edition"], row["clause"], row["confidence"]) == (source.edition, source.clause, source.confidence)
    ]
    figures = limit.value.text.split("(")[0].split()[0]
    assert [row["id"] for row in facts if row["value"].split("; ")[0] == figures], f"{label} has no fact for {limit}"


def test_some_limits_of_each_sort_are_there() -> None:
    confidences = {limit.source.confidence for _, _, limit in LIMITS}
    assert confidences == {"found", "found in part", "from memory", "derived", "common practice"}


def test_longest_outlet_cable_of_series_6() -> None:
    """ANSI/TIA-570: 90 m, printed as 295 ft."""
    (row,) = rows("tia_570.csv")
    feet, meters = row["value"].split("; ")
    assert longest("series 6").text == f"{feet} ft ({meters} m)"


@pytest.mark.parametrize("name", ["series 59", "series 11"])
def test_other_classes_reach_as_far_as_their_loss_lets_them(name: str) -> None:
    """Derived from the table of maximum attenuation of ANSI/SCTE 74: the length with the loss of Series 6 at 1000 MHz.

    To the nearest foot and the nearest tenth of a meter, each from its own half of the published pair.
    """
    loss_db_per_100_ft = {
        row["cable_class"]: float(row["loss_db_per_100_ft"])
        for row in rows("scte_74_drop_loss.csv")
        if float(row["freq_mhz"]) == 1000
    }
    share = loss_db_per_100_ft["series 6"] / loss_db_per_100_ft[name]
    assert longest(name).text == f"{295 * share:.0f} ft ({90 * share:.1f} m)"


def test_the_protection_distance_is_a_round_ten_meters() -> None:
    """IEC 62305-4, from memory: 10 m; feet to the nearest whole one."""
    reach = combine(["trade 1"], shipped_registry()).rules["protection.antenna-end"].limits.one(LengthPair, "reach")
    assert reach is not None
    assert reach.metric.length_m == 10
    assert reach.feet.length_ft == round(10 / 0.3048)
