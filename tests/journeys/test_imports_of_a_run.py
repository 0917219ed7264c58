"""What one file reviewed from a shell may import: start-up time is mostly imports."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

PROGRAM = """
import contextlib, io, json, sys
before = set(sys.modules)
from coaxwright.cli import main
out = io.TextIOWrapper(io.BytesIO(), encoding="utf-8")
with contextlib.redirect_stdout(out):
    status = main()
modules = sorted(set(sys.modules) - before)
print(json.dumps({"status": status, "modules": modules, "standard": sorted(sys.stdlib_module_names)}))
"""
THIRD_PARTY = {
    "annotated_types",
    "jsonschema_rs",
    "pydantic",
    "pydantic_core",
    "typing_extensions",
    "typing_inspection",
    "yaml",
}
COMPILED_HELPERS = ("_cython", "cython_runtime", "_sysconfigdata", "_yaml")
"""Left in the list of modules by compiled extensions and by the standard library."""
NOT_FOR_A_CLEAR_DESIGN = {
    "coaxwright.amend",
    "coaxwright.catalogue.reference",
    "coaxwright.cli.commands",
    "coaxwright.cli.cite_command",
    "coaxwright.cli.show_command",
    "coaxwright.cli.start_command",
    "coaxwright.design.explain",
    "coaxwright.design.nearest",
    "coaxwright.design.phrases",
    "coaxwright.design.reference",
    "coaxwright.design.schema",
    "coaxwright.design.synonyms",
    "coaxwright.design.units",
    "coaxwright.findings.preexisting",
    "coaxwright.findings.punch_list",
    "coaxwright.findings.merge_units",
    "coaxwright.reports.instances",
    "coaxwright.loading",
    "coaxwright.publish",
    "coaxwright.reports.citation",
    "coaxwright.reports.json_report",
    "coaxwright.reports.preexisting",
    "coaxwright.reports.sarif",
    "coaxwright.reports.network_report.report",
    "coaxwright.reviewing.punch_list_match",
    "coaxwright.reviewing.repository",
    "coaxwright.reviewing.baseline",
    "coaxwright.rules.examples",
    "coaxwright.starters",
}
ROOMS = {
    "analysis",
    "catalogue",
    "checks",
    "cli",
    "design",
    "errors",
    "findings",
    "physics",
    "network",
    "reports",
    "reviewing",
    "rules",
    "shipped",
    "frozen_value",
    "source",
    "version",
}


@pytest.fixture
def imported(coax, site: Path):
    def run(*words: str) -> tuple[set[str], set[str]]:
        told = json.loads(coax(*words, program=PROGRAM).stdout)
        assert told["status"] == 0
        modules = set(told["modules"])
        own = {name for name in modules if name.partition(".")[0] == "coaxwright"}
        tops = {name.partition(".")[0] for name in modules - own} - set(told["standard"])
        return own, {name for name in tops if not name.startswith(COMPILED_HELPERS)}

    return run


def test_a_clear_design_imports_what_it_needs_and_no_more(imported) -> None:
    own, others = imported("review", "corrected.coax.yaml")
    assert others == THIRD_PARTY
    assert own & NOT_FOR_A_CLEAR_DESIGN == set()
    assert {name.split(".")[1] for name in own if "." in name} == ROOMS


def test_the_names_that_must_not_be_imported_are_names_of_modules() -> None:
    package = Path(__file__).parents[2] / "lint"
    for name in NOT_FOR_A_CLEAR_DESIGN:
        path = package / name.replace(".", "/")
        assert path.is_dir() or path.with_suffix(".py").is_file(), name


@pytest.mark.parametrize("word", ["--version", "--help"])
def test_a_fast_door_imports_only_itself(imported, word: str) -> None:
    own, others = imported(word)
    assert own == {"coaxwright", "coaxwright.cli", "coaxwright.version"}
    assert others == set()
