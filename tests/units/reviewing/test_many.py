"""Many designs: the same review whatever the manner, in one process or several, timed or not."""

from __future__ import annotations

import multiprocessing
import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from coaxwright.findings import Result
from coaxwright.reviewing import WHOLE_DESIGN, Crash, Review, design_reviewer, many, pipeline, workers
from coaxwright.reviewing.cache.serialization import NotStored
from coaxwright.reviewing.pipeline import review, review_asked
from coaxwright.reviewing.review_request import USUAL_REQUEST
from coaxwright.reviewing.run_options import RunOptions
from coaxwright.reviewing.search import Found
from coaxwright.reviewing.timing import PARTS, Clock

EXAMPLES = Path(__file__).parents[3] / "examples"
HEAD = "coaxwright: 1\ntitle: Pipit Lane {} (invented)\nbasis: {{rulesets: [trade 1]}}\n"


def designs(count: int) -> list[str]:
    """Small designs, and every fifth that is not understood."""
    for number in range(count):
        kind = "coax drop" if number % 5 else "service dropp"
        text = HEAD.format(number) + f"devices: {{SP: {{kind: {kind}}}}}\n"
        Path(f"{number:03}.coax.yaml").write_text(text, encoding="utf-8")
    return sorted(path.name for path in Path().glob("*.coax.yaml"))


