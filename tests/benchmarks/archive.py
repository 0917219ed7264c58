"""Many designs: in one process and in several, again unchanged, and beside a checker that knows no rules."""

from __future__ import annotations

import shlex
import subprocess
import tempfile
from pathlib import Path
from statistics import median
from time import perf_counter

from measuring import SOURCE, Called, Row, call, in_turn, milliseconds, plain
from sites import write_many

from coaxwright.reviewing import review


def many(quick: bool) -> list[Row]:
    """In one process, with the yardstick in turn; then from a shell."""
    with tempfile.TemporaryDirectory() as top:
        return [*_one_process(Path(top, "one"), 100 if quick else 1000, quick), *_processes(Path(top), quick)]


def _one_process(folder: Path, count: int, quick: bool) -> list[Row]:
    folder.mkdir()
    write_many(folder, count)
    files = sorted(folder.rglob("*.coax.yaml"))
    y, seconds = in_turn(
        1 if quick else 3,
        lambda: [plain(path.read_text(encoding="utf-8")) for path in files],
        lambda: review([folder]),
    )
    return [
        Row(f"{count:,} small designs, one process", f"{seconds / y:.2f} Y", "1.5 Y", f"{seconds:.2f} s"),
    ]


def _processes(top: Path, quick: bool) -> list[Row]:
    """One process and two in turn on a part of the designs, then all of them by two, and all of them unchanged."""
    some, all_of_them = (200, 400) if quick else (1000, 10_000)
    part, whole, cache = top / "part", top / "whole", top / "cache"
    for folder, count in ((part, some), (whole, all_of_them)):
        folder.mkdir()
        write_many(folder, count)
    ones: list[Called] = []
    twos: list[Called] = []
    for _ in range(1 if quick else 3):
        ones.append(call(["review", ".", "--workers", "1"], part))
        twos.append(call(["review", ".", "--workers", "2"], part))
    one, two = (median(called.seconds for called in calls) for calls in (ones, twos))
    work = median(called.work_s for called in twos) / median(called.work_s for called in ones)
    first = call(["review", ".", "--workers", "2"], whole, cache)
    again, by_status = call(["review", "."], whole, cache), call(["review", "."], whole, cache)
    assert first.output == again.output == by_status.output
    return [
        Row(f"{some:,} small designs, two processes", f"{one / two:.2f} × one", "1.8 × one", f"{two:.1f} s"),
        Row("  work of all their processors together", f"{work:.2f} of one", "1.1", ""),
        Row(f"{all_of_them:,} small designs, two processes", "", "", f"{first.seconds:.1f} s"),
        Row(
            "  memory of a worker", f"{first.worker_mb / twos[0].worker_mb:.2f} of the above", "1", _mb(first.worker_mb)
        ),
        Row("  memory of the process that gathers", "", "", _mb(first.own_mb)),
        Row(
            "  the same, unchanged",
            f"{first.seconds / again.seconds:.0f} × faster",
            "30 ×",
            milliseconds(again.seconds),
        ),
        Row(
            "  and once more",
            f"{first.seconds / by_status.seconds:.0f} × faster",
            "30 ×",
            milliseconds(by_status.seconds),
        ),
    ]


def _mb(memory_mb: float) -> str:
    return f"{memory_mb:.0f} MB"


def beside_a_checker(command: str, quick: bool) -> list[Row]:
    """A general-purpose checker of schemas on the same files, run in turn; ``command`` takes a schema and files.

    ``{schema}`` and ``{files}`` stand for them: ``checker --schema {schema} {files}``.
    """
    schema = str(Path(SOURCE).parent / "schemas" / "design-1.schema.json")
    rows: list[Row] = []
    for count in (1, 100 if quick else 1000):
        with tempfile.TemporaryDirectory() as name:
            folder = Path(name)
            write_many(folder, count)
            files = [str(path) for path in sorted(folder.rglob("*.coax.yaml"))]
            checker = [
                word
                for written in shlex.split(command)
                for word in (files if written == "{files}" else [written.replace("{schema}", schema)])
            ]
            theirs: list[float] = []
            ours: list[float] = []
            for _ in range((5 if quick else 11) if count == 1 else 1):
                begun = perf_counter()
                subprocess.run(checker, capture_output=True, check=True)
                theirs.append(perf_counter() - begun)
                ours.append(call(["review", *files, "--workers", "1"], folder).seconds)
            their, our = sorted(theirs)[len(theirs) // 2], sorted(ours)[len(ours) // 2]
            what = f"{count:,} small {'design' if count == 1 else 'designs'} beside a general-purpose schema checker"
            goal = "0.65" if count == 1 else "0.25"
            rows.append(Row(what, f"{our / their:.2f} of its time", goal, milliseconds(their) + ", the checker's"))
    return rows
