"""Read one ruleset file and hold it to the contract."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cache
from typing import Any

from coaxwright.checks import Citation
from coaxwright.rules.errors import RulesetError
from coaxwright.rules.model import Caution, Operation, Ruleset
from coaxwright.shipped import shipped
from coaxwright.source import Document

SCHEMA_FILE = "ruleset-1.schema.json"
PAGE_OF = "page of"


def read_ruleset(document: Document) -> Ruleset:
    """The ruleset of a document.

    Raises RulesetError where it breaks the schema of rulesets or names a document that it does not list.
    """
    data = _checked(document)
    documents = _documents(data)
    return Ruleset(
        name=data["ruleset"],
        edition=str(data["edition"]),
        title=data["title"],
        builds_on=tuple(data.get("builds on", ())),
        documents=documents,
        operations=tuple(_operations(data, document)),
        cautions=tuple(
            Caution(name, tuple(entry.get("when", ())), entry["text"], cite(entry["source"], documents, document.name))
            for name, entry in data.get("cautions", {}).items()
        ),
        file=document.name,
    )


def with_page(ruleset: Ruleset, page: Document) -> Ruleset:
    """A ruleset with one more page: a file of the same edition that holds the rules of a topic.

    It begins with ``page of: trade 1`` and may list further documents. Raises RulesetError like ``read_ruleset``.
    """
    written = page.data if isinstance(page.data, dict) else {}
    if written.get(PAGE_OF) != ruleset.label:
        raise RulesetError(page.name, f"a page begins with '{PAGE_OF}: {ruleset.label}'")
    header = {"ruleset": ruleset.name, "edition": int(ruleset.edition), "title": ruleset.title, "documents": {}}
    whole = {**header, **{key: value for key, value in written.items() if key != PAGE_OF}}
    data = _checked(replace(page, data=whole))
    documents = {**ruleset.documents, **_documents(data)}
    operations = (*ruleset.operations, *_operations(data, page))
    return replace(ruleset, documents=documents, operations=operations)


def _checked(document: Document) -> Mapping[str, Any]:
    if not _is_ruleset(document.data):
        raise _refusal(document)
    assert isinstance(document.data, dict)
    return document.data


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


def _citation(fields: Mapping[str, Any]) -> Citation:
    return Citation(
        fields["name"],
        fields.get("title", ""),
        str(fields.get("edition", "")),
        "",
        fields.get("confidence", "found"),
    )


def _operations(data: Mapping[str, Any], document: Document) -> Iterator[Operation]:
    for verb in ("add", "set", "off"):
        for rule, fields in data.get(verb, {}).items():
            line = document.span((verb, rule), of_key=True).start.line
            yield Operation(verb, rule, fields, f"{document.name}:{line}")


@cache
def _schema() -> Any:
    return json.loads((shipped("schemas") / SCHEMA_FILE).read_text(encoding="utf-8"))


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
    """The first mistake against the schema of rulesets, in words, with its place."""
    from coaxwright.design.plain_mistakes import plain_problems

    problem = plain_problems(document, _schema())[0]
    return RulesetError(document.name, problem.message, problem.span)
