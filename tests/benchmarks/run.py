"""Measure, and print one table of ratios. Nothing is asserted: machines differ, and ratios of one run are what counts.

    python tests/benchmarks/run.py [--quick] [--only PART] [--write FILE] [--schema-checker COMMAND]

Y is reading the same text with PyYAML's CSafeLoader and nothing else, measured in turn with what is compared to it.
A schema checker is any command that takes a schema and files: ``checker --schema {schema} {files}``.
"""

from __future__ import annotations

import argparse
import os
import platform
import sys
from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path

from archive import beside_a_checker, many
from large import large, levels
from measuring import Row
from small import cold, warm

from coaxwright.version import VERSION

PARTS: dict[str, Callable[[bool], list[Row]]] = {
    "warm": warm,
    "cold": cold,
    "many": many,
    "large": large,
    "levels": levels,
}
_PAGE = """\
# Measured

Times depend on the machine and on what else it does; ratios of one run, measured in turn, say more. They come first.
Times are those of the processor, except for many designs from a shell, where they are those of the clock on the wall.
**Y** is the time that plain reading of the same file takes with the parser's own loader, which looks at nothing and
keeps no places. A *start* is that of an interpreter that does nothing. The goals are those that the program is built
to, where there is one; those in milliseconds are of a machine on which an interpreter starts in 11 ms.

{when}

{table}

`python tests/benchmarks/run.py --write docs/measured.md` makes this page; `--quick` measures less in two minutes.
"""


def main() -> None:
    """Print the table, and write it where that is asked for."""
    parser = argparse.ArgumentParser(description="Measure, and print one table of ratios.")
    parser.add_argument("--quick", action="store_true", help="fewer and smaller, within two minutes")
    parser.add_argument("--only", choices=PARTS, help="this part alone")
    parser.add_argument("--write", type=Path, metavar="FILE", help="write the page of figures")
    parser.add_argument("--schema-checker", metavar="COMMAND", help="compare with it: 'checker {schema} {files}'")
    asked = parser.parse_args()
    rows: list[Row] = []
    for name, measure in PARTS.items():
        if asked.only in (None, name):
            print(f"measuring: {name}", file=sys.stderr)
            rows += measure(asked.quick)
    if asked.schema_checker and asked.only in (None, "many"):
        rows += beside_a_checker(asked.schema_checker, asked.quick)
    cells = [("what", "ratio", "goal", "measured"), *((row.what, row.ratio, row.goal, row.measured) for row in rows)]
    print("\n".join(_plain(cells)))
    if asked.write is not None:
        asked.write.write_text(_PAGE.format(when=_when(asked.quick), table="\n".join(_table(cells))), encoding="utf-8")


def _plain(cells: Sequence[Sequence[str]]) -> list[str]:
    widths = [max(len(row[column]) for row in cells) for column in range(4)]
    return ["  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in cells]


def _table(cells: Sequence[Sequence[str]]) -> list[str]:
    head, *rows = cells
    shown = [f"| {' | '.join(cell.replace('  ', '… ') for cell in row)} |" for row in rows]
    return [f"| {' | '.join(head)} |", "|---|---|---|---|", *shown]


def _when(quick: bool) -> str:
    load = f", load {os.getloadavg()[0]:.1f} while measuring" if hasattr(os, "getloadavg") else ""
    machine = f"{platform.system()} on {platform.machine()}, {os.cpu_count()} cores{load}"
    how = "with `--quick`, " if quick else ""
    python = f"Python {platform.python_version()}"
    return f"Measured {how}on {date.today().isoformat()}: version {VERSION}, {python}, {machine}."


if __name__ == "__main__":
    main()