@pytest.fixture(autouse=True)
def _in_tmp(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


@pytest.fixture(params=["usual", "spawn"])
def start(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """The way in which processes are started."""
    if request.param != "usual":
        context = multiprocessing.get_context(request.param)
        monkeypatch.setattr(workers, "_start_method", lambda: context)
    return str(request.param)


def test_several_processes_find_what_one_does(start: str) -> None:
    one = review([EXAMPLES], with_amendments=True)
    assert review([EXAMPLES], with_amendments=True, workers=2) == one
    assert any(finding.amendment for finding in one.findings)
    assert not multiprocessing.active_children()


def test_designs_come_in_the_order_of_their_names() -> None:
    names = designs(40)
    told = review(reversed(names), workers=2)
    assert [design.file for design in told.designs] == names
    assert told == review(names)


def test_rules_are_the_very_same_in_all_designs() -> None:
    names = designs(10)
    understood = [design for design in review(names, workers=2).designs if design.rules]
    assert len({id(rule) for design in understood for rule in design.rules}) == len(understood[0].rules)


@pytest.mark.parametrize(
    ("wanted", "count", "cores", "expected"),
    [
        (None, many.FEW - 1, 8, 1),
        (None, many.FEW, 8, 8),
        (None, 10_000, 1, 1),
        (1, 10_000, 8, 1),
        (6, 10_000, 2, 6),
        (6, 3, 8, 3),
        (6, 0, 8, 0),
    ],
)
def test_how_many_processes(
    wanted: int | None, count: int, cores: int, expected: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(many, "_cores", lambda: cores)
    assert many._workers(wanted, count) == expected


def test_one_design_starts_no_process(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise AssertionError("a process is started")

    monkeypatch.setattr(workers, "in_workers", refuse)
    designs(1)
    assert len(review(["."], workers=8).designs) == 1


def test_chunks_get_smaller_towards_the_end_and_leave_nothing_out() -> None:
    tasks = [(number, Found(str(number), Path()), USUAL_REQUEST) for number in range(1000)]
    chunks = list(workers.chunked(tasks, 2))
    assert [task for chunk in chunks for task in chunk] == tasks
    sizes = [len(chunk) for chunk in chunks]
    assert sizes == sorted(sizes, reverse=True)
    assert (sizes[0], sizes[-1]) == (16, 1)


@pytest.mark.parametrize("error", [OSError(11, "no more"), ImportError("no semaphores")])
def test_where_no_process_can_be_started_one_does_it_all(error: Exception, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise error

    monkeypatch.setattr(workers, "ProcessPoolExecutor", refuse)
    names = designs(4)
    assert review(names, workers=2) == review(names)


@pytest.fixture
def forked(monkeypatch: pytest.MonkeyPatch) -> None:
    """Processes that are copies of this one, with all that a test has changed in it."""
    context = multiprocessing.get_context("fork")
    monkeypatch.setattr(workers, "_start_method", lambda: context)


@pytest.mark.usefixtures("forked")
def test_rules_that_are_not_the_program_s_own_are_asked_in_one_process(monkeypatch: pytest.MonkeyPatch) -> None:
    """Their checks cannot be named to another process."""
    names = designs(6)
    whole = review(names)
    real = design_reviewer.DesignReviewer.made

    def refuse(self: design_reviewer.DesignReviewer, found: Found, design: object) -> object:
        if found.name == "004.coax.yaml":
            raise NotStored("the check is not the program's")
        return real(self, found, design)  # type: ignore[arg-type]

    monkeypatch.setattr(design_reviewer.DesignReviewer, "made", refuse)
    assert review(names, workers=2) == whole


def dies_at(fatal: str, once: Path | None = None) -> Callable[..., object]:
    """A review of one design that ends its process: always, or the first time alone."""
    real = pipeline.review_one

    def review_one(found: Found, *others: object) -> object:
        if found.name == fatal and not found.fault and (once is None or not once.exists()):
            if once is not None:
                once.write_text("", encoding="utf-8")
            os.kill(os.getpid(), signal.SIGKILL)
        return real(found, *others)  # type: ignore[arg-type]

    return review_one


@pytest.mark.usefixtures("forked")
def test_a_process_that_dies_at_a_design_leaves_that_one_out(monkeypatch: pytest.MonkeyPatch) -> None:
    names = designs(30)
    whole = review(names)
    notices: list[str] = []
    monkeypatch.setattr(pipeline, "review_one", dies_at("007.coax.yaml"))
    told = review_asked(names, USUAL_REQUEST, RunOptions(2, notice=notices.append))
    lost = told.designs[7]
    assert lost.crashes == (Crash(WHOLE_DESIGN, "", workers.ENDED),)
    assert (lost.file, lost.result, told.exit_status) == ("007.coax.yaml", Result.INCOMPLETE, 3)
    assert lost.cautions
    assert [one for one in told.designs if one != lost] == [one for one in whole.designs if one.file != lost.file]
    assert notices == ["a process ended before its time; what it had not finished is reviewed again"]
    assert not multiprocessing.active_children()


@pytest.mark.usefixtures("forked")
def test_a_process_that_was_killed_by_chance_leaves_nothing_out(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    names = designs(30)
    whole = review_asked(names, USUAL_REQUEST)
    monkeypatch.setattr(pipeline, "review_one", dies_at("007.coax.yaml", tmp_path / "died"))
    assert review_asked(names, USUAL_REQUEST, RunOptions(2)) == whole
    assert (tmp_path / "died").exists()


@pytest.mark.usefixtures("forked")
def test_when_processes_die_again_and_again_the_rest_is_told_as_not_begun(monkeypatch: pytest.MonkeyPatch) -> None:
    names = designs(12)
    monkeypatch.setattr(workers, "_MOST_LOST", 2)
    monkeypatch.setattr(pipeline, "review_one", dies_at_all)
    told = review_asked(names, USUAL_REQUEST, RunOptions(2))
    why = [design.crashes[0].error for design in told.designs]
    assert why == [workers.ENDED] * 2 + [workers._GIVEN_UP] * 10


def dies_at_all(found: Found, *others: object) -> object:
    if not found.fault:
        os.kill(os.getpid(), signal.SIGKILL)
    return REAL(found, *others)  # type: ignore[arg-type]


REAL = pipeline.review_one


@pytest.mark.usefixtures("forked")
def test_a_fault_in_a_process_is_told_of_its_design_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    names = designs(6)

    def fail(document: object, *_: object) -> object:
        if "003" in document.name:  # type: ignore[attr-defined]
            raise MemoryError("out of memory")
        return judge(document, *_)  # type: ignore[arg-type]

    judge = pipeline.judge
    monkeypatch.setattr(pipeline, "judge", fail)
    told = review(names, workers=2)
    assert [design.result is Result.INCOMPLETE for design in told.designs] == [n == 3 for n in range(6)]
    assert told.designs[3].crashes == (Crash(WHOLE_DESIGN, "", "MemoryError: out of memory"),)


@pytest.mark.parametrize("count", [1, 2])
def test_the_time_is_taken_where_it_is_asked_for_and_changes_nothing(count: int) -> None:
    clock = Clock()
    plain = review_asked([EXAMPLES], USUAL_REQUEST)
    timed = review_asked([EXAMPLES], USUAL_REQUEST, RunOptions(count, clock=clock))
    assert timed == plain
    assert [one.rules for one in timed.designs] == [one.rules for one in plain.designs]
    assert clock.designs == len(plain.designs)
    assert set(PARTS[:-1]) <= set(clock.seconds)
    assert set(clock.seconds) - set(PARTS) == set(clock.subjects)
    assert all(seconds >= 0 for seconds in clock.seconds.values())
    counted = sum(
        tally.met + tally.not_met + tally.does_not_apply + tally.cannot_be_judged + tally.needs_a_person
        for design in plain.designs
        for tally in design.tallies
        if tally.rule == "cable.run-length"
    )
    assert clock.subjects["cable.run-length"] == counted


def test_whoever_watches_is_told_of_every_design() -> None:
    names = designs(5)
    for count in (1, 2):
        seen: list[tuple[int, int]] = []
        review_asked(names, USUAL_REQUEST, RunOptions(count, watch=lambda *one, seen=seen: seen.append(one)))
        assert seen == [(number, 5) for number in range(1, 6)]


def running(pids: set[int]) -> set[int]:
    """Those of the processes that have not ended."""
    left = set()
    for pid in pids:
        try:
            os.kill(pid, 0)
        except ProcessLookupError:
            continue
        status = Path(f"/proc/{pid}/stat")
        if not status.exists() or status.read_text(encoding="utf-8").rpartition(")")[2].split()[0] != "Z":
            left.add(pid)
    return left


SLOW = """
import os, signal, sys, time
signal.signal(signal.SIGINT, signal.default_int_handler)  # a job in the background begins without it
from pathlib import Path
from coaxwright.reviewing import pipeline
from coaxwright.reviewing.design_reviewer import DesignReviewer
real = DesignReviewer.review
def slow(self, found, asked):
    Path(f"pid-{os.getpid()}").write_text("", encoding="utf-8")
    time.sleep(0.05)
    return real(self, found, asked)
DesignReviewer.review = slow
from coaxwright.cli import main
sys.exit(main(["review", ".", "--workers", "2"]))
"""


@pytest.mark.parametrize("end", [signal.SIGINT, signal.SIGKILL])
def test_an_interruption_ends_every_process(end: signal.Signals) -> None:
    designs(400)
    command = subprocess.Popen(
        [sys.executable, "-c", SLOW],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env={**os.environ, "PYTHONPATH": str(Path(many.__file__).parents[2])},
        start_new_session=True,
        encoding="utf-8",
    )
    begun = time.monotonic()
    while len(pids := {int(path.name[4:]) for path in Path().glob("pid-*")}) < 2:
        assert command.poll() is None
        assert time.monotonic() - begun < 60
        time.sleep(0.02)
    assert command.pid not in pids
    if end is signal.SIGINT:
        os.killpg(command.pid, end)  # as a terminal does: to all of them
    else:
        command.send_signal(end)
    out, err = command.communicate(timeout=30)
    begun = time.monotonic()
    while running(pids) and time.monotonic() - begun < 10:
        time.sleep(0.05)
    assert running(pids) == set()
    if end is signal.SIGINT:
        assert (command.returncode, out) == (3, "")
        assert err == "coaxwright: interrupted; the review is incomplete\n"


def test_an_empty_review_is_incomplete() -> None:
    assert many.reviewed([], pipeline.review_one, RunOptions()) == ()
    assert Review(()).exit_status == 3
