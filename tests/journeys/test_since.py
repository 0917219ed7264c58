"""A repository of plans where only what a change brought returns a design: real git, most of it from a shell."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from collections.abc import Callable
from contextlib import chdir
from pathlib import Path

import pytest

from coaxwright.reports import json_report
from coaxwright.reviewing import review

EXAMPLES = Path(__file__).parents[2] / "examples"
AS_DRAWN = (EXAMPLES / "tern-cottage" / "as-drawn.coax.yaml").read_text(encoding="utf-8")
CORRECTED = (EXAMPLES / "tern-cottage" / "corrected.coax.yaml").read_text(encoding="utf-8")
STOOD = 14
"""What is found in the cottage as drawn."""
NEW = ("to: MODEM, type: series 6 tri", "to: MODEM, type: 10 mm 50 ohm low-loss")
"""A slip that the cottage did not have."""
SLIP = ("impedance.port-match", "C-103")


class Plans:
    """A repository with a working tree."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        folder.mkdir(parents=True, exist_ok=True)
        self.git("init", "--quiet", "--initial-branch=main")

    def git(self, *words: str | Path, may_fail: bool = False) -> str:
        clean = {name: value for name, value in os.environ.items() if not name.startswith("GIT_")}
        names = {f"GIT_{who}_{what}": "a@example.org" for who in ("AUTHOR", "COMMITTER") for what in ("NAME", "EMAIL")}
        done = subprocess.run(
            ["git", "-c", "protocol.file.allow=always", *map(str, words)],
            cwd=self.folder,
            env={**clean, **names, "GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_NOSYSTEM": "1"},
            stdin=subprocess.DEVNULL,
            capture_output=True,
            encoding="utf-8",
            check=False,
            timeout=60,
        )
        assert may_fail or done.returncode == 0, done.stderr
        return done.stdout

    def put(self, name: str, text: str) -> Path:
        path = self.folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
        return path

    def commit(self, **files: str) -> None:
        for name, text in files.items():
            self.put(name.replace("__", "."), text)
        self.git("add", "--all")
        self.git("commit", "--quiet", "-m", "plans")


@pytest.fixture
def plans(tmp_path: Path, needed: Callable[[bool, str], None]) -> Plans:
    needed(shutil.which("git") is not None, "this journey needs git")
    made = Plans(tmp_path / "plans")
    made.put("house/cottage.coax.yaml", AS_DRAWN)
    made.put("barn.coax.yaml", CORRECTED.replace("QH-07", "QH-08"))
    made.commit()
    return made


@pytest.fixture
def since(plans: Plans):
    """Review as JSON since a revision: the exit status and what was told. In this process, to save time."""

    def run(*words: str, revision: str = "HEAD", cwd: Path = plans.folder) -> tuple[int, dict]:
        with chdir(cwd):
            done = review(words or (".",), since=revision)
            assert Path.cwd() == cwd
        return done.exit_status, json.loads(json_report.render(done))

    return run


def new(told: dict) -> list[tuple[str, str]]:
    return [(one["rule"], one["subject"]["tag"]) for design in told["designs"] for one in design["findings"]]


def files(told: dict) -> list[str]:
    return [design["file"] for design in told["designs"]]


def test_nothing_changed_is_an_answer(coax, plans: Plans, since) -> None:
    told = coax("review", ".", "--since", "HEAD", cwd=plans.folder)
    assert (told.returncode, told.stderr) == (0, "")
    assert told.stdout.strip() == "Nothing changed since HEAD: all 2 designs are as they were."
    status, read = since("barn.coax.yaml")
    assert (status, read["designs"], read["since"]["unchanged designs"]) == (0, [], 1)
    assert read["since"]["commit"] == plans.git("rev-parse", "HEAD").strip()
    (plans.folder / "empty").mkdir()
    nothing = coax("review", "empty", "--since", "HEAD", cwd=plans.folder)
    assert nothing.returncode == 3
    assert "nothing was reviewed" in nothing.stderr


def test_only_what_is_new_is_told_and_the_rest_is_counted(coax, plans: Plans, since) -> None:
    plans.put("house/cottage.coax.yaml", AS_DRAWN.replace(*NEW))
    status, read = since()
    assert status == 1
    assert files(read) == ["house/cottage.coax.yaml"]
    assert SLIP in new(read)
    assert ("bonding.conductor-length", "GB1") not in new(read)
    assert read["totals"]["stood already"] == STOOD
    told = coax("review", ".", "--since", "HEAD", cwd=plans.folder).stdout
    assert "14 further findings stood at HEAD already" in " ".join(told.split())
    assert "1 further design did not change since HEAD and was not reviewed." in told


