"""A plan repository with settings, executed as its example stands in the project."""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator

from coaxwright.shipped import shipped

EXAMPLE = Path(__file__).parents[2] / "examples" / "plan-repository"


@pytest.fixture
def repository(tmp_path: Path) -> Path:
    return Path(shutil.copytree(EXAMPLE, tmp_path / "repository"))


def test_every_file_of_the_example_is_marked_as_invented() -> None:
    files = sorted(EXAMPLE.rglob("*.yaml"))
    assert len(files) == 5
    assert [path.name for path in files if "invented" not in path.read_text(encoding="utf-8").splitlines()[0]] == []


def test_a_folder_is_reviewed_by_its_settings(coax, repository: Path) -> None:
    told = coax("review", ".", cwd=repository)
    assert (told.returncode, told.stderr) == (0, "")
    flowed = " ".join(told.stdout.split())
    assert "settings: coax-settings.yaml, rented/coax-settings.yaml" in flowed
    assert "judged by trade 1 and house 1 (firm/house.coax-ruleset.yaml)" in flowed
    assert "severity that returns it, by settings: violation (rented/coax-settings.yaml:3)" in flowed
    assert "CLEAR: 1 deficiency; " in flowed
    assert "left out by settings" in flowed
    assert (
        "1 design left out by settings: archive/lapwing-row-1.coax.yaml (built before the firm drew for itself"
        in flowed
    )


def test_every_call_from_python_goes_by_the_settings_as_the_command_does(coax, repository: Path) -> None:
    """The second call of a process once forgot the severity that the settings name."""
    script = (
        "import coaxwright, json\n"
        "reviews = [coaxwright.review(['.']) for _ in range(3)]\n"
        "print(json.dumps([[d.returns_at.value, d.result.value] for r in reviews for d in r.designs]))\n"
    )
    told = subprocess.run(
        [sys.executable, "-c", script], cwd=repository, capture_output=True, text=True, check=True, timeout=60
    )
    designs = json.loads(coax("review", ".", "--as", "json", cwd=repository).stdout)["designs"]
    assert json.loads(told.stdout) == 3 * [[design["returns at"], design["result"]] for design in designs]
    assert [design["returns at"] for design in designs] == ["violation"]


def test_the_command_wins_over_the_settings(coax, repository: Path) -> None:
    told = coax("review", ".", "--returns-at", "deficiency", cwd=repository)
    assert told.returncode == 1
    assert "severity that returns it" not in told.stdout


def test_a_design_that_is_left_out_is_reviewed_when_it_is_named(coax, repository: Path) -> None:
    alone = coax("review", "archive", cwd=repository)
    assert (alone.returncode, alone.stdout) == (3, "")
    assert alone.stderr == (
        "coaxwright: every design is left out, such as archive/lapwing-row-1.coax.yaml (coax-settings.yaml:14); "
        "nothing was reviewed\n"
    )
    assert coax("review", "archive/lapwing-row-1.coax.yaml", cwd=repository).returncode == 1


def test_the_checklist_names_what_was_left_out_with_the_reason(coax, repository: Path) -> None:
    flowed = " ".join(coax("review", ".", "--as", "checklist", cwd=repository).stdout.split())
    assert (
        "## Not asked - `indata.entry-filter`: Left out by settings: no house of the firm has data over coax" in flowed
    )
    assert "`plan.label-complete`: Left out by settings: labels are printed on site (coax-settings.yaml:10)." in flowed
    assert "# Left out of this review" in flowed


def test_the_effective_settings_with_the_origin_of_each(coax, repository: Path) -> None:
    told = coax("settings", "rented/lapwing-row-2.coax.yaml", cwd=repository)
    assert (told.returncode, told.stderr) == (0, "")
    rows = [" ".join(line.split()) for line in told.stdout.splitlines()]
    assert rows[:4] == [
        "rented/lapwing-row-2.coax.yaml",
        "returns at violation (rented/coax-settings.yaml:3)",
        "judged by what the design names (default)",
        "also judged by house 1 (firm/house.coax-ruleset.yaml) (coax-settings.yaml:5)",
    ]
    assert "punch list known.coax-punch-list.yaml (coax-settings.yaml:17)" in rows
    chosen = coax(
        "settings", "rented", "--returns-at", "advice", "--only", "plan", "--leave-out", "bonding", cwd=repository
    )
    flowed = " ".join(chosen.stdout.split())
    assert "returns at advice (command line)" in flowed
    assert "rules checked only plan (command line)" in flowed
    assert "rule left out bonding (command line)" in flowed
    left = coax("settings", "archive/lapwing-row-1.coax.yaml", cwd=repository).stdout
    assert "Left out when a folder is searched, reviewed when it is named itself" in left


