"""The shipped catalogue with the entries of a design's own and of a firm's files, or all that is wrong with them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from types import MappingProxyType

from coaxwright.catalogue.author_values.entries import Entry, design_problems, entries_of, file_problems, header_problem
from coaxwright.catalogue.author_values.filling import Base, filled, shipped_classes, shipped_devices
from coaxwright.catalogue.author_values.names import Names
from coaxwright.catalogue.author_values.plausible import class_problems, device_problems, device_word_problems
from coaxwright.catalogue.cable_entries import read_class
from coaxwright.catalogue.collection import Catalogue, OwnEntry
from coaxwright.catalogue.device_entries import read_device
from coaxwright.catalogue.devices import DeviceEntry
from coaxwright.catalogue.entries import CableClass
from coaxwright.catalogue.errors import CatalogueError
from coaxwright.catalogue.loader import load_catalogue
from coaxwright.catalogue.phrases import with_classes
from coaxwright.design.nearest import nearest_word
from coaxwright.source import Document, Problem
from coaxwright.source.former_words import CATALOGUE_WORDS, with_present_words


def with_own(files: Sequence[Document], below: Document | None = None) -> tuple[Catalogue, list[Problem]]:
    """The shipped catalogue with the entries of files, and of what stands ``below`` the field of a design.

    The order of the files makes no difference. With everything that is wrong with any of them; the catalogue is then
    the shipped one.
    """
    ordered = sorted({file.name: file for file in files}.values(), key=lambda file: file.name)
    for file in ordered:
        with_present_words(file, CATALOGUE_WORDS)
    problems = [problem for file in ordered if (problem := header_problem(file)) is not None]
    documents = [file for file in ordered if header_problem(file) is None]
    problems += [problem for file in documents for problem in file_problems(file)]
    if below is not None:
        problems += design_problems(below)
        documents.append(below)
    entries = [entry for document in documents for entry in entries_of(document)]
    base = load_catalogue()
    merging = _Merging(base, problems)
    for entry in entries:
        merging.read(entry)
    if problems:
        return base, sorted(set(problems))
    every = {**base.every_class, **merging.classes}
    usual = {**base.classes, **{name: made for name, made in merging.classes.items() if made.usual}}
    whole = replace(
        base,
        classes=MappingProxyType(usual),
        every_class=MappingProxyType(every),
        words=with_classes(base.words, merging.classes),
        models=MappingProxyType(merging.devices),
        own=MappingProxyType({entry.name: OwnEntry(entry.home.name, entry.document) for entry in entries}),
    )
    return whole, []


class _Merging:
    """Reads entry by entry; one at fault leaves the others as they are."""

    def __init__(self, base: Catalogue, problems: list[Problem]) -> None:
        self.base = base
        self.problems = problems
        self.at_fault = [(problem.file, problem.span) for problem in problems]
        self.names = Names(base)
        self.classes: dict[str, CableClass] = {}
        self.devices: dict[str, DeviceEntry] = {}

    def read(self, entry: Entry) -> None:
        """Read one entry, or tell what is wrong with it."""
        self.problems += self.names.taken(entry)
        if self.is_at_fault(entry):  # by the schema: what it does not fit cannot be read
            return
        try:
            self.problems += self.made(entry)
        except CatalogueError as error:
            self.problems.append(_to_problem(entry, error))

    def is_at_fault(self, entry: Entry) -> bool:
        first = entry.home.span(entry.path, of_key=True).start
        last = entry.home.span(entry.path).end
        return any(file == entry.home.name and first <= span.start <= last for file, span in self.at_fault)

    def made(self, entry: Entry) -> Iterator[Problem]:
        known = shipped_classes() if entry.section == "classes" else shipped_devices()
        like = entry.written.get("like")
        if like is not None and like not in known:
            yield _no_such_base(entry, str(like), known)
            return
        fields, sources = filled(entry, known[str(like)] if like is not None else None)
        if entry.section == "classes":
            cable_class = self.classes[entry.name] = read_class(entry.name, fields, sources, self.base.jackets)
            yield from class_problems(entry, cable_class, list(self.base.screening_classes))
            return
        words = list(device_word_problems(entry, dict(fields.plain())))
        yield from words
        if not words:
            device = self.devices[entry.name] = read_device(entry.name, fields, sources)
            yield from device_problems(entry, device)


def _no_such_base(entry: Entry, like: str, known: Mapping[str, Base]) -> Problem:
    near = nearest_word(like, known)
    expected = "" if near else "name an entry of the program's catalogue"
    thing = "cable class" if entry.section == "classes" else "device"
    return entry.says(f"the program's catalogue has no {thing} {like!r}", expected, near, at=("like",))


def _to_problem(entry: Entry, error: CatalogueError) -> Problem:
    at = error.path[len(entry.path) :]
    near = nearest_word(error.word, error.known) if error.word else None
    what, _, expected = error.problem.partition("; ")
    return entry.says(what, "" if near else expected, near, at=at)