def test_a_change_that_brings_nothing_is_clear(since, plans: Plans) -> None:
    text = AS_DRAWN.replace("\ncables:\n", "\n\n# drops first\ncables:\n").replace("length: 26 ft", "length: 28 ft")
    assert text.count("\n") == AS_DRAWN.count("\n") + 2
    plans.put("house/cottage.coax.yaml", text.replace("\n", "\r\n"))
    status, read = since()
    assert (status, read["result"], new(read), read["totals"]["stood already"]) == (0, "clear", [], STOOD)


def test_line_breaks_alone_change_nothing(since, plans: Plans) -> None:
    (plans.folder / "barn.coax.yaml").write_bytes(
        (plans.folder / "barn.coax.yaml").read_bytes().replace(b"\n", b"\r\n")
    )
    assert since()[1]["designs"] == []


@pytest.mark.parametrize("committed", [True, False])
def test_a_design_keeps_its_identity_in_another_file(since, plans: Plans, committed: bool) -> None:
    plans.git("mv", "house/cottage.coax.yaml", "tern.coax.yaml")
    if committed:
        plans.commit()
    status, read = since(revision="HEAD~1" if committed else "HEAD")
    assert (status, files(read), new(read)) == (0, ["tern.coax.yaml"], [])
    assert read["totals"]["stood already"] == STOOD
    plans.put("tern.coax.yaml", AS_DRAWN.replace(*NEW))
    status, read = since("tern.coax.yaml", revision="HEAD~1" if committed else "HEAD")
    assert status == 1
    assert SLIP in new(read)
    assert read["totals"]["stood already"] == STOOD


TITLE = "The Knots' House, at 7 \N{LEFT DOUBLE QUOTATION MARK}Lane\N{RIGHT DOUBLE QUOTATION MARK} (invented)"
WAYS = {
    "plain": TITLE,
    "in single quotes": f"""'{TITLE.replace("'", "''")}'""",
    "with escapes": '"The Knots\\u0027 House, at \\x37 \\u201cLane\\u201d (invented)"',
    "on two lines": ">-\n  " + TITLE.replace("at 7 ", "at\n  7 "),
}


@pytest.mark.parametrize("way", WAYS)
def test_a_design_without_a_job_goes_by_its_title_however_that_is_written(since, plans: Plans, way: str) -> None:
    lines = [line for line in AS_DRAWN.splitlines(keepends=True) if not line.startswith(("title:", "job:"))]
    plans.commit(knots__coax__yaml="".join(lines) + f"title: {WAYS[way]}\n")
    plans.git("mv", "knots.coax.yaml", "moved.coax.yaml")
    for other in WAYS.values():
        plans.put("moved.coax.yaml", "".join(lines) + f"title: {other}\n")
        status, read = since()
        assert (status, read["totals"]["stood already"]) == (0, STOOD)


def test_a_hook_of_git_may_ask(coax, plans: Plans) -> None:
    """It is told of the repository by paths from the top of the tree, which are wrong from elsewhere."""
    plans.put("house/cottage.coax.yaml", AS_DRAWN.replace(*NEW))
    told = coax(
        "review", ".", "--since", "HEAD", cwd=plans.folder / "house", GIT_DIR=".git", GIT_INDEX_FILE=".git/index.lock"
    )
    assert (told.returncode, told.stderr) == (1, "")


def test_a_new_design_is_told_whole_and_a_copy_is_not(since, plans: Plans) -> None:
    plans.put("copy.coax.yaml", AS_DRAWN)
    assert since()[0] == 0
    plans.put("copy.coax.yaml", AS_DRAWN.replace("QH-07", "QH-09"))
    status, read = since()
    assert (status, files(read), read["totals"]["stood already"]) == (1, ["copy.coax.yaml"], 0)
    assert len(new(read)) == STOOD


