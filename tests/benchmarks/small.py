"""One small design: warm, and from a shell."""

from __future__ import annotations

import tempfile
from pathlib import Path

from measuring import Row, in_turn, milliseconds, plain, reviewed, shell
from sites import AS_DRAWN, CORRECTED, EXAMPLE, with_more_findings

from coaxwright.reviewing.effective_rules import RuleSources
from coaxwright.rules import shipped_registry
from coaxwright.source import read_text


def warm(quick: bool) -> list[Row]:
    """Reading and reviewing in a process that has done so before."""
    bases = RuleSources(shipped_registry())
    rounds = 15 if quick else 60
    twenty = _with_findings(20, bases)
    y, read, clear = in_turn(
        rounds,
        lambda: plain(CORRECTED),
        lambda: read_text(CORRECTED, "x"),
        lambda: reviewed(CORRECTED, bases),
    )
    y_drawn, drawn = in_turn(rounds, lambda: plain(AS_DRAWN), lambda: reviewed(AS_DRAWN, bases))
    y_more, more = in_turn(rounds, lambda: plain(twenty), lambda: reviewed(twenty, bases))
    kilobytes = len(CORRECTED.encode()) / 1e3
    return [
        Row(f"Y: plain reading of {kilobytes:.1f} kB", "1 Y", "", milliseconds(y)),
        Row("reading with positions", f"{read / y:.2f} Y", "0.5 Y", milliseconds(read)),
        Row("one small design, warm, no finding", f"{clear / y:.2f} Y", "1.5 Y", milliseconds(clear)),
        Row("one small design, warm, eleven findings", f"{drawn / y_drawn:.2f} Y", "", milliseconds(drawn)),
        Row("one small design, warm, twenty findings", f"{more / y_more:.2f} Y", "2 Y", milliseconds(more)),
    ]


def _with_findings(count: int, bases: RuleSources) -> str:
    """A design with so many findings, or the first with more."""
    for more in range(count):
        text = with_more_findings(more)
        if len(reviewed(text, bases).findings) >= count:
            return text
    raise AssertionError(f"no design has {count} findings")


def cold(quick: bool) -> list[Row]:
    """Calls from a shell."""
    with tempfile.TemporaryDirectory() as folder:
        cache = Path(folder, "cache")
        review = ("-m", "coaxwright", "review")
        shell(*review, "corrected.coax.yaml", cwd=EXAMPLE, cache=cache)()
        bare, version, help_, clear, parsed, drawn, kept = in_turn(
            5 if quick else 15,
            shell("-c", "pass", cwd=EXAMPLE),
            shell("-m", "coaxwright", "--version", cwd=EXAMPLE),
            shell("-m", "coaxwright", "--help", cwd=EXAMPLE),
            shell(*review, "corrected.coax.yaml", cwd=EXAMPLE),
            shell(*review, "corrected.coax.yaml", "--plain", cwd=EXAMPLE),
            shell(*review, "as-drawn.coax.yaml", cwd=EXAMPLE),
            shell(*review, "corrected.coax.yaml", cwd=EXAMPLE, cache=cache),
        )

    def row(what: str, seconds: float, goal: str = "") -> Row:
        return Row(what, f"{seconds / bare:.1f} starts", goal, milliseconds(seconds))

    # The goals in milliseconds are of a machine on which the interpreter starts in 11 ms.
    return [
        row("start of the interpreter", bare),
        row("--version", version, "80 ms, 7.3 starts"),
        row("--help", help_, "80 ms, 7.3 starts"),
        row("one file from a shell, clear", clear, "180 ms, 16 starts"),
        row("the same with an option", parsed),
        row("one file from a shell, eleven findings", drawn),
        row("one file that has not changed", kept, "60 ms, 5.5 starts"),
    ]
