"""Measuring in turn, and the rows of the table."""

from __future__ import annotations

import json
import os
import resource
import subprocess
import sys
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from statistics import median
from time import perf_counter, process_time

import yaml

import coaxwright
from coaxwright.reviewing.effective_rules import RuleSources
from coaxwright.reviewing.model import DesignReview
from coaxwright.reviewing.pipeline import review_one
from coaxwright.reviewing.review_request import USUAL_REQUEST
from coaxwright.reviewing.search import Found

SOURCE = str(Path(coaxwright.__file__).parents[1])
_RUN_AND_TELL = """
import json, resource, sys
from coaxwright.cli import main
status = main(sys.argv[1:])
used = [resource.getrusage(which) for which in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
work = sum(one.ru_utime + one.ru_stime for one in used)
print(json.dumps([work, *(one.ru_maxrss for one in used)]), file=sys.stderr)
sys.exit(status)
"""


@dataclass(frozen=True)
class Row:
    """One line of the table: the ratio counts, the figure beside it is of this machine."""

    what: str
    ratio: str
    goal: str
    measured: str


@dataclass(frozen=True)
class Called:
    """One call of the command."""

    seconds: float
    work_s: float
    """Of all processors together."""
    own_mb: float
    worker_mb: float
    """The largest of its worker processes."""
    output: bytes


def processor_s() -> float:
    """The time that processors have worked for this process and those it has waited for [s]."""
    children = resource.getrusage(resource.RUSAGE_CHILDREN)
    return process_time() + children.ru_utime + children.ru_stime


def in_turn(
    rounds: int, *actions: Callable[[], object], warm: bool = True, clock: Callable[[], float] = processor_s
) -> list[float]:
    """The median time of each action in seconds, all measured in turn so that a noisy machine is noisy for all.

    Of the processor, unless another clock is given: a process that has to wait for others is no slower by it.
    """
    times: list[list[float]] = [[] for _ in actions]
    if warm:
        for action in actions:
            action()
    for _ in range(rounds):
        for action, own in zip(actions, times, strict=True):
            begun = clock()
            action()
            own.append(clock() - begun)
    return [median(own) for own in times]


def reviewed(text: str, bases: RuleSources) -> DesignReview:
    """A text read and reviewed as the program does with each design."""
    return review_one(Found("x.coax.yaml", Path("x.coax.yaml"), content=text.encode()), bases, {}, USUAL_REQUEST)


def plain(text: str) -> object:
    """The yardstick: reading and nothing else."""
    return yaml.load(text, yaml.CSafeLoader)


def environment(cache: Path | None) -> Mapping[str, str]:
    """What a command is run in; ``cache`` is the folder of its results, None for none."""
    kept = {"COAXWRIGHT_CACHE": str(cache) if cache is not None else "off"}
    return {"PYTHONPATH": SOURCE, "PATH": os.environ.get("PATH", ""), "HOME": os.environ.get("HOME", ""), **kept}


def shell(*words: str, cwd: Path, cache: Path | None = None) -> Callable[[], object]:
    """A call of the interpreter, to be measured."""
    command, around = [sys.executable, *words], environment(cache)
    return lambda: subprocess.run(
        command, env=around, cwd=cwd, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False
    )


def call(words: Sequence[str], cwd: Path, cache: Path | None = None) -> Called:
    """One call of the command, with the most memory that it and its workers took."""
    begun = perf_counter()
    done = subprocess.run(
        [sys.executable, "-c", _RUN_AND_TELL, *words], env=environment(cache), cwd=cwd, capture_output=True, check=False
    )
    seconds = perf_counter() - begun
    work_s, own_kb, worker_kb = json.loads(done.stderr.splitlines()[-1])
    return Called(seconds, work_s, own_kb / 1e3, worker_kb / 1e3, done.stdout)


def milliseconds(seconds: float) -> str:
    return f"{seconds * 1e3:.2f} ms" if seconds < 0.1 else f"{seconds * 1e3:.0f} ms"