def test_a_file_that_is_not_understood_is_always_told(since, plans: Plans) -> None:
    plans.commit(broken__coax__yaml="coaxwright: 1\ntitle: [\n")
    status, read = since()
    assert (status, files(read)) == (2, ["broken.coax.yaml"])
    plans.put("broken.coax.yaml", AS_DRAWN)
    status, read = since("broken.coax.yaml", revision="HEAD")
    assert status == 0  # the same design as the cottage's, which stood there
    plans.put("broken.coax.yaml", AS_DRAWN.replace("QH-07", "QH-09"))
    status, read = since("broken.coax.yaml", revision="HEAD")
    assert (status, read["since"]["not understood then"]) == (1, ["broken.coax.yaml"])


def test_what_becomes_graver_or_loses_its_exception_is_new(since, plans: Plans) -> None:
    head = "coaxwright: 1\ntitle: Turnstone Wharf 21 (invented)\nbasis: {rulesets: [trade 1]}\nplaces: {den: {}}\n"
    body = "devices:\n  SP1: {kind: splitter, ways: 2, place: den}\n  TV1: {kind: outlet, place: den}\n"
    cable = "cables:\n  C-1: {from: SP1, to: TV1, type: series 6, length: 25 m, route: [den: 9 m]}\n"
    granted = "variances:\n  - {rule: plan.length-stated, item: C-1, reason: r, granted by: g}\n"
    wharf = head + body + cable
    plans.commit(wharf__coax__yaml=wharf + granted)
    plans.put("wharf.coax.yaml", wharf)
    status, read = since()
    assert (status, new(read)) == (1, [("plan.length-stated", "C-1")])
    assert read["designs"][0]["findings"][0]["remarks"][-1] == "At HEAD it was varied."
    plans.commit()
    plans.put("wharf.coax.yaml", wharf + granted)
    status, read = since()
    assert (status, read["totals"]["varied"], new(read)) == (0, 1, [("plan.length-stated", "C-1")])


def test_parts_catalogues_and_rulesets_are_a_designs_own(since, plans: Plans) -> None:
    for folder in ("gannet-house", "shelduck-works"):
        shutil.copytree(EXAMPLES / folder, plans.folder / folder, ignore=shutil.ignore_patterns("*.txt"))
    plans.commit()
    assert since()[1]["designs"] == []
    for name, design in (
        ("gannet-house/as-drawn-flats.coax-part.yaml", "gannet-house/as-drawn.coax.yaml"),
        ("shelduck-works/firm/stock.coax-catalogue.yaml", "shelduck-works/as-drawn.coax.yaml"),
        ("shelduck-works/firm/house.coax-ruleset.yaml", "shelduck-works/as-drawn.coax.yaml"),
    ):
        path = plans.folder / name
        before = path.read_text(encoding="utf-8")
        path.write_text(f"{before}# changed\n", encoding="utf-8")
        status, read = since()
        assert (status, new(read)) == (0, [])
        assert design in files(read)
        assert not any(one.startswith(("house/", "barn")) for one in files(read))
        assert files(since(name)[1]) == files(read)  # named as a hook names it
        path.write_text(before, encoding="utf-8")
    ruleset = plans.folder / "shelduck-works" / "firm" / "house.coax-ruleset.yaml"
    ruleset.unlink()
    status, read = since("shelduck-works/corrected.coax.yaml")
    assert (status, files(read)) == (2, ["shelduck-works/corrected.coax.yaml"])


def test_a_further_unit_is_told_with_its_name(since, plans: Plans) -> None:
    text = """\
coaxwright: 1
title: Dotterel Close 6 (invented)
basis: {rulesets: [trade 1]}
places: {closet: {}, den: {}}
typical:
  flat:
    devices: {SP: {kind: splitter, ways: 3, place: closet}, TV: {kind: outlet, place: den}}
    cables: {C-1: {from: SP.out-1, to: TV, type: series 6}}
units:
  flat-1 to flat-4: {like: flat}
"""
    plans.commit(row__coax__yaml=text)
    plans.put("row.coax.yaml", text.replace("to flat-4", "to flat-5"))
    status, read = since()
    assert status == 1
    findings = read["designs"][0]["findings"]
    assert findings
    assert {tuple(one["new in"]) for one in findings} == {("flat-5",)}
    assert {len(one["instances"]) for one in findings} == {5}


