"""The examples of CI jobs: they read, their command lines run, and what they keep is what was written."""

from __future__ import annotations

import json
import re
import shlex
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

CI = Path(__file__).parents[2] / "examples" / "ci"
JOBS = sorted(path.name for path in CI.iterdir())


def read(name: str) -> Any:
    """YAML 1.2, in which the key ``on`` is a word."""
    return YAML(typ="safe", pure=True).load((CI / name).read_text(encoding="utf-8"))


def strings(data: object, key: str = "") -> Iterator[tuple[str, str]]:
    """Every text of a job, with the key that it stands under."""
    if isinstance(data, dict):
        for name, value in data.items():
            yield from strings(value, str(name))
    elif isinstance(data, list):
        for value in data:
            yield from strings(value, key)
    elif isinstance(data, str):
        yield key, data


def command(name: str) -> list[str]:
    """The words of the one command line of ours in a job."""
    (line,) = [text for _, text in strings(read(name)) if text.startswith("coaxwright ")]
    return shlex.split(line)[1:]


def kept(name: str) -> set[str]:
    """The files that a job keeps when it has ended."""
    keys = ("path", "paths", "codequality", "junit")
    found = [text for key, text in strings(read(name)) if key in keys]
    return {file for text in found for file in text.split() if "*" not in file}


def test_there_is_one_for_each_kind_of_system() -> None:
    assert JOBS == ["pipeline.yml", "workflow.yml"]
    assert set(read("workflow.yml")) == {"name", "on", "permissions", "jobs"}
    assert list(read("pipeline.yml")) == ["coaxial wiring"]


@pytest.mark.parametrize("name", JOBS)
def test_the_command_line_runs_and_writes_what_the_job_keeps(coax, site: Path, name: str) -> None:
    told = coax(*command(name))
    assert (told.returncode, told.stderr) == (1, "")
    written = {path.name for path in site.iterdir() if not path.name.endswith(".coax.yaml")}
    assert written == kept(name)
    (site / "as-drawn.coax.yaml").unlink()
    assert coax(*command(name)).returncode == 0


def test_annotations_lead_to_the_place_that_is_meant(coax, site: Path) -> None:
    told = coax(*command("workflow.yml"))
    marked = {}
    for line in told.stdout.splitlines():
        found = re.match(r"::\w+ file=([^,]+),line=(\d+),col=(\d+),title=[^:]*%3A (\S+) ", line)
        if found:
            file, row, column, rule = found.groups()
            text = (site / file).read_text(encoding="utf-8").splitlines()[int(row) - 1]
            marked[rule] = text[int(column) - 1 :]
    assert marked["bonding.conductor-length"].startswith("26 ft")
    assert marked["bonding.conductor-size"].startswith("14 AWG copper")
    assert marked["plan.reference-known"].startswith("KITCHN")
    assert marked["protection.entry-protector"].startswith("C-107:")


def test_the_reports_of_a_merge_request_agree_with_what_is_told(coax, site: Path) -> None:
    told = coax(*command("pipeline.yml"))
    quality = json.loads((site / "code-quality.json").read_text(encoding="utf-8"))
    for item in quality:
        place = f"{item['location']['path']}:{item['location']['lines']['begin']}:"
        assert any(line.startswith(place) and f" {item['check_name']} " in line for line in told.stdout.splitlines())


def test_the_paths_that_start_a_workflow_are_those_of_the_hook_and_punch_lists() -> None:
    """A hook cannot review a punch list; a workflow reviews everything, and a list that lost items returns designs."""
    hook = YAML(typ="safe", pure=True).load((CI.parents[1] / ".pre-commit-hooks.yaml").read_text(encoding="utf-8"))
    paths = read("workflow.yml")["on"]["pull_request"]["paths"]
    assert [path for path in paths if not re.search(hook[0]["files"], path.replace("**", "plans/a"))] == [
        "**.coax-punch-list.yaml"
    ]
    assert len(paths) == 6
