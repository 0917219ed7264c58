"""Run every command of the README, in order, in a clean copy of the project, and hold what it shows to what comes out.

    python tests/journeys/readme_commands.py [README]

In a ``console`` block a line that begins with ``$ `` is a command and the lines below it are its output; a line that is
``...`` stands for any lines. In a ``bash`` block every line is a command. A command ends with exit status 0, unless the
words behind its block, up to the next block, say ``exit status N``. A ``text`` block below a comment
``<!-- shown: NAME -->`` is part of the output of the command before it that names a file beginning with NAME. How many
rules a review has checked, and on how many items, may differ: both grow.
The command that runs the tests comes last, and its own closing line ends the output.
"""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

TOP = Path(__file__).parents[2]
LEFT_OUT = (".git", ".venv*", "__pycache__", ".*_cache", ".hypothesis", "*.egg-info", "build", "dist")
_FENCE = re.compile(r"^```(\w*)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_STATUS = re.compile(r"exit\s+status\s+([0-3])\b")
_COUNTS = re.compile(r"\s\d+\s+rules?\s+checked\s+on\s+\d+\s+items?\b")
_SHOWN = re.compile(r"<!-- shown: ([\w.-]+) -->\s*\Z")


@dataclass
class Step:
    """One command, with what the README says of it."""

    command: str
    shown: list[str] = field(default_factory=list)
    status: int = 0

    @property
    def runs_the_tests(self) -> bool:
        return self.command.rstrip().endswith("pytest")


def steps(text: str) -> list[Step]:
    """The commands of a README, the one that runs its tests last."""
    found: list[Step] = []
    fences = list(_FENCE.finditer(text))
    for number, fence in enumerate(fences):
        words_before = text[fences[number - 1].end() if number else 0 : fence.start()]
        next_start = fences[number + 1].start() if number + 1 < len(fences) else len(text)
        kind, content = fence.groups()
        if kind in ("console", "bash", "sh"):
            begun = list(_in_block(kind, content))
            paragraph = re.split(r"\n#|\n<!--", text[fence.end() : next_start])[0]
            status = _STATUS.search(paragraph)
            if begun and status:
                begun[-1].status = int(status.group(1))
            found += begun
        elif shown := _SHOWN.search(words_before):
            owner = [step for step in found if f"/{shown.group(1)}" in step.command]
            if not owner:
                raise SystemExit(f"README: no command before the block shown: {shown.group(1)}")
            if not content.strip():
                raise SystemExit(f"README: the block shown: {shown.group(1)} is empty")
            owner[-1].shown = ["...", *content.splitlines(), "..."]
    return sorted(found, key=lambda step: step.runs_the_tests)


def _in_block(kind: str, content: str) -> Iterator[Step]:
    step: Step | None = None
    for line in content.replace("\\\n", " ").splitlines():
        if kind != "console":
            if line.strip() and not line.lstrip().startswith("#"):
                yield Step(line)
        elif line.startswith("$ "):
            if step is not None:
                yield step
            step = Step(line[2:])
        elif step is None:
            raise SystemExit(f"README: output without a command: {line!r}")
        else:
            step.shown.append(line)
    if step is not None:
        yield step


def agrees(shown: list[str], printed: list[str]) -> bool:
    """Whether the lines shown are the lines printed, where ``...`` stands for any."""
    wanted, told = (_without_counts("".join(f"{line.rstrip()}\n" for line in lines)) for lines in (shown, printed))
    pattern = "".join(
        r"(?:.*\n)*" if line.strip() == "..." else re.escape(line) + r"\n" for line in wanted.splitlines()
    )
    return re.fullmatch(pattern, told) is not None


def _without_counts(text: str) -> str:
    return _COUNTS.sub(" N rules checked on M items", text)


def mistake(step: Step, folder: Path) -> str:
    """Run one command; what differs from what the README says, or nothing."""
    done = subprocess.run(
        ["bash", "-c", step.command],
        cwd=folder,
        stdin=subprocess.DEVNULL,
        stdout=None if step.runs_the_tests else subprocess.PIPE,
        stderr=subprocess.STDOUT,
        encoding="utf-8",
        check=False,
    )
    printed = done.stdout or ""
    if done.returncode != step.status:
        return f"exit status {done.returncode}, not {step.status}\n{printed}"
    if step.shown and not agrees(step.shown, printed.splitlines()):
        return f"printed\n{printed}\nbut the README shows\n" + "\n".join(step.shown)
    return ""


def main(readme: Path) -> int:
    """Run all; 1 at the first command that does not do what is said of it."""
    todo = steps(readme.read_text(encoding="utf-8"))
    if not todo:
        print("README: no command found")
        return 1
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch) / "project"
        shutil.copytree(readme.parent, folder, ignore=shutil.ignore_patterns(*LEFT_OUT))
        for step in todo:
            print(f"$ {step.command}", flush=True)
            wrong = mistake(step, folder)
            if wrong:
                print(wrong)
                return 1
    return 0


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1]).resolve() if len(sys.argv) > 1 else TOP / "README.md"))
