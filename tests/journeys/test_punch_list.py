"""Old findings put on a punch list, from a shell: they stay in sight, and only what is new returns a design."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

EXAMPLES = Path(__file__).parents[2] / "examples"
LIST = "site.coax-punch-list.yaml"
MENDED = ("length: 26 ft", "length: 13 ft")
"""What mends the bond of GB1."""
SLIP = ("to: MODEM, type: series 6 tri", "to: MODEM, type: 10 mm 50 ohm low-loss")
GB1 = "  - {design: QH-07/T-1, rule: bonding.conductor-length, item: GB1, kind: device, severity: violation}\n"


@pytest.fixture
def house(site: Path) -> Path:
    (site / "corrected.coax.yaml").unlink()
    return site / "as-drawn.coax.yaml"


def change(path: Path, *pairs: tuple[str, str]) -> None:
    text = path.read_text(encoding="utf-8")
    for before, after in pairs:
        assert text.count(before) == 1
        text = text.replace(before, after)
    path.write_text(text, encoding="utf-8")


def test_a_copy_that_kept_its_job_and_sheet_is_told(coax, house: Path, site: Path) -> None:
    coax("punch-list", LIST, ".")
    alone = coax("review", ".", "--punch-list", LIST, "--as", "brief")
    assert "one design by their job" not in alone.stdout
    copy = Path(shutil.copy(house, site / "barn.coax.yaml"))
    told = coax("review", ".", "--punch-list", LIST, "--as", "brief")
    assert told.returncode == 0
    assert "as-drawn.coax.yaml, barn.coax.yaml are one design by their job and sheet, QH-07/T-1" in told.stdout
    change(copy, ("job: QH-07", "job: QH-08"))
    own = coax("review", ".", "--punch-list", LIST, "--as", "brief")
    assert (own.returncode, "one design by their job" in own.stdout) == (1, False)


def test_a_list_of_what_could_not_be_reviewed_never_says_that_nothing_is_outstanding(coax, house: Path) -> None:
    text = house.read_text(encoding="utf-8")
    house.write_text(text.replace("stage: permit", "stage: permitt"), encoding="utf-8")
    broken = coax("punch-list", LIST, ".")
    assert broken.returncode == 2
    assert "as-drawn.coax.yaml:7:8: not understood: 'permitt' is not a known stage" in broken.stdout
    assert broken.stdout.endswith("items:\n  nothing recorded of 1 design that could not be reviewed\n")
    house.write_text(text.partition("buildings:")[0], encoding="utf-8")
    empty = coax("punch-list", LIST, ".")
    assert empty.returncode == 3
    assert "as-drawn.coax.yaml: incomplete: nothing stands in the design that a rule is about" in empty.stdout
    assert "nothing is outstanding" not in broken.stdout + empty.stdout


def test_recorded_clear_broken_anew_mended_and_pruned(coax, house: Path, site: Path) -> None:
    assert coax("review", ".").returncode == 1
    told = coax("punch-list", LIST, ".")
    assert (told.returncode, told.stderr) == (0, "")
    assert told.stdout == f"{LIST} is written, with 14 items:\n  14 added\n"
    assert (site / LIST).read_text(encoding="utf-8").startswith("coaxwright punch list: 1\n")
    assert GB1 in (site / LIST).read_text(encoding="utf-8")

    clear = coax("review", ".", "--punch-list", LIST)
    assert (clear.returncode, clear.stderr) == (0, "")
    assert "CLEAR: 3 not due yet, 11 outstanding; " in clear.stdout
    assert "GB1 is bonded over 26 ft of conductor" in clear.stdout

    change(house, SLIP)
    returned = coax("review", ".", "--punch-list", LIST)
    assert returned.returncode == 1
    items, _, outstanding = returned.stdout.partition("Outstanding: found, and on the punch list")
    assert "impedance.port-match  C-103" in items
    assert "GB1 is bonded over" not in items
    assert "GB1 is bonded over" in outstanding

    change(house, SLIP[::-1], MENDED)
    mended = coax("review", ".", "--punch-list", LIST)
    assert mended.returncode == 0
    gone = f"1 item of {LIST} is no longer found: bonding.conductor-length, GB1 (QH-07/T-1)."
    assert gone in " ".join(mended.stdout.split())
    kept = coax("punch-list", LIST, ".")
    assert "  1 no longer found, and kept: --prune takes them off\n" in kept.stdout
    assert GB1 in (site / LIST).read_text(encoding="utf-8")
    pruned = coax("punch-list", LIST, ".", "--prune")
    assert pruned.stdout == f"{LIST} holds 13 items:\n  13 known already\n  1 taken off\n"
    assert GB1 not in (site / LIST).read_text(encoding="utf-8")

    change(house, MENDED[::-1])
    assert coax("review", ".", "--punch-list", LIST).returncode == 1


def test_comments_stay_and_an_unchanged_list_is_not_written(coax, house: Path, site: Path) -> None:
    coax("punch-list", LIST, ".")
    path = site / LIST
    text = path.read_text(encoding="utf-8").replace(GB1, f"  # the owner asked\n{GB1.rstrip()}  # in spring\n\n")
    path.write_text(text + "# end\n", encoding="utf-8")
    before = path.stat().st_mtime_ns
    assert coax("punch-list", LIST, ".").returncode == 0
    assert path.stat().st_mtime_ns == before
    change(house, SLIP)
    assert "  3 added\n" in coax("punch-list", LIST, ".").stdout
    after = path.read_text(encoding="utf-8")
    assert f"  # the owner asked\n{GB1.rstrip()}  # in spring\n" in after
    assert after.endswith("# end\n")
    assert set((text + "# end\n").splitlines()) < set(after.splitlines())


def test_a_list_of_a_whole_folder_and_a_design_that_is_reviewed_alone(coax, house: Path, site: Path) -> None:
    other = house.read_text(encoding="utf-8").replace("QH-07", "QH-08")
    (site / "other.coax.yaml").write_text(other, encoding="utf-8")
    assert "28 added" in coax("punch-list", LIST, ".").stdout
    alone = coax("punch-list", LIST, "other.coax.yaml", "--prune")
    assert "  14 known already\n  14 of designs that were not reviewed, or not in full, and kept\n" in alone.stdout
    told = coax("review", "other.coax.yaml", "--punch-list", LIST)
    assert told.returncode == 0
    assert "no longer found" not in told.stdout


def test_two_hundred_old_findings(coax, site: Path) -> None:
    flats = 100
    text = (
        "coaxwright: 1\ntitle: Sandpiper Court (invented)\njob: SC-1\nbasis: {rulesets: [trade 1]}\n"
        "places: {hall: {}}\ndevices:\n"
        + "".join(f"  SP-{n}: {{kind: splitter, ways: 2, place: hall}}\n" for n in range(flats))
        + "".join(f"  TV-{n}: {{kind: outlet, place: hall}}\n" for n in range(flats))
        + "cables:\n"
        + "".join(
            f"  C-{n}: {{from: SP-{n}, to: TV-{n}, type: series 6, length: 25 m, route: [hall: 9 m]}}\n"
            for n in range(flats)
        )
    )
    path = site / "court.coax.yaml"
    path.write_text(text, encoding="utf-8")
    recorded = coax("punch-list", LIST, path.name)
    number = int(recorded.stdout.split(" with ")[1].split()[0])
    assert number >= 200
    told = coax("review", path.name, "--punch-list", LIST, "--as", "json")
    read = json.loads(told.stdout)
    assert (told.returncode, read["totals"]["outstanding"]) == (0, number)
    assert sum(read["totals"]["not met"].values()) == 0
    path.write_text(f"{text}  C-NEW: {{from: SP-0, to: TV-X, type: series 6, length: 9 m}}\n", encoding="utf-8")
    told = coax("review", path.name, "--punch-list", LIST, "--as", "json")
    read = json.loads(told.stdout)
    returning = {one["subject"]["tag"] for one in read["designs"][0]["findings"] if one["returns"]}
    assert (told.returncode, returning) == (1, {"C-NEW"})
    assert read["totals"]["outstanding"] >= number - 2


class TestWhatIsWrong:
    @pytest.mark.parametrize(
        ("name", "meant"),
        [
            ("site.yaml", "site.coax-punch-list.yaml"),
            ("site.coax.yaml", "site.coax-punch-list.yaml"),
            ("site.coax-punch-list.yml", "site.coax-punch-list.yaml"),
            ("old/site", "old/site.coax-punch-list.yaml"),
            (".coax-punch-list.yaml", "site.coax-punch-list.yaml"),
        ],
    )
    def test_its_name(self, coax, house: Path, name: str, meant: str) -> None:
        wrong = f"a punch list is named *.coax-punch-list.yaml, not {Path(name).name!r}"
        expected = f"coaxwright: {wrong}; did you mean '{meant}'?\n"
        for words in (("punch-list", name, "."), ("review", ".", "--punch-list", name)):
            told = coax(*words)
            assert (told.returncode, told.stdout, told.stderr) == (2, "", expected)

    def test_a_list_that_is_missing_or_broken(self, coax, house: Path, site: Path) -> None:
        told = coax("review", ".", "--punch-list", LIST)
        assert (told.returncode, told.stdout) == (2, "")
        assert told.stderr == (
            f"coaxwright: {LIST}:1:1: the file cannot be opened (no such file or directory); "
            "record one with 'coaxwright punch-list FILE PATH...'\n"
        )
        text = f"coaxwright punch list: 1\noutstanding:\n{GB1.replace('violation', 'violaton')}"
        (site / LIST).write_text(text, encoding="utf-8")
        for words in (("punch-list", LIST, "."), ("review", ".", "--punch-list", LIST)):
            told = coax(*words)
            assert (told.returncode, told.stdout) == (2, "")
            assert told.stderr.startswith(f"coaxwright: {LIST}:3:92: 'violaton' cannot stand for 'severity'")
            assert told.stderr.endswith("did you mean 'violation'?\n")
        assert (site / LIST).read_text(encoding="utf-8") == text

    def test_a_design_that_is_not_understood_keeps_its_items(self, coax, house: Path, site: Path) -> None:
        coax("punch-list", LIST, ".")
        before = (site / LIST).read_text(encoding="utf-8")
        change(house, ("from: GB1, to: IBT", "form: GB1, to: IBT"))
        told = coax("punch-list", LIST, ".", "--prune")
        assert told.returncode == 2
        assert "as-drawn.coax.yaml:78:" in told.stdout
        assert (site / LIST).read_text(encoding="utf-8") == before

    def test_no_design_and_no_room(self, coax, site: Path) -> None:
        (site / "empty").mkdir()
        told = coax("punch-list", LIST, "empty")
        assert (told.returncode, told.stdout) == (3, "")
        assert not (site / LIST).exists()
        told = coax("punch-list", f"none/{LIST}", ".")
        assert told.returncode == 2
        assert told.stderr.startswith(f"coaxwright: cannot write none/{LIST}: ")

    def test_no_report_goes_over_it(self, coax, house: Path, site: Path) -> None:
        told = coax("review", ".", "--into", "new.coax-punch-list.yaml")
        assert told.returncode == 2
        assert "would write a report over a file that is reviewed" in told.stderr

    def test_the_schema_is_handed_out(self, coax) -> None:
        told = coax("schema", "punch-list")
        assert told.returncode == 0
        assert json.loads(told.stdout)["title"] == "Coaxwright punch list, format 1"


class TestTheExample:
    """The list in examples/gannet-house: renewed by ``coaxwright punch-list … --prune`` when a rule comes or goes."""

    def test_it_holds_what_is_found_as_drawn(self, coax, tmp_path: Path) -> None:
        folder = Path(shutil.copytree(EXAMPLES / "gannet-house", tmp_path / "gannet"))
        path = folder / "as-drawn.coax-punch-list.yaml"
        before = path.read_text(encoding="utf-8")
        words = ("as-drawn.coax.yaml", "--punch-list", path.name)
        assert coax("review", "as-drawn.coax.yaml", cwd=folder).returncode == 1
        assert coax("review", *words, cwd=folder).returncode == 0
        assert coax("punch-list", path.name, "as-drawn.coax.yaml", "--prune", cwd=folder).returncode == 0
        assert path.read_text(encoding="utf-8") == before

    def test_the_corrected_drawing_leaves_nothing_of_it(self, coax) -> None:
        words = ("corrected.coax.yaml", "--punch-list", "as-drawn.coax-punch-list.yaml", "--as", "json")
        read = json.loads(coax("review", *words, cwd=EXAMPLES / "gannet-house").stdout)
        text = (EXAMPLES / "gannet-house" / "as-drawn.coax-punch-list.yaml").read_text(encoding="utf-8")
        assert len(read["punch lists"][0]["no longer found"]) == text.count("\n  - {") > 20

    def test_it_is_named_where_it_is_explained(self) -> None:
        page = (EXAMPLES.parent / "docs" / "reference" / "punch-list.md").read_text(encoding="utf-8")
        assert "examples/gannet-house/as-drawn.coax-punch-list.yaml" in page


class TestInGit:
    """A real repository: branches that add items, a rename, another layout."""

    @pytest.fixture
    def git(self, house: Path, site: Path, needed: Callable[[bool, str], None]):
        needed(shutil.which("git") is not None, "this journey needs git")

        def run(*words: str, may_fail: bool = False) -> subprocess.CompletedProcess[str]:
            names = {
                f"GIT_{who}_{what}": "a@example.org" for who in ("AUTHOR", "COMMITTER") for what in ("NAME", "EMAIL")
            }
            clean = {name: value for name, value in os.environ.items() if not name.startswith("GIT_")}
            done = subprocess.run(
                ["git", *words],
                cwd=site,
                env={**clean, **names, "GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_NOSYSTEM": "1"},
                stdin=subprocess.DEVNULL,
                capture_output=True,
                encoding="utf-8",
                check=False,
                timeout=60,
            )
            assert may_fail or done.returncode == 0, done.stderr
            return done

        run("init", "--quiet", "--initial-branch=main")
        return run

    def branches(self, coax, git, site: Path, attributes: str) -> subprocess.CompletedProcess[str]:
        """Two branches that each bring a design with old findings, and their merge."""
        text = (site / "as-drawn.coax.yaml").read_text(encoding="utf-8")
        (site / ".gitattributes").write_text(attributes, encoding="utf-8")
        coax("punch-list", LIST, ".")
        git("add", "--all")
        git("commit", "--quiet", "-m", "the house")
        for branch in ("barn", "mill"):
            git("switch", "--quiet", "--create", branch, "main")
            (site / f"{branch}.coax.yaml").write_text(text.replace("QH-07", f"QH-07-{branch}"), encoding="utf-8")
            assert "14 added" in coax("punch-list", LIST, ".").stdout
            git("add", "--all")
            git("commit", "--quiet", "-m", branch)
        return git("merge", "--quiet", "barn", "-m", "both", may_fail=True)

    def test_a_merge_of_both_sides_holds_both(self, coax, git, site: Path) -> None:
        assert self.branches(coax, git, site, "*.coax-punch-list.yaml merge=union\n").returncode == 0
        told = coax("review", ".", "--punch-list", LIST)
        assert (told.returncode, told.stderr) == (0, "")
        assert told.stdout.count("CLEAR: 3 not due yet, 11 outstanding") == 3
        merged = coax("punch-list", LIST, ".", "--prune")
        assert merged.stdout == f"{LIST} holds 42 items:\n  42 known already\n"

    def test_marks_of_a_merge_are_told_with_their_line(self, coax, git, site: Path) -> None:
        assert self.branches(coax, git, site, "").returncode == 1
        text = (site / LIST).read_text(encoding="utf-8")
        line = text[: text.index("<<<<<<<")].count("\n") + 1
        told = coax("review", ".", "--punch-list", LIST)
        assert told.returncode == 2
        assert told.stderr.startswith(f"coaxwright: {LIST}:{line}:1: the marks of a merge stand here")
        kept = [one for one in text.splitlines() if not one.startswith(("<<<<<<<", "=======", ">>>>>>>"))]
        (site / LIST).write_text("\n".join(kept) + "\n", encoding="utf-8")
        assert coax("review", ".", "--punch-list", LIST).returncode == 0

    def test_items_of_different_designs_merge_by_themselves(self, coax, git, house: Path, site: Path) -> None:
        """Branches that change different places of the list meet no conflict, without any setting."""
        coax("punch-list", LIST, ".")
        git("add", "--all")
        git("commit", "--quiet", "-m", "the house")
        text = house.read_text(encoding="utf-8")
        for branch, job in (("first", "AA-01"), ("last", "ZZ-99")):
            git("switch", "--quiet", "--create", branch, "main")
            (site / f"{branch}.coax.yaml").write_text(text.replace("QH-07", job), encoding="utf-8")
            coax("punch-list", LIST, ".")
            git("add", "--all")
            git("commit", "--quiet", "-m", branch)
        git("merge", "--quiet", "first", "-m", "both")
        told = coax("punch-list", LIST, ".", "--prune")
        assert told.stdout == f"{LIST} holds 42 items:\n  42 known already\n"
        assert git("status", "--porcelain").stdout == ""

    def test_a_rename_and_another_layout_keep_every_item(self, coax, git, house: Path, site: Path) -> None:
        coax("punch-list", LIST, ".")
        git("add", "--all")
        git("commit", "--quiet", "-m", "the house")
        (site / "moved").mkdir()
        git("mv", "as-drawn.coax.yaml", "moved/tern.coax.yaml")
        path = site / "moved" / "tern.coax.yaml"
        lines = path.read_text(encoding="utf-8").splitlines()
        path.write_text(
            "# laid out anew\n\n" + "\n".join(f"{line}\n" if line else "" for line in lines), encoding="utf-8"
        )
        told = coax("review", "moved", "--punch-list", LIST)
        assert told.returncode == 0
        assert "no longer found" not in told.stdout
        git("add", "--all")
        git("commit", "--quiet", "-m", "moved")
        coax("punch-list", LIST, ".", "--prune")
        assert git("status", "--porcelain").stdout == ""
