"""What is kept of the mutants: a row for every module of the checks, which adds up, and each that no test tells."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from coaxwright.source import read_file

HERE = Path(__file__).parent
CHECKS = HERE.parents[1] / "lint" / "coaxwright" / "checks"
with (HERE / "results.csv").open(encoding="utf-8", newline="") as file:
    ROWS = {row["module"]: row for row in csv.DictReader(file)}
ASKED = [module for module, row in ROWS.items() if row["killed"]]
"""A row without figures is of a module that nobody has asked yet."""
SURVIVORS = read_file(HERE / "survivors.yaml", "survivors.yaml").data


def test_every_module_of_the_checks_has_a_row_and_no_other() -> None:
    """``python tests/mutation/run.py --rows`` brings the rows up to date.

    Reasons can stand in a module that has not been asked yet, whose lines came from another one.
    """
    files = (path.relative_to(CHECKS).with_suffix("") for path in CHECKS.rglob("*.py") if path.stem != "__init__")
    assert sorted(ROWS) == sorted(".".join(path.parts) for path in files)
    assert set(SURVIVORS) <= set(ROWS)
    not_asked = set(SURVIVORS) - set(ASKED)
    assert all(one.get("equivalent") for module in not_asked for one in SURVIVORS[module])


@pytest.mark.parametrize("module", ASKED)
def test_a_row_adds_up_with_the_survivors_that_are_named(module: str) -> None:
    figures = {name: int(figure) for name, figure in ROWS[module].items() if name != "module"}
    named = SURVIVORS.get(module, [])
    reasoned = [one for one in named if one.get("equivalent")]
    assert figures["mutants"] == figures["killed"] + figures["survived"] + figures["equivalent"]
    assert (figures["survived"], figures["equivalent"]) == (len(named) - len(reasoned), len(reasoned))
