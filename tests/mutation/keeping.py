"""What came out of the mutants, kept beside the tests: a row for each module, and each mutant that survived."""

from __future__ import annotations

import csv
from collections.abc import Mapping, Sequence
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
CHECKS = Path(__file__).parents[2] / "lint" / "coaxwright" / "checks"
Key = tuple[str, str, str]


def modules() -> list[str]:
    """The modules of the checks, by their names below the package: ``jacket``, ``level.tilt``, ``level._shared``."""
    files = (path.relative_to(CHECKS).with_suffix("") for path in CHECKS.rglob("*.py") if path.stem != "__init__")
    return sorted(".".join(path.parts) for path in files)


def file_of(module: str) -> Path:
    return CHECKS.joinpath(*module.split(".")).with_suffix(".py")


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
    _write_survivors({**_survivors(), module: told})
    equivalent = sum("equivalent" in one for one in told)
    killed = len(every) - len(told)
    figures = (len(every), killed, len(told) - equivalent, equivalent)
    rows = {row["module"]: row for row in results()}
    rows[module] = dict(zip(FIELDS, (module, *map(str, figures)), strict=True))
    _write_rows(rows)


def only_rows_of(every: Sequence[str]) -> None:
    """Add a row without figures for each module that has none, and drop those of modules that are gone.

    A reason goes with its line where one module alone has that line now.
    """
    rows = {row["module"]: row for row in results()}
    _write_rows({name: rows.get(name) or dict.fromkeys(FIELDS, "") | {"module": name} for name in every})
    survivors = {name: told for name, told in _survivors().items() if name in every}
    lines = {name: {line.strip() for line in file_of(name).read_text(encoding="utf-8").splitlines()} for name in every}
    for gone in _survivors().keys() - set(every):
        for one in _survivors()[gone]:
            new_homes = [name for name in every if one["line"] in lines[name] and not rows.get(name)]
            if one.get("equivalent") and len(new_homes) == 1:
                survivors.setdefault(new_homes[0], []).append(one)
    _write_survivors(survivors)


def _write_rows(rows: Mapping[str, Mapping[str, str]]) -> None:
    with RESULTS.open("w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, FIELDS, lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows[name] for name in sorted(rows))


def _write_survivors(survivors: Mapping[str, Sequence[Mapping[str, str]]]) -> None:
    named = {name: list(told) for name, told in sorted(survivors.items()) if told}
    text = yaml.safe_dump(named, sort_keys=False, allow_unicode=True, width=10_000)
    SURVIVORS.write_text(HEADING + text, encoding="utf-8")


def results() -> list[dict[str, str]]:
    if not RESULTS.exists():
        return []
    with RESULTS.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _survivors() -> dict[str, list[dict[str, Any]]]:
    return (yaml.safe_load(SURVIVORS.read_text(encoding="utf-8")) if SURVIVORS.exists() else None) or {}
