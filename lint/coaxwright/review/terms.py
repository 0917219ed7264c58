"""The terms of one design: the rules that bind it and the catalogue that its words are read by.

Both come with the program, and may be added to by files that the design names and by entries of its own.
"""

from __future__ import annotations

import re

from coaxwright.catalogue import Catalogue, load_catalogue
from coaxwright.design import Design
from coaxwright.plant.devices import mistaken_model
from coaxwright.rules import Basis, RulesetError, Shelf, combine, read_ruleset
from coaxwright.source import RULESET_SUFFIX, Document, Problem, Span

_AT_LINE = re.compile(r"(?P<file>.*):(?P<line>[0-9]+)")


class Bases:
    """The effective rules of one run, combined once for all designs that name the same rulesets."""

    def __init__(self, shelf: Shelf) -> None:
        self._shelf = shelf
        self._known: dict[tuple[object, ...], Basis] = {}

    def of(self, labels: tuple[str, ...], own: tuple[Document, ...] = ()) -> Basis:
        """The rules of the rulesets named; ``own`` are the files of those that the program does not bring.

        Raises RulesetError like ``combine``.
        """
        key = (labels, tuple((document.name, document.text) for document in own))
        if key not in self._known:
            read = [read_ruleset(document) for document in own]
            named = [label for label in labels if not label.endswith(RULESET_SUFFIX)]
            shelf = self._shelf.with_own(read) if read else self._shelf
            self._known[key] = combine((*named, *(ruleset.label for ruleset in read)), shelf)
        return self._known[key]

    @property
    def of_every_design(self) -> Basis:
        """The rules that hold where a design could not say which it names."""
        return self.of((self._shelf.newest("trade"),))

    def of_design(self, document: Document, design: Design) -> Basis:
        """The rules that bind a design. Raises RulesetError like ``combine``."""
        labels = tuple(design.basis.rulesets)
        for label in labels:
            if label.endswith(RULESET_SUFFIX) and label not in document.beside:
                raise RulesetError(label, "the file was not read")
        own = tuple(document.beside[label] for label in labels if label in document.beside)
        return self.of(labels, own)


def basis_problem(document: Document, design: Design, error: RulesetError) -> Problem:
    """What is wrong with a ruleset, at its place: in its own file, or where the design names it."""
    for own in document.beside.values():
        if error.where == own.name:
            start = own.span(()).start
            return Problem(own.name, error.span or Span(start, start), error.problem)
        at = _AT_LINE.fullmatch(error.where)
        if at is not None and at["file"] == own.name:
            return Problem(own.name, _line(own, int(at["line"])), error.problem)
        if error.where.startswith(f"{own.name}:") or error.where == _label(own):
            start = own.span(()).start
            return Problem(own.name, Span(start, start), error.problem)
    labels = design.basis.rulesets
    index = labels.index(error.where) if error.where in labels else 0
    return Problem(document.name, document.span(("basis", "rulesets", index)), f"{error.where!r}: {error.problem}")


def _label(own: Document) -> str:
    data = own.data if isinstance(own.data, dict) else {}
    return f"{data.get('ruleset')} {data.get('edition')}"


def _line(document: Document, line: int) -> Span:
    for path in document.order():
        span = document.span(path, of_key=True)
        if path and span.start.line == line:
            return span
    return document.span(())


def catalogue_of(document: Document, design: Design) -> tuple[Catalogue, list[Problem]]:
    """The catalogue that a design's words are read by, and what is wrong with the entries of its own."""
    if design.catalogue is None and not design.basis.catalogues:
        return load_catalogue(), []
    from coaxwright.catalogue.own import HEADER, header_problems, with_own

    files = [document.beside[written] for written in design.basis.catalogues or () if written in document.beside]
    problems = [problem for file in files for problem in header_problems(file)]
    parts = list(files)
    if design.catalogue is not None:
        own = document.below(("catalogue",))
        if isinstance(own.data, dict) and HEADER in own.data:
            what = f"'{HEADER}' begins a file of its own, not the entries of a design"
            problems.append(Problem(document.name, own.span((HEADER,), of_key=True), what, "take it out here"))
        parts.append(own)
    catalogue, more = with_own(parts)
    if not more:
        for tag, device in (design.devices or {}).items():
            if what := mistaken_model(device, catalogue):
                span = document.span(("devices", tag, "model"))
                more = [*more, Problem(document.name, span, what, "make the two agree")]
    return catalogue, sorted({*problems, *more})