@pytest.mark.parametrize(
    "words",
    [
        ["rented"],
        ["."],
        [
            "archive/lapwing-row-1.coax.yaml",
            "--only",
            "plan",
            "--leave-out",
            "plan.loop-free",
            "--returns-at",
            "advice",
        ],
        ["rented/coax-settings.yaml", "--reviewers-terms", "us 2023"],
    ],
    ids=" ".join,
)
def test_the_effective_settings_for_programs(coax, repository: Path, words: list[str]) -> None:
    schema = json.loads((shipped("schemas") / "effective-settings-1.schema.json").read_text(encoding="utf-8"))
    Draft202012Validator.check_schema(schema)
    told = coax("settings", *words, "--as", "json", cwd=repository)
    assert (told.returncode, told.stderr) == (0, "")
    assert [error.message for error in Draft202012Validator(schema).iter_errors(json.loads(told.stdout))] == []
    assert coax("settings", *words, "--as", "json", "--into", "shown.json", cwd=repository).stdout == ""
    assert (repository / "shown.json").read_text(encoding="utf-8") == told.stdout


@pytest.mark.parametrize(
    ("written", "told"),
    [
        ("return at: violation", "3:1: the file has no field 'return at'; did you mean 'returns at'?"),
        ("returns at: violence", "3:13: 'violence' cannot stand for 'returns at'"),
        ("rules left out: {levl: x}", "3:18: there is no rule or topic 'levl'; did you mean 'level'?"),
        ("also judged by: [us 2022]", "3:18: 'us 2022': that edition is not here; of us there are 2017, 2020, 2023"),
    ],
)
def test_a_mistake_is_one_error_at_its_place(coax, repository: Path, written: str, told: str) -> None:
    path = repository / "rented" / "coax-settings.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace("returns at: violation", written), encoding="utf-8")
    shown = coax("settings", "rented", cwd=repository)
    assert (shown.returncode, shown.stdout) == (2, "")
    (line,) = shown.stderr.splitlines()
    assert line.startswith(f"coaxwright: rented/coax-settings.yaml:{told}")
    review = coax("review", "rented", "--as", "brief", cwd=repository)
    assert review.returncode == 2
    assert f"rented/coax-settings.yaml:{told.partition(': ')[0]}" in review.stdout.splitlines()[0]


def test_where_there_is_nothing(coax, repository: Path) -> None:
    told = coax("settings", "rentd", cwd=repository)
    assert (told.returncode, told.stderr) == (2, "coaxwright: rentd:1:1: there is no such file or folder\n")


def test_settings_are_neither_written_over_nor_forgotten_by_the_hook(coax, repository: Path) -> None:
    told = coax("review", ".", "--into", "rented/coax-settings.yaml", cwd=repository)
    assert told.returncode == 2
    assert "would write a report over a file that is reviewed" in told.stderr
    named = coax("review", "rented/coax-settings.yaml", "--as", "brief", cwd=repository)
    assert named.returncode == 0
    assert "(rented/lapwing-row-2.coax.yaml)" in named.stdout


def test_the_schema_is_printed_for_editors(coax, repository: Path) -> None:
    schema = json.loads(coax("schema", "settings", cwd=repository).stdout)
    for path in repository.rglob("coax-settings.yaml"):
        from coaxwright.source import read_file

        assert Draft202012Validator(schema).is_valid(read_file(path, path.name).data)


def test_the_punch_list_that_settings_name_holds_what_is_known(coax, repository: Path) -> None:
    design = "archive/lapwing-row-1.coax.yaml"
    assert coax("review", design, cwd=repository).returncode == 1
    recorded = coax("punch-list", "known.coax-punch-list.yaml", design, cwd=repository)
    assert (recorded.returncode, recorded.stderr) == (0, "")

    held = coax("review", design, cwd=repository)
    assert (held.returncode, held.stderr) == (0, "")
    assert " outstanding" in held.stdout
    read = json.loads(coax("review", design, "--as", "json", cwd=repository).stdout)
    assert [one["file"] for one in read["punch lists"]] == ["known.coax-punch-list.yaml"]
    again = coax("punch-list", "known.coax-punch-list.yaml", design, cwd=repository)
    assert "0 added" not in again.stdout
    assert "known already" in again.stdout

    reviewers = coax("review", design, "--reviewers-terms", "us 2023", cwd=repository)
    assert reviewers.returncode == 1
    assert "known.coax-punch-list.yaml" in reviewers.stdout


def test_a_list_named_by_the_command_wins_over_that_of_the_settings(coax, repository: Path) -> None:
    design = "archive/lapwing-row-1.coax.yaml"
    coax("punch-list", "known.coax-punch-list.yaml", design, cwd=repository)
    listed = "coaxwright punch list: 1\noutstanding: []\n"
    (repository / "none.coax-punch-list.yaml").write_text(listed, encoding="utf-8")
    assert coax("review", design, "--punch-list", "none.coax-punch-list.yaml", cwd=repository).returncode == 1


def test_a_list_of_the_settings_that_is_no_list_is_one_error(coax, repository: Path) -> None:
    (repository / "known.coax-punch-list.yaml").write_text("outstanding: []\n", encoding="utf-8")
    told = coax("review", ".", cwd=repository)
    assert (told.returncode, told.stdout) == (2, "")
    assert told.stderr.startswith("coaxwright: known.coax-punch-list.yaml:1:1: ")
