"""Names that an entry may not take: a word of the program's catalogue is never redefined, nor one of another file."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.catalogue.author_values.entries import Entry, group
from coaxwright.catalogue.author_values.filling import shipped_devices
from coaxwright.catalogue.collection import Catalogue
from coaxwright.catalogue.phrases import Meaning, folded_words, says_something
from coaxwright.source import Path, Problem

_ANOTHER = "give your own another name"


class Names:
    """The names that are taken so far."""

    def __init__(self, base: Catalogue) -> None:
        self._base = base
        self._homes: dict[tuple[str, ...], tuple[Entry, Path]] = {}

    def taken(self, entry: Entry) -> Iterator[Problem]:
        """What is wrong with the names of an entry; they are taken from now on."""
        yield from self._take(entry, entry.name, ())
        if entry.section == "classes":
            also = entry.written.get("also")
            for index, name in enumerate(also if isinstance(also, list) else ()):
                if isinstance(name, str):
                    yield from self._take(entry, name, ("also", index))
            for option, plural in (("shield", "shields"), ("center", "centers")):
                for word in group(entry.written, plural):
                    meaning = self._base.words.meanings.get(folded_words(word))
                    if meaning is not None and meaning.option != option:
                        what = f"{word!r} means a {meaning.option} already, and cannot mean a {option}"
                        yield entry.says(what, "take another word", at=(plural, word), of_key=True)

    def _take(self, entry: Entry, name: str, at: Path) -> Iterator[Problem]:
        meant = self._meant(name)
        words = folded_words(name)
        if meant:
            yield entry.says(f"{name!r} {meant}", _ANOTHER, at=at)
        elif words in self._homes:
            first, where = self._homes[words]
            span = first.home.span((*first.path, *where), of_key=not where)
            what = f"{name!r} is there twice, first in {first.home.name}, line {span.start.line}"
            yield entry.says(what, "give one of them another name", at=at)
        else:
            self._homes[words] = (entry, at)

    def _meant(self, name: str) -> str:
        """What a name means to the program already; empty where it is free."""
        words = self._base.words
        meaning: Meaning | None = words.meanings.get(folded_words(name))
        if name in shipped_devices() or (meaning is not None and meaning.option == "class"):
            return "is in the program's catalogue already"
        if meaning is not None:
            return f"means a {meaning.option} in the program's catalogue"
        if " ".join(folded_words(name)) in words.hints or says_something(name, words):
            return "means a cable of the program's catalogue"
        return ""
