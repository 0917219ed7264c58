"""Further forms of one review: which files they may go to, and what becomes of a file that cannot be written."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from coaxwright.cli import main
from coaxwright.cli.forms import Form
from coaxwright.cli.further import further_forms
from coaxwright.cli.words import WrongWord

EXAMPLE = Path(__file__).parents[3] / "examples" / "tern-cottage" / "as-drawn.coax.yaml"


def test_forms_and_files_in_their_order(tmp_path: Path) -> None:
    words = [f"sarif={tmp_path / 'a=b.sarif'}", f"junit={tmp_path / 'a.xml'}", f"sarif={tmp_path / 'c.sarif'}"]
    assert further_forms(words, Form.TEXT, None, [str(EXAMPLE)]) == [
        (Form.SARIF, tmp_path / "a=b.sarif"),
        (Form.JUNIT, tmp_path / "a.xml"),
        (Form.SARIF, tmp_path / "c.sarif"),
    ]


def refused(words: list[str], into: Path | None = None, paths: tuple[Path, ...] = (EXAMPLE,)) -> str:
    with pytest.raises(WrongWord) as told:
        further_forms(words, Form.TEXT, into, map(str, paths))
    return str(told.value)


def test_two_names_of_one_file_are_one_file(tmp_path: Path) -> None:
    (tmp_path / "folder").mkdir()
    (tmp_path / "link").symlink_to("folder")
    first = tmp_path / "folder" / "a"
    assert "into one file" in refused([f"json={tmp_path}/link/a"], into=first)
    assert "into one file" in refused([f"json={first}", f"sarif={tmp_path}/folder/../folder/a"])
    first.write_text("", encoding="utf-8")
    os.link(first, tmp_path / "b")
    assert "into one file" in refused([f"json={first}", f"sarif={tmp_path}/b"])


@pytest.mark.parametrize("name", ["x.coax.yaml", "x.coax-part.yaml", "x.coax-catalogue.yaml", "x.coax-ruleset.yaml"])
def test_no_report_goes_where_a_design_may_be(name: str, tmp_path: Path) -> None:
    assert "over a file that is reviewed" in refused([f"json={tmp_path / name}"])
    assert "over a file that is reviewed" in refused([], into=tmp_path / name)


def test_a_dash_is_no_file() -> None:
    """It would become a file of that name, while standard output is what was meant."""
    assert refused([], into=Path("-")).startswith("--into takes a file; the report of --as goes to standard output")
    assert refused(["json=-"]).startswith("--also takes a file; ")


def test_no_report_goes_over_what_is_reviewed(tmp_path: Path) -> None:
    plan = tmp_path / "plan.yaml"
    plan.write_text("", encoding="utf-8")
    (tmp_path / "link").symlink_to("plan.yaml")
    assert "over a file that is reviewed" in refused([f"json={tmp_path}/link"], paths=(EXAMPLE, plan))


def test_nothing_is_reviewed_or_written_after_a_wrong_word(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    right, wrong = f"json={tmp_path}/a.json", f"jason={tmp_path}/b.json"
    assert main(["review", str(EXAMPLE), "--also", right, "--also", wrong]) == 2
    assert capsys.readouterr().out == ""
    assert list(tmp_path.iterdir()) == []


def test_one_file_that_cannot_be_written_keeps_none_of_the_others(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    bad, good = tmp_path / "nowhere" / "a.json", tmp_path / "b.xml"
    words = ["review", str(EXAMPLE), "--as", "brief", "--also", f"json={bad}", "--also", f"junit={good}"]
    assert main(words) == 2
    out, err = capsys.readouterr()
    assert err == f"coaxwright: cannot write {bad}: no such file or directory\n"
    assert "Returned for correction: " in out
    assert good.read_text(encoding="utf-8").startswith("<?xml ")
