"""Further forms of one review, each into a file: ``--also sarif=review.sarif``, and where no report may go."""

from __future__ import annotations

import os
from collections.abc import Iterable, Sequence
from pathlib import Path

from coaxwright.cli.forms import Form
from coaxwright.cli.words import WrongWord, listed, one_of

_INPUTS = (
    ".coax.yaml",
    ".coax-part.yaml",
    ".coax-catalogue.yaml",
    ".coax-ruleset.yaml",
    ".coax-punch-list.yaml",
    "coax-settings.yaml",
)
"""How files end that a review reads."""

Further = tuple[Form, Path]


def further_forms(words: Sequence[str], form: Form, into: Path | None, paths: Iterable[str]) -> list[Further]:
    """The forms and files of ``--also``, each to a file of its own, and none over what is reviewed.

    ``form`` and ``into`` are the main report's, ``paths`` what is reviewed. Raises WrongWord.
    """
    further = [_form_and_file(word) for word in words]
    targets = [("--into", form, into)] if into is not None else []
    targets += [("--also", other, file) for other, file in further]
    for number, (option, what, file) in enumerate(targets):
        if str(file) == "-":
            raise WrongWord(
                f"{option} takes a file; the report of --as goes to standard output where no --into is given"
            )
        if file.name.endswith(_INPUTS) or any(_is_same(file, Path(path)) for path in paths):
            raise WrongWord(f"{option} would write a report over a file that is reviewed, {str(file)!r}")
        for _, other, earlier in targets[:number]:
            if _is_same(file, earlier):
                raise WrongWord(f"--also would write {other.value} and {what.value} into one file, {str(file)!r}")
    return further


def _form_and_file(word: str) -> Further:
    name, equals, file = word.partition("=")
    if not equals or not file:
        raise WrongWord(f"--also takes FORM=FILE, such as sarif=review.sarif, not {word!r}; a form is {listed(Form)}")
    return Form(one_of(Form, "--also", name)), Path(file)


def _is_same(file: Path, other: Path) -> bool:
    """Whether two names lead to one file, that is there or would be."""
    if os.path.normcase(os.path.realpath(file)) == os.path.normcase(os.path.realpath(other)):
        return True
    return file.is_file() and other.is_file() and file.samefile(other)
