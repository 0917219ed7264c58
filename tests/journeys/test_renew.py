"""A design of an older format is told so, and brought up to this one in place."""

from __future__ import annotations

from pathlib import Path

import pytest

OLD = """\
coaxwright: 0              # the sketch stage
title: Knot House (invented)
basis: {rulesets: [trade 1]}
devices:
  DROP: {kind: service drop}
  TV:   {kind: outlet}
cables:
  C-1: {between: [DROP, TV], type: series 6, length: 20 ft}   # the only run
"""
NEW = OLD.replace("coaxwright: 0 ", "coaxwright: 1 ").replace("between: [DROP, TV]", "from: DROP, to: TV")


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    folder = tmp_path / "plan"
    folder.mkdir()
    (folder / "knot.coax.yaml").write_text(OLD, encoding="utf-8")
    return folder


def test_a_review_of_an_older_file_says_how_to_bring_it_up(coax, plan: Path) -> None:
    done = coax("review", "knot.coax.yaml", cwd=plan)
    assert done.returncode == 2
    assert "knot.coax.yaml:1:13\n" in done.stdout
    words = " ".join(done.stdout.split())
    assert "this file is of format 0; this program reads format 1" in words
    assert "to bring it up, run coaxwright renew knot.coax.yaml" in words


def test_a_newer_file_is_told_as_well(coax, plan: Path) -> None:
    (plan / "knot.coax.yaml").write_text(OLD.replace("coaxwright: 0", "coaxwright: 2"), encoding="utf-8")
    done = coax("review", "knot.coax.yaml", cwd=plan)
    assert done.returncode == 2
    assert "this file is of format 2; this program reads format 1: take a newer one" in " ".join(done.stdout.split())


def test_renew_writes_in_place_and_says_what_it_changed(coax, plan: Path) -> None:
    file = plan / "knot.coax.yaml"
    file.chmod(0o640)
    done = coax("renew", "knot.coax.yaml", cwd=plan)
    assert (done.returncode, done.stderr) == (0, "")
    assert file.read_text(encoding="utf-8") == NEW
    assert file.stat().st_mode & 0o777 == 0o640
    assert [path.name for path in plan.iterdir()] == ["knot.coax.yaml"]
    assert done.stdout == (
        "knot.coax.yaml:1:13: 'coaxwright: 0' is now 'coaxwright: 1'\n"
        "knot.coax.yaml:8:9: 'between' is now 'from' and 'to'\n"
        "knot.coax.yaml is of format 1 now\n"
    )
    assert coax("review", "knot.coax.yaml", cwd=plan).returncode in (0, 1)
    again = coax("renew", ".", cwd=plan)
    assert (again.returncode, again.stdout) == (0, "knot.coax.yaml is of format 1 already\n")


def test_renew_into_another_file_leaves_the_old_one(coax, plan: Path) -> None:
    done = coax("renew", "knot.coax.yaml", "--into", "new.coax.yaml", cwd=plan)
    assert done.returncode == 0
    assert (plan / "knot.coax.yaml").read_text(encoding="utf-8") == OLD
    assert (plan / "new.coax.yaml").read_text(encoding="utf-8") == NEW


def test_a_file_that_would_not_be_understood_is_not_written(coax, plan: Path) -> None:
    file = plan / "knot.coax.yaml"
    broken = OLD.replace("kind: outlet", "kind: outlt")
    file.write_text(broken, encoding="utf-8")
    done = coax("renew", "knot.coax.yaml", cwd=plan)
    assert done.returncode == 2
    assert file.read_text(encoding="utf-8") == broken
    assert "knot.coax.yaml:6:16: 'outlt' is not a known kind; did you mean 'outlet'?" in done.stderr
    assert "knot.coax.yaml stays as it is" in done.stderr
    assert "Traceback" not in done.stderr


def test_a_design_is_renewed_with_the_parts_it_draws_in(coax, plan: Path) -> None:
    (plan / "knot.coax.yaml").write_text(
        "coaxwright: 0\ntitle: x (invented)\nbasis: {rulesets: [trade 1]}\ndraws in: [flats.coax-part.yaml]\n",
        encoding="utf-8",
    )
    part = plan / "flats.coax-part.yaml"
    part.write_text(
        "coaxwright part: 0\ndevices: {A: {kind: service drop}, B: {kind: outlet}}\n"
        "cables: {C: {between: [A, B], type: series 6}}\n",
        encoding="utf-8",
    )
    assert coax("renew", ".", cwd=plan).returncode == 0
    assert part.read_text(encoding="utf-8").splitlines()[2] == "cables: {C: {from: A, to: B, type: series 6}}"
    assert part.read_text(encoding="utf-8").startswith("coaxwright part: 1\n")


def test_the_schema_for_an_editor_is_the_shipped_one(coax, plan: Path) -> None:
    top = Path(__file__).parents[2] / "schemas"
    for words, name in (
        ((), "design-1.schema.json"),
        (("design", "--draft-07"), "design-1.draft-07.schema.json"),
        (("part", "--draft-07"), "design-part-1.draft-07.schema.json"),
        (("ruleset",), "ruleset-1.schema.json"),
        (("levels",), "levels-1.schema.json"),
    ):
        done = coax("schema", *words, cwd=plan)
        assert (done.returncode, done.stdout) == (0, (top / name).read_text(encoding="utf-8"))
    wrong = coax("schema", "rulset", cwd=plan)
    assert wrong.returncode == 2
    assert "did you mean 'ruleset'?" in wrong.stderr
    none = coax("schema", "review", "--draft-07", cwd=plan)
    assert none.returncode == 2
    assert "leave --draft-07 out" in none.stderr
