"""What each kind of user meets at a shell: the exit status, and that nothing goes unreported."""

from __future__ import annotations

import os
import re
from pathlib import Path

import pytest


def broken(site: Path, name: str = "broken.coax.yaml") -> Path:
    """The corrected design with a key that no design has."""
    text = (site / "corrected.coax.yaml").read_text(encoding="utf-8")
    path = site / name
    path.write_text(text.replace("exposure: buried", "exposer: buried"), encoding="utf-8")
    return path


def test_a_firm_gates_a_drawing(coax, site: Path) -> None:
    returned = coax("review", "as-drawn.coax.yaml")
    assert returned.returncode == 1
    assert "RETURNED FOR CORRECTION: 4 violations, 5 deficiencies" in returned.stdout
    clear = coax("review", "corrected.coax.yaml")
    assert clear.returncode == 0
    assert "\nCLEAR: nothing found" in clear.stdout
    assert returned.stderr == clear.stderr == ""


def test_a_firm_chooses_what_returns_a_drawing(coax, site: Path) -> None:
    text = (site / "corrected.coax.yaml").read_text(encoding="utf-8")
    (site / "advice.coax.yaml").write_text(text.replace("[roof: 5 ft]", "[roof: 35 ft]"), encoding="utf-8")
    advised = coax("review", "advice.coax.yaml")
    assert advised.returncode == 0
    assert "CLEAR: 1 advisory" in advised.stdout
    assert coax("review", "advice.coax.yaml", "--returns-at", "advice").returncode == 1


def test_an_installer_mistypes_a_key(coax, site: Path) -> None:
    broken(site)
    told = coax("review", "broken.coax.yaml")
    assert told.returncode == 2
    assert re.search(r"^broken\.coax\.yaml:\d+:\d+$", told.stdout, re.MULTILINE)
    assert "did you mean 'exposure'?" in told.stdout


def test_an_inspector_reviews_an_archive_with_a_bad_file_in_it(coax, site: Path) -> None:
    broken(site)
    told = coax("review", ".")
    assert told.returncode == 2
    assert "3 designs: 1 clear, 1 returned, 1 not understood" in told.stdout
    for name in ("as-drawn", "broken", "corrected"):
        assert f"{name}.coax.yaml" in told.stdout


@pytest.mark.parametrize("name", ["missing.coax.yaml", "corrected.coax.yaml/within", "no\nsuch.coax.yaml"])
def test_a_missing_path_hides_no_other(coax, site: Path, name: str) -> None:
    told = coax("review", name, "corrected.coax.yaml")
    assert told.returncode == 2
    assert "the file cannot be opened" in told.stdout
    assert "\nCLEAR: nothing found" in told.stdout


def test_a_folder_without_designs_is_not_clear(coax, site: Path) -> None:
    (site / "notes").mkdir()
    (site / "notes" / "plan.yaml").write_text("a: 1\n", encoding="utf-8")
    alone = coax("review", "notes")
    assert (alone.returncode, alone.stdout) == (3, "")
    assert alone.stderr == "coaxwright: no design (*.coax.yaml) in notes; nothing was reviewed\n"
    beside = coax("review", "notes", "corrected.coax.yaml")
    assert beside.returncode == 2
    assert "this folder holds no design (*.coax.yaml)" in beside.stdout
    assert "\nCLEAR: nothing found" in beside.stdout


def test_a_link_out_of_the_folder_is_not_followed(coax, site: Path, tmp_path: Path) -> None:
    (tmp_path / "elsewhere.coax.yaml").write_text("secret: words\n", encoding="utf-8")
    (site / "link.coax.yaml").symlink_to(tmp_path / "elsewhere.coax.yaml")
    (site / "loop.coax.yaml").symlink_to("loop.coax.yaml")
    told = coax("review", ".")
    assert told.returncode == 2
    assert "this link leads out of the folder under review" in told.stdout
    assert "4 designs: 1 clear, 1 returned, 2 not understood" in told.stdout
    assert "secret" not in told.stdout


def test_the_same_file_twice_is_reviewed_once(coax, site: Path) -> None:
    once = coax("review", "corrected.coax.yaml")
    again = coax(
        "review",
        "corrected.coax.yaml",
        "./corrected.coax.yaml",
        site / "corrected.coax.yaml",
        f"../{site.name}/corrected.coax.yaml",
    )
    assert again.stdout == once.stdout
    assert (again.returncode, once.stdout.count("Tern Cottage")) == (0, 1)


def test_an_edition_that_is_not_here_is_refused_at_its_place(coax, site: Path) -> None:
    path = site / "corrected.coax.yaml"
    path.write_text(path.read_text(encoding="utf-8").replace("us 2023", "us 1999"), encoding="utf-8")
    told = coax("review", "corrected.coax.yaml")
    assert told.returncode == 2
    assert "\ncorrected.coax.yaml:9:14\n" in told.stdout
    assert "'us 1999': that edition is not here; of us there are 2017, 2020, 2023" in told.stdout


def test_a_wrong_option_is_told_with_the_right_one(coax) -> None:
    told = coax("review", "corrected.coax.yaml", "--aas", "json")
    assert (told.returncode, told.stdout) == (2, "")
    assert "--as" in told.stderr
    assert "Traceback" not in told.stderr


def test_a_report_goes_into_a_file_or_nowhere(coax, site: Path) -> None:
    shown = coax("review", ".", "--width", "100").stdout
    done = coax("review", ".", "--into", "report.txt")
    assert (done.returncode, done.stdout, done.stderr) == (1, "", "")
    assert (site / "report.txt").read_text(encoding="utf-8") == shown
    (site / "report.txt").write_text("the old one", encoding="utf-8")
    failed = coax("review", "missing.coax.yaml", "--into", "report.txt/within")
    assert (failed.returncode, failed.stdout) == (2, "")
    assert failed.stderr == "coaxwright: cannot write report.txt/within: not a directory\n"
    assert coax("review", ".", "--into", "nowhere/report.txt").returncode == 2
    assert (site / "report.txt").read_text(encoding="utf-8") == "the old one"
    assert sorted(path.name for path in site.iterdir()) == ["as-drawn.coax.yaml", "corrected.coax.yaml", "report.txt"]
    assert coax("review", "corrected.coax.yaml", "--into", ".").returncode == 2


def test_the_null_device_stays_a_device(coax) -> None:
    assert coax("review", "corrected.coax.yaml", "--into", os.devnull).returncode == 0
    assert not Path(os.devnull).is_file()
