"""Starts commands from a process that has imported the program already, each in a process of its own.

    python command_server.py

A line of standard input asks for one command: its words, or a program in their place; the folder it runs in, its
environment, the file that its standard input is, and the files that take what it prints. When it has ended, its exit
status is printed. The difference from a fresh interpreter is what is there already: modules, classes, and the shipped
data, which an example has called for. Nothing that a command does changes the process from which the next one starts.
"""

from __future__ import annotations

import atexit
import gc
import io
import json
import os
import pkgutil
import sys
import time
from contextlib import redirect_stdout
from importlib import import_module
from pathlib import Path
from typing import Any, NoReturn

import coaxwright

NOT_IMPORTED_AHEAD = ("coaxwright.__main__", "coaxwright.analysis.batch_loss.arrays")
"""The first runs a command; the second may start threads, which do not live on in a process that is copied."""


def import_the_program() -> None:
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")  # as the command does
    for module in pkgutil.walk_packages(coaxwright.__path__, "coaxwright."):
        if not module.name.startswith(NOT_IMPORTED_AHEAD):
            import_module(module.name)


def ask_for_the_shipped_data() -> None:
    from coaxwright.cli import main

    example = Path(__file__).parents[2] / "examples" / "tern-cottage" / "as-drawn.coax.yaml"
    with redirect_stdout(io.TextIOWrapper(io.BytesIO(), encoding="utf-8")):
        for command in ("review", "levels", "show"):
            main([command, str(example)])


def become(asked: dict[str, Any]) -> None:
    """Make of this process what the system makes of a command that is started."""
    for descriptor, path, how in ((0, asked["in"], os.O_RDONLY), (1, asked["out"], None), (2, asked["err"], None)):
        opened = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_TRUNC if how is None else how)
        os.dup2(opened, descriptor)
        os.close(opened)
    os.environ.clear()
    os.environ.update(asked["environment"])
    time.tzset()
    os.chdir(asked["folder"])
    sys.path[0] = asked["folder"]
    sys.argv = [str(Path(coaxwright.__file__).with_name("__main__.py")), *asked["words"]]
    sys.stdin = io.TextIOWrapper(io.BufferedReader(io.FileIO(0, "r", closefd=False)), encoding="utf-8")
    for name, descriptor, errors in (("stdout", 1, "strict"), ("stderr", 2, "backslashreplace")):
        raw = io.BufferedWriter(io.FileIO(descriptor, "w", closefd=False))
        stream = io.TextIOWrapper(raw, encoding="utf-8", errors=errors, line_buffering=name == "stderr")
        setattr(sys, name, stream)


def run(program: str) -> int:
    exec(compile(program, "<string>", "exec"), {"__name__": "__main__"})
    return 0


def end(status: int) -> NoReturn:
    """End as an interpreter does, but let the system take back the memory."""
    atexit._run_exitfuncs()
    sys.stdout.flush()
    sys.stderr.flush()
    os._exit(status)


def serve() -> int:
    import_the_program()
    ask_for_the_shipped_data()
    gc.collect()
    gc.freeze()
    from coaxwright.cli import main

    for line in sys.stdin:
        child = os.fork()
        if child == 0:
            asked = json.loads(line)
            become(asked)
            end(main() if not asked["program"] else run(asked["program"]))
        print(os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]), flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(serve())
