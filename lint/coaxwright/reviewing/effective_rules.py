"""The terms of one design: the rules that bind it and the catalogue that its words are read by.

Both come with the program, and may be added to by files that the design names and by entries of its own.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from coaxwright.catalogue import Catalogue, load_catalogue
from coaxwright.design import Design, NotUnderstood, whole
from coaxwright.frozen_value import frozen_value
from coaxwright.reviewing.review_request import USUAL_REQUEST, AskedRuleset, ReviewRequest
from coaxwright.rules import EffectiveRules, Ruleset, RulesetError, RulesetRegistry, combine, read_ruleset, together
from coaxwright.source import CATALOGUE_SUFFIX, RULESET_SUFFIX, Document, Path, Problem, read_text
from coaxwright.source.problem import at_most

_MOST_KEPT = 16
"""Catalogues kept of one run: the designs of a firm name the same few files."""
_Key = tuple[tuple[str, str, int], ...]


@frozen_value
class RulesAndCatalogue:
    """What a design is judged by."""

    basis: EffectiveRules
    catalogue: Catalogue


class RuleSources:
    """The effective rules and catalogues of one run, put together once for all designs that name the same ones."""

    def __init__(self, shelf: RulesetRegistry) -> None:
        self.shelf = shelf
        self._asked: dict[AskedRuleset, Document] = {}
        self._known: dict[tuple[object, ...], EffectiveRules] = {}
        self._catalogues: dict[_Key, tuple[Catalogue, list[Problem]]] = {}

    def of(self, labels: tuple[str, ...], own: tuple[Document, ...] = ()) -> EffectiveRules:
        """The rules of the rulesets named; ``own`` are the files of those that the program does not bring.

        A firm's rulesets work on those of the program, whatever the order in which they are named; among themselves
        they work in that order. Raises RulesetError like ``combine``.
        """
        files = tuple({document.name: document for document in own}.values())
        key = (labels, tuple((document.name, document.text) for document in files))
        if key not in self._known:
            read = _read_rulesets(files)
            named = [label for label in labels if not label.endswith(RULESET_SUFFIX)]
            shelf = self.shelf.with_own(read) if read else self.shelf
            self._known[key] = combine((*named, *(ruleset.label for ruleset in read)), shelf)
        return self._known[key]

    @property
    def of_every_design(self) -> EffectiveRules:
        """The rules that hold where a design could not say which it names."""
        return self.of((self.shelf.newest("trade"),))

    def of_asked(
        self, rulesets: Sequence[AskedRuleset], labels: Sequence[str] = (), own: Sequence[Document] = ()
    ) -> EffectiveRules:
        """The rules of the rulesets that others than the design ask, and those of the others that are given.

        Raises RulesetError like ``of``, and ReadError for the text of a file that is none.
        """
        files = tuple(self.document_of(ruleset) for ruleset in rulesets if ruleset.text is not None)
        return self.of((*labels, *(ruleset.label for ruleset in rulesets)), (*own, *files))

    def document_of(self, asked: AskedRuleset) -> Document:
        """The file of a ruleset that is asked, as it was read."""
        if asked not in self._asked:
            self._asked[asked] = read_text(asked.text or "", asked.label)
        return self._asked[asked]

    def of_design(self, document: Document, design: Design, asked: ReviewRequest = USUAL_REQUEST) -> RulesAndCatalogue:
        """What a design is judged by.

        Raises NotUnderstood with everything that is wrong with the rulesets and catalogues together.
        """
        catalogue, problems = self._catalogue(document, design)
        labels = () if asked.reviewers_terms else tuple(design.basis.rulesets)
        unread = [label for label in labels if label.endswith(RULESET_SUFFIX) and label not in document.beside]
        try:
            if unread:  # of a text that came without its files
                raise RulesetError(unread[0], "the file was not read")
            own = tuple(document.beside[label] for label in labels if label in document.beside)
            basis = self.of_asked(asked.rulesets, labels, own)
        except RulesetError as error:
            problems = [*problems, *(self.told(fault, asked) or _to_problem(document, fault) for fault in error.every)]
        if problems:
            raise NotUnderstood(_in_order(problems, document.name))
        return RulesAndCatalogue(basis, catalogue)

    def told(self, error: RulesetError, asked: ReviewRequest) -> Problem | None:
        """What is wrong with a ruleset that others than the design ask: in its file, or where it is named.

        None for one that nobody but the design names.
        """
        for ruleset in asked.rulesets:
            if ruleset.text is not None and ruleset.label == error.file:
                return _in_file(self.document_of(ruleset), error)
            if error.where in (ruleset.label, ruleset.called) and ruleset.origin.span is not None:
                return Problem(ruleset.origin.file, ruleset.origin.span, f"{error.where!r}: {error.problem}")
        return None

    def _catalogue(self, document: Document, design: Design) -> tuple[Catalogue, list[Problem]]:
        if design.catalogue is None and not design.basis.catalogues:
            return load_catalogue(), []
        files, below = _own_entries(document)
        documents = files if below is None else (*files, below)
        key = tuple((document.name, document.text, document.span(()).start.index) for document in documents)
        if key not in self._catalogues:
            if len(self._catalogues) >= _MOST_KEPT:
                del self._catalogues[next(iter(self._catalogues))]
            self._catalogues[key] = _with_own(files, below)
        return self._catalogues[key]


def named_rulesets(document: Document, design: Design) -> tuple[str, ...]:
    """The rulesets that a design names, a firm's with the file: ``house 3 (firm/house.coax-ruleset.yaml)``."""
    beside = document.beside
    return tuple(
        f"{_label(document, label)} ({beside[label].name})" if label in beside else label
        for label in design.basis.rulesets
    )