def test_from_below_and_from_above_the_repository(since, plans: Plans) -> None:
    plans.put("house/cottage.coax.yaml", AS_DRAWN.replace(*NEW))
    below = since(".", cwd=plans.folder / "house")
    above = since("plans", cwd=plans.folder.parent)
    elsewhere = plans.folder.parent / "elsewhere"
    elsewhere.mkdir()
    beside = since("../plans/house", "../plans/barn.coax.yaml", cwd=elsewhere)
    absolute = since(str(plans.folder), cwd=elsewhere)
    for status, read in (below, above, beside, absolute):
        assert (status, read["totals"]["stood already"]) == (1, STOOD)
    assert [files(read) for _, read in (below, above, beside)] == [
        ["cottage.coax.yaml"],
        ["plans/house/cottage.coax.yaml"],
        ["../plans/house/cottage.coax.yaml"],
    ]


def test_links_and_submodules(since, plans: Plans, tmp_path: Path) -> None:
    works = Plans(tmp_path / "works")
    works.commit(works__coax__yaml=AS_DRAWN.replace("QH-07", "QH-11"))
    plans.git("submodule", "--quiet", "add", works.folder, "works")
    outside = tmp_path / "outside.coax.yaml"
    outside.write_text(AS_DRAWN, encoding="utf-8")
    plans.put("drawings/mill.yaml", AS_DRAWN.replace("QH-07", "QH-12"))
    (plans.folder / "mill.coax.yaml").symlink_to("drawings/mill.yaml")
    (plans.folder / "out.coax.yaml").symlink_to("../outside.coax.yaml")
    (plans.folder / "top").symlink_to(".")
    (plans.folder / "deep.coax.yaml").symlink_to("top/../outside.coax.yaml")
    plans.commit()
    status, read = since()
    assert status == 2
    assert files(read) == ["deep.coax.yaml", "out.coax.yaml"]  # they lead out of the folder, as in any review
    assert read["since"]["unchanged designs"] == 4
    for name in ("out", "deep"):
        (plans.folder / f"{name}.coax.yaml").unlink()
    plans.put("drawings/mill.yaml", AS_DRAWN.replace("QH-07", "QH-12").replace(*NEW))
    plans.put("works/works.coax.yaml", AS_DRAWN.replace("QH-07", "QH-11").replace(*NEW))
    status, read = since()
    assert (status, files(read)) == (1, ["mill.coax.yaml", "works/works.coax.yaml"])
    assert read["totals"]["stood already"] == 2 * STOOD
    assert files(since(cwd=plans.folder / "works")[1]) == ["works.coax.yaml"]


def test_a_submodule_that_lacks_its_commit_is_told(coax, plans: Plans, tmp_path: Path) -> None:
    works = Plans(tmp_path / "works")
    works.commit(works__coax__yaml=AS_DRAWN)
    plans.git("submodule", "--quiet", "add", works.folder, "works")
    plans.git("update-index", "--cacheinfo", f"160000,{'1' * 40},works")
    plans.git("commit", "--quiet", "-m", "a commit that nobody has")
    told = coax("review", ".", "--since", "HEAD", cwd=plans.folder)
    assert (told.returncode, told.stdout) == (2, "")
    assert told.stderr == "coaxwright: the submodule 'works' lacks its commit of 'HEAD'; fetch it first\n"


@pytest.mark.parametrize(
    ("revision", "hint"),
    [("mian", "; did you mean 'main'?"), ("HAED", "; did you mean 'HEAD'?"), ("", ""), ("--all", ""), ("0" * 40, "")],
)
def test_a_revision_that_is_none_is_refused(coax, plans: Plans, revision: str, hint: str) -> None:
    told = coax("review", ".", f"--since={revision}", cwd=plans.folder)
    assert (told.returncode, told.stdout) == (2, "")
    assert told.stderr == f"coaxwright: there is no revision {revision!r} in this repository{hint}\n"


def test_a_shallow_copy_says_what_to_do(coax, plans: Plans, tmp_path: Path) -> None:
    plans.commit(more__coax__yaml=AS_DRAWN)
    plans.git("clone", "--quiet", "--depth=1", plans.folder.as_uri(), tmp_path / "shallow")
    told = coax("review", ".", "--since", "HEAD~1", cwd=tmp_path / "shallow")
    assert told.returncode == 2
    assert "this copy of it holds the newest commits only: fetch the others first" in told.stderr


