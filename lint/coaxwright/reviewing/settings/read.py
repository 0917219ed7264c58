"""Reading one settings file: its text, its schema, and the files that it names."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator, Mapping
from functools import cache
from itertools import islice
from pathlib import Path as FilePath
from typing import Any

from coaxwright.reviewing.effective_rules import called
from coaxwright.reviewing.review_request import AskedRuleset, LeftOut, Origin
from coaxwright.reviewing.search import SETTINGS_NAME, name_of
from coaxwright.reviewing.settings.model import LeftOutFiles, Said, Settings
from coaxwright.reviewing.settings.patterns import Pattern, what_is_wrong
from coaxwright.rules import Severity
from coaxwright.shipped import shipped
from coaxwright.source import (
    RULESET_SUFFIX,
    Document,
    FilesRead,
    Path,
    Position,
    Problem,
    ReadError,
    Span,
    located,
    read_file,
    read_once,
)
from coaxwright.source.problem import MOST_PROBLEMS, at_most

SCHEMA_FILE = "settings-1.schema.json"
FIRST_KEY = "coaxwright settings"


def read_settings(folder: FilePath, root: FilePath, files: FilesRead, *, reads_rulesets: bool) -> Settings | None:
    """The settings of a folder; None where it has none.

    ``folder`` and ``root`` are paths without links in them; nothing outside of ``root`` is read. Mistakes are part of
    what is given back: what the settings would have said is not known then. Without ``reads_rulesets`` the rulesets
    that they ask are passed over.
    """
    path = folder / SETTINGS_NAME
    if not os.path.lexists(path):
        return None
    name = name_of(path)
    try:
        document = _document(path, name, root)
    except ReadError as error:
        return Settings(files=(name,), mistakes=(error.problem,))
    mistakes = tuple(at_most(list(islice(_mistakes(document), MOST_PROBLEMS + 1)), name))
    if mistakes:
        return Settings(files=(name,), mistakes=mistakes)
    return _Said(document, path, root, files if reads_rulesets else None).settings()


def _document(path: FilePath, name: str, root: FilePath) -> Document:
    file = located(path.name, path, root)
    if isinstance(file, tuple):
        start = Position(1, 1, 0)
        raise ReadError(Problem(name, Span(start, start), *file))
    return read_file(path, name)


def _mistakes(document: Document) -> Iterator[Problem]:
    if not _keeps_to_the_schema(document.data):
        from coaxwright.design.plain_mistakes import plain_problems

        yield from plain_problems(document, _schema(), most=MOST_PROBLEMS + 1)
        return
    assert isinstance(document.data, dict)
    if next(iter(document.data)) != FIRST_KEY:
        span = document.span((FIRST_KEY,), of_key=True)
        yield Problem(document.name, span, f"{FIRST_KEY!r} stands too late", "write it in the first line")
    for written in document.data.get("files left out", ()):
        wrong = what_is_wrong(written)
        if wrong is not None:
            yield Problem(document.name, document.span(("files left out", written), of_key=True), *wrong)


class _Said:
    """The fields of a file that keeps to the schema."""

    def __init__(self, document: Document, path: FilePath, root: FilePath, files: FilesRead | None) -> None:
        self.document = document
        self.path = path
        self.root = root
        self.files = files
        self.mistakes: list[Problem] = []

    def settings(self) -> Settings:
        settings = Settings(
            returns_at=self.severity(),
            also_judged_by=self.rulesets(),
            rules_left_out=self.rules(),
            files_left_out=self.patterns(),
            punch_list=self.punch_list(),
            files=(self.document.name,),
        )
        return Settings(files=settings.files, mistakes=tuple(self.mistakes)) if self.mistakes else settings

    def severity(self) -> Said[Severity] | None:
        written = self.data.get("returns at")
        return Said(Severity(written), self.at("returns at")) if written is not None else None

    def rulesets(self) -> Said[tuple[AskedRuleset, ...]] | None:
        written = self.data.get("also judged by")
        if written is None or self.files is None:
            return None
        asked = (self.ruleset(one, self.at("also judged by", index), self.files) for index, one in enumerate(written))
        return Said(tuple(word for word in asked if word is not None), self.at("also judged by"))

    def ruleset(self, written: str, origin: Origin, files: FilesRead) -> AskedRuleset | None:
        if not written.endswith(RULESET_SUFFIX):
            return AskedRuleset(written, origin=origin)
        file = self.file(written, origin)
        if file is None:
            return None
        if not file.is_file():
            self.mistake(origin, f"there is no file {written!r}", f"looked for it at {name_of(file)}")
            return None
        read = read_once(file, name_of(file), files)
        if isinstance(read, Problem):
            self.mistakes.append(read)
            return None
        return AskedRuleset(read.name, read.text, called(read), origin)

    def rules(self) -> Said[tuple[LeftOut, ...]] | None:
        entries = self.entries("rules left out")
        if entries is None:
            return None
        left = tuple(LeftOut(name, reason, origin) for name, reason, origin in entries)
        return Said(left, self.at("rules left out"))

    def patterns(self) -> Said[tuple[LeftOutFiles, ...]] | None:
        entries = self.entries("files left out")
        if entries is None:
            return None
        folder = self.path.parent
        left = tuple(LeftOutFiles(Pattern(written, folder), reason, origin) for written, reason, origin in entries)
        return Said(left, self.at("files left out"))

    def punch_list(self) -> Said[str] | None:
        written = self.data.get("punch list")
        if written is None:
            return None
        origin = self.at("punch list")
        file = self.file(written, origin)
        return Said(name_of(file), origin) if file is not None else None

    @property
    def data(self) -> Mapping[str, Any]:
        assert isinstance(self.document.data, dict)  # it keeps to the schema
        return self.document.data

    def entries(self, key: str) -> list[tuple[str, str, Origin]] | None:
        """The names below a key, each with its reason on one line."""
        written = self.data.get(key)
        if written is None:
            return None
        return [(name, " ".join(reason.split()), self.at(key, name, of_key=True)) for name, reason in written.items()]

    def file(self, written: str, origin: Origin) -> FilePath | None:
        """The file that is named, where it lies inside the root."""
        file = located(written, self.path, self.root)
        if isinstance(file, tuple):
            self.mistake(origin, *file)
            return None
        return file

    def at(self, *path: str | int, of_key: bool = False) -> Origin:
        steps: Path = path
        return Origin(self.document.name, self.document.span(steps, of_key=of_key))

    def mistake(self, origin: Origin, what: str, expected: str) -> None:
        assert origin.span is not None
        self.mistakes.append(Problem(origin.file, origin.span, what, expected))


@cache
def _schema() -> Any:
    return json.loads((shipped("schemas") / SCHEMA_FILE).read_text(encoding="utf-8"))


def _keeps_to_the_schema(data: object) -> bool:
    """A fast validator answers, the slower one explains."""
    return bool(_validator().is_valid(data))


@cache
def _validator() -> Any:
    try:
        import jsonschema_rs
    except ImportError:  # no wheel for this machine
        import jsonschema

        return jsonschema.Draft202012Validator(_schema())
    return jsonschema_rs.Draft202012Validator(_schema())
