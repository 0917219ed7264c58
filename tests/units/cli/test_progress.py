"""The line that tells how far a review has come: on a terminal only, and gone at the end."""

from __future__ import annotations

import io

import pytest

from coaxwright.cli import progress as module
from coaxwright.cli.progress import MANY, Progress


class Terminal(io.StringIO):
    """A stream that a person looks at."""

    def isatty(self) -> bool:
        return True


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> list[float]:
    """The time, as the test sets it."""
    now = [0.0]
    monkeypatch.setattr(module, "monotonic", lambda: now[0])
    monkeypatch.setenv("TERM", "xterm")
    return now


def screen(text: str) -> str:
    """What stands on the line when all was written over."""
    line = ""
    for piece in text.split("\r"):
        line = piece + line[len(piece) :]
    return line.rstrip()


def test_many_designs_are_counted_at_once(clock: list[float]) -> None:
    stream = Terminal()
    line = Progress(stream)
    for done in range(1, 1201):
        clock[0] += 0.01
        line.watch(done, 1200)
    assert screen(stream.getvalue()) == "reviewed 1,200 of 1,200 designs"
    assert 100 < stream.getvalue().count("\r") < 140  # about ten times a second
    line.end()
    assert screen(stream.getvalue()) == ""
    assert "\n" not in stream.getvalue()
    assert "\x1b" not in stream.getvalue()


def test_few_designs_are_counted_when_they_take_long(clock: list[float]) -> None:
    stream = Terminal()
    line = Progress(stream)
    clock[0] = 0.9
    line.watch(1, MANY - 1)
    assert stream.getvalue() == ""
    clock[0] = 1.1
    line.watch(2, MANY - 1)
    assert screen(stream.getvalue()) == "reviewed 2 of 49 designs"


def test_one_design_is_not_counted(clock: list[float]) -> None:
    stream = Terminal()
    line = Progress(stream)
    clock[0] = 60.0
    line.watch(1, 1)
    line.end()
    assert stream.getvalue() == ""


@pytest.mark.parametrize("where", ["pipe", "dumb terminal"])
def test_nothing_is_written_elsewhere(clock: list[float], where: str, monkeypatch: pytest.MonkeyPatch) -> None:
    stream = io.StringIO() if where == "pipe" else Terminal()
    if where != "pipe":
        monkeypatch.setenv("TERM", "dumb")
    line = Progress(stream)
    clock[0] = 60.0
    line.watch(500, 1000)
    line.end()
    assert stream.getvalue() == ""
