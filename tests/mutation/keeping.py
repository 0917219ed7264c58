"""What came out of the mutants, kept beside the tests: a row for each module, and each mutant that survived."""

from __future__ import annotations

import csv
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import yaml
from mutants import Mutant

RESULTS = Path(__file__).with_name("results.csv")
SURVIVORS = Path(__file__).with_name("survivors.yaml")
FIELDS = ("module", "mutants", "killed", "survived", "equivalent")
HEADING = """\
# The mutants of the checks that no test tells, by module; written by tests/mutation/run.py, which keeps the reasons.
# One with "equivalent" does what the module does, for the reason given. One without is a test that is missing.
"""
Key = tuple[str, str, str]


def kept(module: str) -> dict[Key, str]:
    """The mutants of a module that survived last time, with the reasons why they are equivalent."""
    return {
        (str(one["in"]), str(one["line"]), str(one["mutant"])): str(one.get("equivalent", ""))
        for one in _survivors().get(module, ())
    }


def keep(module: str, every: Sequence[Mutant], alive: Sequence[Mutant]) -> None:
    """Write down what came out for one module; reasons that somebody wrote stay with their mutants."""
    reasons = kept(module)
    told: list[dict[str, str]] = []
    for mutant in alive:
        one = {"in": mutant.function, "line": mutant.text, "mutant": mutant.what}
        told.append({**one, "equivalent": reasons[mutant.key]} if reasons.get(mutant.key) else one)
    survivors = {**_survivors(), module: told}
    if not told:
        del survivors[module]
    text = yaml.safe_dump(dict(sorted(survivors.items())), sort_keys=False, allow_unicode=True, width=10_000)
    SURVIVORS.write_text(HEADING + text, encoding="utf-8")
    equivalent = sum("equivalent" in one for one in told)
    killed = len(every) - len(told)
    figures = (len(every), killed, len(told) - equivalent, equivalent)
    rows = {row["module"]: row for row in results()}
    rows[module] = dict(zip(FIELDS, (module, *map(str, figures)), strict=True))
    with RESULTS.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, FIELDS, lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows[name] for name in sorted(rows))


def results() -> list[dict[str, str]]:
    if not RESULTS.exists():
        return []
    with RESULTS.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _survivors() -> dict[str, list[dict[str, Any]]]:
    return (yaml.safe_load(SURVIVORS.read_text(encoding="utf-8")) if SURVIVORS.exists() else None) or {}
