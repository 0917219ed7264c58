"""Read one ruleset file and hold it to the contract."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from functools import cache
from typing import Any

from coaxwright.checks import Citation
from coaxwright.design.former_schema import present_only
from coaxwright.frozen_value import frozen_value
from coaxwright.rules.errors import RulesetError, together
from coaxwright.rules.model import Caution, Operation, Ruleset
from coaxwright.shipped import shipped
from coaxwright.source import Document, Path, Problem
from coaxwright.source.former_words import RULESET_WORDS, with_present_words
from coaxwright.source.preparsed import PreparsedFile

SCHEMA_FILE = "ruleset-1.schema.json"
PAGE_OF = "page of"


@frozen_value
class RulesetPage:
    """A file of a ruleset that keeps to the schema, as plain data."""

    name: str
    data: Mapping[str, Any]
    line: Callable[[str, str], int]
    """The line of a rule below ``add``, ``set`` or ``off``, counted from 1."""


def page_of(name: str, twin: PreparsedFile) -> RulesetPage:
    """A file that was read, and held to the schema, when its twin was made."""
    return RulesetPage(name, twin.data, lambda verb, rule: twin.lines[f"{verb}/{rule}"])


def read_ruleset(document: Document) -> Ruleset:
    """The ruleset of a document.

    Raises RulesetError where it breaks the schema of rulesets or names a document that it does not list.
    """
    return ruleset_of(_checked(with_present_words(document, RULESET_WORDS)))


def ruleset_of(sheet: RulesetPage) -> Ruleset:
    """The ruleset of a file. Raises RulesetError where it names a document that it does not list."""
    data = sheet.data
    documents = _documents(data)
    return Ruleset(
        name=data["ruleset"],
        edition=str(data["edition"]),
        title=data["title"],
        builds_on=tuple(data.get("builds on", ())),
        documents=documents,
        operations=tuple(_operations(sheet)),
        cautions=tuple(
            Caution(name, tuple(entry.get("when", ())), entry["text"], _source_of(name, entry, documents, sheet.name))
            for name, entry in data.get("cautions", {}).items()
        ),
        file=sheet.name,
    )


def with_page(ruleset: Ruleset, page: Document) -> Ruleset:
    """A ruleset with one more page: a file of the same edition that holds the rules of a topic.

    It begins with ``page of: trade 1`` and may list further documents. Raises RulesetError like ``read_ruleset``.
    """
    page = with_present_words(page, RULESET_WORDS)
    written = page.data if isinstance(page.data, dict) else {}
    if written.get(PAGE_OF) != ruleset.label:
        raise RulesetError(page.name, f"a page begins with '{PAGE_OF}: {ruleset.label}'")
    header = {"ruleset": ruleset.name, "edition": int(ruleset.edition), "title": ruleset.title, "documents": {}}
    whole = {**header, **{key: value for key, value in written.items() if key != PAGE_OF}}
    return with_parsed_page(ruleset, _checked(replace(page, data=whole)))


def with_parsed_page(ruleset: Ruleset, page: RulesetPage) -> Ruleset:
    """A ruleset with what stands on one more page."""
    documents = {**ruleset.documents, **_documents(page.data)}
    operations = (*ruleset.operations, *_operations(page))
    return replace(ruleset, documents=documents, operations=operations)


def _checked(document: Document) -> RulesetPage:
    if not _is_ruleset(document.data):
        raise _refusal(document)
    assert isinstance(document.data, dict)
    return RulesetPage(
        document.name, document.data, lambda verb, rule: document.span((verb, rule), of_key=True).start.line
    )


def _documents(data: Mapping[str, Any]) -> dict[str, Citation]:
    return {key: _citation(fields) for key, fields in data.get("documents", {}).items()}


def cite(source: Mapping[str, Any], documents: Mapping[str, Citation], where: str) -> Citation:
    """A source of a rule or limit: a listed document, with the clause and confidence given here.

    Raises RulesetError for a document that is not listed.
    """
    known = documents.get(source["document"])
    if known is None:
        listed = ", ".join(sorted(documents)) or "none"
        raise RulesetError(where, f"the document {source['document']!r} is not listed; listed are {listed}")
    return Citation(
        known.document,
        known.title,
        known.edition,
        source.get("clause", known.clause),
        source.get("confidence", known.confidence),
    )


def _source_of(caution: str, entry: Mapping[str, Any], documents: Mapping[str, Citation], file: str) -> Citation:
    try:
        return cite(entry["source"], documents, file)
    except RulesetError as error:
        path: Path = ("cautions", caution, "source", "document")
        raise RulesetError(error.where, error.problem, file=file, path=path) from None


def _citation(fields: Mapping[str, Any]) -> Citation:
    return Citation(
        fields["name"],
        fields.get("title", ""),
        str(fields.get("edition", "")),
        "",
        fields.get("confidence", "found"),
    )


def _operations(sheet: RulesetPage) -> Iterator[Operation]:
    for verb in ("add", "set", "off"):
        for rule, fields in sheet.data.get(verb, {}).items():
            yield Operation(verb, rule, fields, f"{sheet.name}:{sheet.line(verb, rule)}", sheet.name)


@cache
def _schema() -> Any:
    text = (shipped("schemas") / SCHEMA_FILE).read_text(encoding="utf-8")
    return json.loads(text, object_hook=present_only)


def _is_ruleset(data: object) -> bool:
    return bool(_validator().is_valid(data))


@cache
def _validator() -> Any:
    try:
        import jsonschema_rs
    except ImportError:
        import jsonschema

        return jsonschema.Draft202012Validator(_schema())
    return jsonschema_rs.Draft202012Validator(_schema())


def _refusal(document: Document) -> RulesetError:
    """Every mistake against the schema of rulesets, in words, with its place."""
    from coaxwright.design.plain_mistakes import plain_problems

    return together([_to_problem(document.name, problem) for problem in plain_problems(document, _schema())])


def _to_problem(name: str, problem: Problem) -> RulesetError:
    at = problem.span.start
    text = f"line {at.line}, column {at.column}: {problem.message}"
    error = RulesetError(name, text, problem.span, file=name)
    error.problem = problem.message  # the place is told beside it, where the error is told with one
    return error
