"""The command line: its door. Nothing is imported here that the call at hand does not need."""

from __future__ import annotations

import gc
import os
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from functools import partial
from importlib import import_module

from coaxwright.version import VERSION

HELP = """\
Usage: coaxwright COMMAND ...

Review designs of coaxial wiring against rules of the trade and of published
codes.

Commands:
  review PATH...   review design files, or folders that hold *.coax.yaml files
  punch-list FILE PATH...
                   record what is found now: then only what is new returns
  levels PATH      show what every outlet gets, and where the loss goes
  show PATH        show what was understood of a design, without judging it
  start FILE       write a small commented design to begin with
  cite [RULE]      show one rule: reason, limits, sources, examples; or list all
  settings PATH    show what a design or a folder is reviewed by, and from where
  renew PATH...    bring designs of an older format up to this one
  schema [WHAT]    print the JSON Schema of a design, for an editor

'coaxwright COMMAND --help' shows what a command takes.
'coaxwright --version' prints the version.

Exit status: 0 clear, 1 returned for correction, 2 the command or a file could
not be understood, 3 the review is incomplete. A design is never called safe or
approved: local codes, the authority having jurisdiction and licensed practice
come first.
"""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and give its exit status; whatever goes wrong is told in one line, without a traceback."""
    words = list(sys.argv[1:] if arguments is None else arguments)
    # No plugin of another package has a say in how a design is read; to look for one takes all that are installed.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    try:
        if words in ([], ["--help"], ["-h"]):
            return _say(HELP)
        if words == ["--version"]:
            return _say(f"coaxwright {VERSION}\n")
        if words[0] == "review" and len(words) > 1 and "--help" not in words:
            return _review(words)
        from coaxwright.cli.commands import run

        return run(words)
    except KeyboardInterrupt:
        print("coaxwright: interrupted; the review is incomplete", file=sys.stderr)
    except BrokenPipeError:
        # Whoever read our output has closed it; keep the interpreter from complaining when it flushes at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except Exception as error:
        from coaxwright.cli.output import CannotSay

        if isinstance(error, CannotSay):
            print(f"coaxwright: cannot write to standard output: {error}", file=sys.stderr)
            return 3
        print(f"coaxwright: a fault of the program, please report it: {type(error).__name__}: {error}", file=sys.stderr)
    return 3


def _review(words: Sequence[str]) -> int:
    """Answer from what is kept, or review."""
    from coaxwright.cli.cached_reports import CachedReport

    door = CachedReport(words[1:])
    status = door.answer()
    if status is not None:
        return status
    with _loading():
        import_module("coaxwright.reviewing.pipeline")
        if not any(word.startswith("-") for word in words):
            # The usual call of a hook or of CI needs no option parser.
            from coaxwright.cli.review_command import run_review

            review: Callable[[], int] = partial(run_review, words[1:], door=door)
        else:
            from coaxwright.cli.commands import run

            review = partial(run, words, door)
    return review()


_THRESHOLDS = (20_000, 20, 20)
"""How often the collector looks: a review of many designs makes much and next to nothing of it in circles."""


@contextmanager
def _loading() -> Iterator[None]:
    """Let the collector rest: loading modules leaves no garbage, and what is loaded stays."""
    gc.disable()
    try:
        yield
    finally:
        gc.freeze()
        gc.set_threshold(*_THRESHOLDS)
        gc.enable()


def _say(text: str) -> int:
    sys.stdout.write(text)
    return 0
