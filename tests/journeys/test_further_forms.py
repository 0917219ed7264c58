"""One run, several forms: a person reads one, and a CI system, a code host and an inspector get theirs."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from xml.etree import ElementTree

import pytest

FORMS = (
    "text",
    "brief",
    "notice",
    "checklist",
    "json",
    "sarif",
    "sarif-code-host",
    "junit",
    "code-quality",
    "annotations",
)


def test_every_form_in_one_run_is_what_it_is_alone(coax, site: Path) -> None:
    (site / "out").mkdir()
    also = [word for form in FORMS for word in ("--also", f"{form}=out/{form}")]
    together = coax("review", ".", *also)
    assert (together.returncode, together.stderr) == (1, "")
    assert together.stdout == coax("review", ".").stdout
    assert sorted(path.name for path in (site / "out").iterdir()) == sorted(FORMS)
    for form in FORMS:
        alone = coax("review", ".", "--as", form)
        assert alone.returncode == 1
        assert (site / "out" / form).read_text(encoding="utf-8") == alone.stdout, form


def test_the_same_bytes_whatever_the_seed_the_order_and_the_locale(coax, site: Path) -> None:
    """Of the forms written in one run: test_output.py asks those that are shown, one by one."""
    shutil.copy(site / "as-drawn.coax.yaml", site / "zwölf Möwen.coax.yaml")
    names = sorted(path.name for path in site.iterdir())
    further = ("notice", "checklist", "junit", "code-quality", "annotations")
    ways = ({"PYTHONHASHSEED": "0", "LC_ALL": "C.UTF-8"}, {"PYTHONHASHSEED": "1", "LC_ALL": "C", "COLUMNS": "61"})
    told = []
    for folder, paths, changes in zip(("first", "again"), (names, reversed(names)), ways, strict=True):
        (site / folder).mkdir()
        also = [word for form in further for word in ("--also", f"{form}={folder}/{form}")]
        told.append(coax("review", *paths, "--as", "brief", *also, **changes))
    first, again = told
    assert (again.stdout, again.returncode) == (first.stdout, 1)
    said = {"brief": first.stdout}
    for form in further:
        said[form] = (site / "first" / form).read_text(encoding="utf-8")
        assert (site / "again" / form).read_bytes() == (site / "first" / form).read_bytes(), form
    assert [form for form, text in said.items() if "zwölf Möwen" not in text] == []
    assert [form for form, text in said.items() if str(site) in text] == []


@pytest.mark.parametrize("form", FORMS)
def test_the_exit_status_is_the_same_in_every_form(coax, site: Path, form: str) -> None:
    (site / "broken.coax.yaml").write_text("coaxwright: 1\ntitle: [\n", encoding="utf-8")
    assert coax("review", "corrected.coax.yaml", "--as", form).returncode == 0
    assert coax("review", "as-drawn.coax.yaml", "--as", form).returncode == 1
    assert coax("review", "as-drawn.coax.yaml", "--returns-at", "violation", "--as", form).returncode == 1
    assert coax("review", ".", "--as", form).returncode == 2
    (site / "empty").mkdir()
    assert coax("review", "empty", "--as", form, "--also", "json=x.json").returncode == 3
    assert not (site / "x.json").exists()


def test_an_inspector_prints_a_notice_with_the_day_of_the_review(coax, site: Path) -> None:
    told = coax("review", "as-drawn.coax.yaml", "--as", "notice", "--as-of", "2026-11-25", "--into", "notice.md")
    assert (told.returncode, told.stdout) == (1, "")
    notice = (site / "notice.md").read_text(encoding="utf-8")
    assert "\n- Date: 2026-11-25\n" in notice
    assert "\n- Authority: the building department of Quillhaven (invented)\n" in notice
    assert "\n- Date: ____" in coax("review", "as-drawn.coax.yaml", "--as", "notice").stdout


def test_a_ci_job_gets_its_annotations_and_its_files(coax, site: Path) -> None:
    told = coax(
        "review", ".", "--as", "annotations", "--also", "junit=junit.xml", "--also", "code-quality=quality.json"
    )
    commands = [line for line in told.stdout.splitlines() if line.startswith("::")]
    quality = json.loads((site / "quality.json").read_text(encoding="utf-8"))
    assert len(commands) == len(quality) > 5
    root = ElementTree.parse(site / "junit.xml").getroot()
    assert [suite.get("name") for suite in root] == ["as-drawn.coax.yaml", "corrected.coax.yaml"]
    assert [suite.get("failures") == "0" for suite in root] == [False, True]


@pytest.mark.parametrize("width", [80, 120])
@pytest.mark.parametrize("form", ["notice", "checklist"])
def test_no_line_is_wider_than_asked(coax, site: Path, form: str, width: int) -> None:
    lines = coax("review", ".", "--as", form, "--width", str(width)).stdout.splitlines()
    assert max(map(len, lines)) <= width
    assert max(map(len, lines)) > width - 10
