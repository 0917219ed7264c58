"""A design of an older format is told so, and brought up to this one in place."""

from __future__ import annotations

from pathlib import Path

import pytest

OLD = """\
coaxwright: 0              # the sketch stage
title: Knot House (invented)
basis: {rulesets: [trade 1]}
devices:
  DROP: {kind: coax drop}
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
        "coaxwright: 0\ntitle: x (invented)\nbasis: {rulesets: [trade 1]}\nincludes: [flats.coax-part.yaml]\n",
        encoding="utf-8",
    )
    part = plan / "flats.coax-part.yaml"
    part.write_text(
        "coaxwright part: 0\ndevices: {A: {kind: coax drop}, B: {kind: outlet}}\n"
        "cables: {C: {between: [A, B], type: series 6}}\n",
        encoding="utf-8",
    )
    assert coax("renew", ".", cwd=plan).returncode == 0
    assert part.read_text(encoding="utf-8").splitlines()[2] == "cables: {C: {from: A, to: B, type: series 6}}"
    assert part.read_text(encoding="utf-8").startswith("coaxwright part: 1\n")


def test_each_file_of_an_older_design_is_told_once(coax, plan: Path) -> None:
    """Its sections would be nothing but mistakes to this format: they are not looked at."""
    (plan / "knot.coax.yaml").write_text(
        OLD + "includes: [flats.coax-part.yaml]\ntypical: {f: {grounding: {}}}\nunits: {u-1 to u-3: {like: g}}\n",
        encoding="utf-8",
    )
    (plan / "flats.coax-part.yaml").write_text("coaxwright part: 0\ngrounding: {}\ncables: [x]\n", encoding="utf-8")
    done = coax("review", ".", cwd=plan)
    assert done.returncode == 2
    places = [line for line in done.stdout.splitlines() if ".yaml:" in line]
    assert places == ["knot.coax.yaml:1:13", "flats.coax-part.yaml:1:18"]
    (plan / "flats.coax-part.yaml").write_text("coaxwright part: 2\n", encoding="utf-8")
    told = " ".join(coax("review", ".", cwd=plan).stdout.split())
    assert "1:18 this file is of format 2; this program reads format 1: take a newer one" in told


def test_designs_that_share_a_part_bring_it_up_once(coax, plan: Path) -> None:
    """The part's comments, its Windows line breaks and its missing last one stay."""
    for name in ("a", "b"):
        (plan / f"{name}.coax.yaml").write_text(
            f"coaxwright: 0\ntitle: {name}\nbasis: {{rulesets: [trade 1]}}\nincludes: [flats.coax-part.yaml]\n",
            encoding="utf-8",
        )
    part = plan / "flats.coax-part.yaml"
    part.write_bytes(b"coaxwright part: 0 # shared\r\ngrounding: {} # none yet")
    done = coax("renew", "flats.coax-part.yaml", cwd=plan)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.splitlines() == [
        "a.coax.yaml:1:13: 'coaxwright: 0' is now 'coaxwright: 1'",
        "a.coax.yaml is of format 1 now",
        "flats.coax-part.yaml:1:18: 'coaxwright part: 0' is now 'coaxwright part: 1'",
        "flats.coax-part.yaml:2:1: 'grounding' is now 'bonding'",
        "flats.coax-part.yaml is of format 1 now",
        "b.coax.yaml:1:13: 'coaxwright: 0' is now 'coaxwright: 1'",
        "b.coax.yaml is of format 1 now",
    ]
    assert part.read_bytes() == b"coaxwright part: 1 # shared\r\nbonding: {} # none yet"


def test_one_file_at_fault_keeps_none_of_the_others_back(coax, plan: Path) -> None:
    (plan / "bad.coax.yaml").write_text("coaxwright: 0\ncables: [\n", encoding="utf-8")
    (plan / "new.coax.yaml").write_text("coaxwright: 2\n", encoding="utf-8")
    done = coax("renew", ".", cwd=plan)
    assert done.returncode == 2
    assert "knot.coax.yaml is of format 1 now" in done.stdout
    assert done.stderr.splitlines() == [
        "coaxwright: bad.coax.yaml:2:9: the text ends before this value does; a closing ] or } is missing",
        "coaxwright: bad.coax.yaml stays as it is",
        "coaxwright: new.coax.yaml:1:13: this file is of format 2; this program reads format 1: take a newer one",
        "coaxwright: new.coax.yaml stays as it is",
    ]


def test_a_design_whose_part_is_at_fault_stays_as_it_is(coax, plan: Path) -> None:
    text = OLD + "includes: [flats.coax-part.yaml]\n"
    (plan / "knot.coax.yaml").write_text(text, encoding="utf-8")
    (plan / "flats.coax-part.yaml").write_text(
        "coaxwright part: 0\ncables: {D: {run: [x: 3 ft], between: [A]}}\n", encoding="utf-8"
    )
    done = coax("renew", ".", cwd=plan)
    assert (done.returncode, done.stdout) == (2, "")
    assert "flats.coax-part.yaml:2:30: 'between' does not hold the two ends of the cable" in done.stderr
    assert (plan / "knot.coax.yaml").read_text(encoding="utf-8") == text


def test_a_file_that_changes_meanwhile_is_left_alone(coax, plan: Path) -> None:
    program = """
import sys
from pathlib import Path
from coaxwright.cli import main, renew_command
written = renew_command._written
def meanwhile(*words):
    Path("knot.coax.yaml").write_text("theirs", encoding="utf-8")
    return written(*words)
renew_command._written = meanwhile
sys.exit(main())
"""
    done = coax("renew", ".", cwd=plan, program=program)
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == (
        "coaxwright: knot.coax.yaml was changed by another hand meanwhile; nothing was written to it\n"
    )
    assert (plan / "knot.coax.yaml").read_text(encoding="utf-8") == "theirs"


def test_into_is_for_one_design(coax, plan: Path) -> None:
    (plan / "p.coax-part.yaml").write_text("coaxwright part: 0\n", encoding="utf-8")
    for words in ((".",), ("knot.coax.yaml", "knot.coax.yaml"), ("p.coax-part.yaml",)):
        done = coax("renew", *words, "--into", "x.coax.yaml", cwd=plan)
        assert (done.returncode, done.stdout) == (2, "")
        assert done.stderr.startswith("coaxwright: --into takes the path of one design")
    (plan / "knot.coax.yaml").write_text(OLD + "includes: [p.coax-part.yaml]\n", encoding="utf-8")
    done = coax("renew", "knot.coax.yaml", "--into", "x.coax.yaml", cwd=plan)
    assert (done.returncode, done.stdout) == (2, "")
    assert "other files of knot.coax.yaml have to be renewed too" in done.stderr
    assert not (plan / "x.coax.yaml").exists()


def test_nothing_to_renew_is_told(coax, tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    done = coax("renew", "empty", cwd=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == "coaxwright: no design (*.coax.yaml) in empty; nothing was renewed\n"


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