def understood(document: Document) -> Document:
    """The document of a design held to the schema, with its repeated units written out.

    Raises NotUnderstood with all mistakes of the file and of those that it names.
    """
    try:
        return whole(document)
    except NotUnderstood as error:
        raise with_problems_beside(error, document) from None


def with_problems_beside(error: NotUnderstood, document: Document) -> NotUnderstood:
    """The mistakes of a design together with those of the files that it names."""
    beside = _problems_beside(document)
    return NotUnderstood(_in_order([*error.problems, *beside], document.name)) if beside else error


def _problems_beside(document: Document) -> list[Problem]:
    """What is wrong with the files that a design names and with its own entries, as far as each says it by itself.

    For a design that is not understood for other reasons, so that everything is told together.
    """
    files, below = _own_entries(document)
    problems = _with_own(files, below)[1] if files or below is not None else []
    try:
        _read_rulesets([one for written, one in document.beside.items() if written.endswith(RULESET_SUFFIX)])
    except RulesetError as error:
        problems = [*problems, *(_to_problem(document, fault) for fault in error.every)]
    return problems


def catalogue_of(document: Document, design: Design) -> tuple[Catalogue, list[Problem]]:
    """The catalogue that a design's words are read by, and what is wrong with the entries of its own."""
    if design.catalogue is None and not design.basis.catalogues:
        return load_catalogue(), []
    return _with_own(*_own_entries(document))


def _own_entries(document: Document) -> tuple[tuple[Document, ...], Document | None]:
    """The catalogues that a design names, each once and by name, and the entries of its own."""
    files = {one.name: one for written, one in document.beside.items() if written.endswith(CATALOGUE_SUFFIX)}
    data = document.data if isinstance(document.data, dict) else {}
    below = document.below(("catalogue",)) if isinstance(data.get("catalogue"), dict) else None
    return tuple(files[name] for name in sorted(files)), below


def _with_own(files: Sequence[Document], below: Document | None) -> tuple[Catalogue, list[Problem]]:
    from coaxwright.catalogue.author_values import with_own

    return with_own(files, below)


def _read_rulesets(files: Sequence[Document]) -> list[Ruleset]:
    """The rulesets of files. Raises RulesetError with everything that is wrong with any of them."""
    read: list[Ruleset] = []
    faults: list[RulesetError] = []
    for file in files:
        try:
            read.append(read_ruleset(file))
        except RulesetError as error:
            faults.append(error)
    if faults:
        raise together(faults)
    return read


def _to_problem(document: Document, error: RulesetError) -> Problem:
    """What is wrong with a ruleset, at its place: in its own file, or where the design names it."""
    for own in document.beside.values():
        if error.file == own.name:
            return _in_file(own, error)
    basis = document.data.get("basis") if isinstance(document.data, dict) else None
    labels = basis["rulesets"] if isinstance(basis, dict) else []
    index = next((index for index, one in enumerate(labels) if error.where in (one, _label(document, one))), None)
    if index is None:
        start = document.span(("basis",), of_key=True)
        return Problem(document.name, start, f"{error.where!r}: {error.problem}")
    return Problem(document.name, document.span(("basis", "rulesets", index)), f"{error.where!r}: {error.problem}")


def _in_file(own: Document, error: RulesetError) -> Problem:
    span = error.span or own.span(error.path, of_key=_is_group(own.data, error.path))
    return Problem(own.name, span, error.problem)


def _is_group(data: Any, path: Path) -> bool:
    """Whether a group or a list stands at a path, or nothing does, so that a problem marks the key alone."""
    here = data
    for step in path:
        try:
            here = here[step]
        except (KeyError, IndexError, TypeError):
            return True
    return isinstance(here, (dict, list))


def _label(document: Document, written: object) -> str:
    """What a ruleset that is named by its file calls itself."""
    own = document.beside.get(str(written))
    return called(own) if own is not None else str(written)


def called(ruleset: Document) -> str:
    """What the file of a ruleset calls itself: ``house 2``."""
    data = ruleset.data if isinstance(ruleset.data, dict) else {}
    return f"{data.get('ruleset')} {data.get('edition')}"


def _in_order(problems: Sequence[Problem], main: str) -> list[Problem]:
    return at_most(sorted(set(problems), key=lambda problem: (problem.file != main, problem)), main)
