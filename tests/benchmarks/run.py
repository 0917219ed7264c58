"""Measure, and print one table of ratios. Nothing is asserted: machines differ, and ratios of one run are what counts.

    python tests/benchmarks/run.py [--quick]

Y is reading the same text with PyYAML's CSafeLoader and nothing else, measured in turn with what is compared to it.
"""

from __future__ import annotations

import re
import resource
import subprocess
import sys
import tempfile
from collections.abc import Callable, Sequence
from pathlib import Path
from statistics import median
from time import perf_counter

import yaml

import coaxwright
from coaxwright.review import review
from coaxwright.review.pipeline import review_document
from coaxwright.review.terms import Bases
from coaxwright.rules import shipped_shelf
from coaxwright.source import read_text

EXAMPLE = Path(__file__).parents[2] / "examples" / "tern-cottage"
CORRECTED = (EXAMPLE / "corrected.coax.yaml").read_text(encoding="utf-8")
AS_DRAWN = (EXAMPLE / "as-drawn.coax.yaml").read_text(encoding="utf-8")
QUICK = "--quick" in sys.argv
ROUNDS = 15 if QUICK else 60
Row = tuple[str, str, str, str]


def main() -> None:
    """Print the table."""
    rows = [*warm(), *cold(), *many(), *large()]
    widths = [max(len(row[column]) for row in rows) for column in range(4)]
    for row in (("what", "measured", "ratio", "goal"), *rows):
        print("  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip())


def in_turn(rounds: int, *actions: Callable[[], object]) -> list[float]:
    """The median time of each action in seconds, all measured in turn so that a noisy machine is noisy for all."""
    times: list[list[float]] = [[] for _ in actions]
    for action in actions:
        action()
    for _ in range(rounds):
        for action, own in zip(actions, times, strict=True):
            begun = perf_counter()
            action()
            own.append(perf_counter() - begun)
    return [median(own) for own in times]


def plain(text: str) -> object:
    """The yardstick."""
    return yaml.load(text, yaml.CSafeLoader)


def milliseconds(seconds: float) -> str:
    return f"{seconds * 1e3:.2f} ms"


def warm() -> list[Row]:
    bases = Bases(shipped_shelf())
    kilobytes = len(CORRECTED.encode()) / 1e3
    y, read, clear = in_turn(
        ROUNDS,
        lambda: plain(CORRECTED),
        lambda: read_text(CORRECTED, "x"),
        lambda: review_document(read_text(CORRECTED, "x"), bases),
    )
    y_drawn, drawn = in_turn(ROUNDS, lambda: plain(AS_DRAWN), lambda: review_document(read_text(AS_DRAWN, "x"), bases))
    return [
        (f"Y: plain reading, {kilobytes:.1f} kB", milliseconds(y), "1", ""),
        ("reading with positions", milliseconds(read), f"{read / y:.2f} Y", "0.5 Y"),
        ("one small design, warm, no finding", milliseconds(clear), f"{clear / y:.2f} Y", "1.5 Y"),
        ("one small design, warm, eleven findings", milliseconds(drawn), f"{drawn / y_drawn:.2f} Y", "2 Y"),
    ]


def cold() -> list[Row]:
    def start(*words: str) -> Callable[[], object]:
        environment = {"PYTHONPATH": str(Path(coaxwright.__file__).parents[1]), "PATH": "/usr/bin:/bin"}
        command = [sys.executable, *words]
        return lambda: subprocess.run(command, env=environment, cwd=EXAMPLE, stdout=subprocess.DEVNULL, check=False)

    bare, version, help_, clear, parsed, drawn = in_turn(
        5 if QUICK else 15,
        start("-c", "pass"),
        start("-m", "coaxwright", "--version"),
        start("-m", "coaxwright", "--help"),
        start("-m", "coaxwright", "review", "corrected.coax.yaml"),
        start("-m", "coaxwright", "review", "corrected.coax.yaml", "--plain"),
        start("-m", "coaxwright", "review", "as-drawn.coax.yaml"),
    )
    return [
        ("interpreter, cold", milliseconds(bare), "1 start", ""),
        ("--version, cold", milliseconds(version), f"{version / bare:.1f} starts", "80 ms"),
        ("--help, cold", milliseconds(help_), f"{help_ / bare:.1f} starts", "80 ms"),
        ("one file, cold, clear", milliseconds(clear), f"{clear / bare:.1f} starts", "180 ms"),
        ("one file, cold, with an option", milliseconds(parsed), f"{parsed / bare:.1f} starts", ""),
        ("one file, cold, eleven findings", milliseconds(drawn), f"{drawn / bare:.1f} starts", ""),
    ]


def many() -> list[Row]:
    count = 100 if QUICK else 1000
    texts = [CORRECTED.replace("job: QH-07", f"job: QH-{number}") for number in range(count)]
    with tempfile.TemporaryDirectory() as folder:
        for number, text in enumerate(texts):
            Path(folder, f"{number:04}.coax.yaml").write_text(text, encoding="utf-8")
        y, all_of_them = in_turn(
            1 if QUICK else 3,
            lambda: [plain(path.read_text(encoding="utf-8")) for path in sorted(Path(folder).iterdir())],
            lambda: review([folder]),
        )
    peak_mb = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1e3
    return [
        (f"{count:,} small designs, one process", f"{all_of_them:.2f} s", f"{all_of_them / y:.2f} Y", "1.5 Y"),
        ("memory at that point", f"{peak_mb:.0f} MB", "", "120 MB"),
    ]


def site_of(houses: int) -> str:
    """One site that repeats the house of the example: fifteen devices to a house."""
    sections: dict[str, list[str]] = {}
    head = CORRECTED[: CORRECTED.index("buildings:")]
    body = CORRECTED[CORRECTED.index("buildings:") :]
    pieces = re.split(r"(?m)^([a-z]+):\n", body)[1:]
    own = sorted(_names(pieces), key=len, reverse=True)
    pattern = re.compile(r"(?<!exposure: )(?<!cable )(?<![\w-])(" + "|".join(map(re.escape, own)) + r")(?![\w-])")
    for house in range(houses):
        for section, content in zip(pieces[::2], pieces[1::2], strict=True):
            sections.setdefault(section, []).append(
                pattern.sub(rf"\1-{house}", content) if section in _RENAMED else content
            )
    return head + "".join(
        f"{section}:\n{''.join(contents)}" if section in _RENAMED else f"{section}:\n{contents[0]}"
        for section, contents in sections.items()
    )


_RENAMED = ("buildings", "places", "services", "devices", "cables", "bonding")


def _names(pieces: Sequence[str]) -> set[str]:
    """Every tag, place, building and service that a house has of its own."""
    names: set[str] = set()
    for content in pieces[1::2]:
        names |= set(re.findall(r"(?m)^  ([\w][\w -]*?):", content))
    return names


def large() -> list[Row]:
    bases = Bases(shipped_shelf())
    rows: list[Row] = []
    smallest = 0.0
    for devices in (100, 500 if QUICK else 2000):
        houses = round(devices / 15)
        text = site_of(houses)
        result = review_document(read_text(text, "x"), bases)
        assert not result.problems, result.problems[0]
        assert not result.crashes
        y, time = in_turn(
            3,
            lambda text=text: plain(text),
            lambda text=text: review_document(read_text(text, "x"), bases),  # type: ignore[misc]
        )
        each = time / (houses * 15)
        smallest = smallest or each
        what = f"one site of {houses * 15:,} devices, {len(text.encode()) / 1e3:.0f} kB"
        rows.append((what, milliseconds(time), f"{time / y:.2f} Y", ""))
        rows.append(("  time per device", f"{each * 1e6:.0f} µs", f"{each / smallest:.2f} of the first", "1.3"))
    return rows


if __name__ == "__main__":
    main()