def test_without_a_repository_or_git_there_is_one_error(coax, plans: Plans, site: Path, tmp_path: Path) -> None:
    told = coax("review", ".", "--since", "HEAD", cwd=site)
    assert (told.returncode, told.stdout) == (2, "")
    assert told.stderr == "coaxwright: this folder is in no git repository with a working tree\n"
    told = coax("review", ".", "--since", "HEAD", cwd=plans.folder, PATH=str(tmp_path))
    assert (told.returncode, told.stdout) == (2, "")
    assert told.stderr == "coaxwright: git is not installed, or not where programs are looked for\n"
    told = coax("review", ".", str(site), "--since", "HEAD", cwd=plans.folder)
    assert told.returncode == 2
    assert "lies outside the repository of this folder" in told.stderr


def test_the_working_tree_and_the_index_stay_untouched(coax, plans: Plans) -> None:
    plans.put("house/cottage.coax.yaml", AS_DRAWN.replace(*NEW))

    def state() -> dict[str, tuple[int, bytes]]:
        paths = [path for path in plans.folder.rglob("*") if path.is_file()]
        return {str(path): (path.stat().st_mtime_ns, path.read_bytes()) for path in paths}

    before = state()
    assert coax("review", ".", "--since", "HEAD", cwd=plans.folder).returncode == 1
    assert state() == before


def test_no_program_of_the_repository_runs(coax, plans: Plans, tmp_path: Path) -> None:
    """Whatever its settings would start is shown to start with other commands, and does not with ours."""
    mark = tmp_path / "ran"
    program = tmp_path / "program"
    program.write_text(f'#!/bin/sh\necho "$0 $*" >> {mark}\nexit 0\n', encoding="utf-8")
    program.chmod(0o755)
    hooks = tmp_path / "hooks"
    hooks.mkdir()
    for hook in ("post-checkout", "reference-transaction", "post-index-change", "pre-commit"):
        shutil.copy(program, hooks / hook)
    plans.commit(_gitattributes="")
    plans.put(".gitattributes", "*.yaml filter=x diff=x\n")
    plans.git("add", "--all")
    plans.git("commit", "--quiet", "-m", "attributes")
    for name, value in {
        "core.fsmonitor": program,
        "core.hooksPath": hooks,
        "core.pager": program,
        "core.sshCommand": program,
        "core.gitProxy": program,
        "diff.external": program,
        "diff.x.command": program,
        "diff.x.textconv": program,
        "filter.x.smudge": program,
        "filter.x.clean": program,
        "credential.helper": program,
        "uploadpack.packObjectsHook": program,
        "alias.rev-parse": f"!{program}",
        "alias.cat-file": f"!{program}",
        "extensions.partialClone": "origin",
        "remote.origin.url": f"ext::{program}",
        "remote.origin.promisor": "true",
        "protocol.ext.allow": "always",
    }.items():
        plans.git("config", name, str(value))
    plans.put("house/cottage.coax.yaml", AS_DRAWN.replace(*NEW))
    told = coax("review", ".", "--since", "HEAD", cwd=plans.folder)
    assert (told.returncode, told.stderr) == (1, "")
    assert not mark.exists(), mark.read_text(encoding="utf-8")

    blob = plans.git("rev-parse", "HEAD:barn.coax.yaml").strip()
    (plans.folder / ".git" / "objects" / blob[:2] / blob[2:]).unlink()  # now it would have to be fetched
    told = coax("review", ".", "--since", "HEAD", cwd=plans.folder)
    assert (told.returncode, told.stdout) == (2, "")
    assert told.stderr == ("coaxwright: the repository does not hold the content of 'barn.coax.yaml'; fetch it first\n")
    assert not mark.exists(), mark.read_text(encoding="utf-8")

    plans.git("cat-file", "-p", blob, may_fail=True)
    plans.git("status", may_fail=True)
    ran = mark.read_text(encoding="utf-8")
    assert ran.count("\n") >= 2, "the settings would start something"


def test_beside_a_punch_list(coax, plans: Plans) -> None:
    """What the change brought may be put on the list; then nothing of it returns."""
    plans.put("house/cottage.coax.yaml", AS_DRAWN.replace(*NEW))
    words = ("--since", "HEAD", "--punch-list", "a.coax-punch-list.yaml")
    assert coax("punch-list", "a.coax-punch-list.yaml", ".", cwd=plans.folder).returncode == 0
    told = coax("review", ".", *words, "--as", "json", cwd=plans.folder)
    read = json.loads(told.stdout)
    assert told.returncode == 0
    assert read["totals"]["outstanding"] > 0
    assert read["totals"]["stood already"] == STOOD
    assert read["punch lists"][0]["no longer found"] == []
