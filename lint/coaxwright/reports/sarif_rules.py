"""SARIF's words for rules and for the documents behind them: reporting descriptors and taxonomies."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from uuid import NAMESPACE_URL, uuid5

from coaxwright.checks import Citation, Limit
from coaxwright.reports.json_report import Json, citation
from coaxwright.reports.sarif_places import message
from coaxwright.reviewing import DesignReview
from coaxwright.rules import Rule, Severity

LEVELS = {Severity.VIOLATION: "error", Severity.DEFICIENCY: "warning", Severity.ADVICE: "note"}

UNDERSTOOD = "design.understood"
"""The rule behind the results for files that were not understood; it is in no ruleset, since it comes before them."""
_WHOLE = "the whole document"


class Documents:
    """The documents cited, each as a taxonomy whose taxa are the clauses. Common practice is no document."""

    def __init__(self) -> None:
        self._taxa: dict[tuple[str, str, str], dict[str, int]] = {}

    def references(self, sources: Sequence[Citation]) -> Sequence[Json]:
        """References to the clauses cited, each once."""
        references: dict[tuple[Hashable, ...], Json] = {}
        for source in sources:
            if source.confidence == "common practice":
                continue
            document = (source.document, source.title, source.edition)
            clauses = self._taxa.setdefault(document, {})
            index = clauses.setdefault(source.clause, len(clauses))
            references[document, index] = {
                "id": source.clause or _WHOLE,
                "index": index,
                "toolComponent": {"name": source.document, "guid": _guid(document)},
            }
        return tuple(references.values())

    def taxonomies(self) -> Sequence[Json]:
        """The taxonomies of all documents cited so far."""
        return [self._taxonomy(document, tuple(clauses)) for document, clauses in self._taxa.items()]

    def supported(self) -> Sequence[Json]:
        """References to the taxonomies, for the driver."""
        return [{"name": document[0], "guid": _guid(document)} for document in self._taxa]

    def _taxonomy(self, document: tuple[str, str, str], clauses: Sequence[str]) -> Json:
        name, title, edition = document
        taxonomy: dict[str, Json] = {"name": name, "guid": _guid(document), "isComprehensive": False}
        if edition:
            taxonomy["version"] = edition
        if title:
            taxonomy["shortDescription"] = message(title)
        taxonomy["taxa"] = [
            {
                "id": clause or _WHOLE,
                "shortDescription": message(str(Citation(name, title, edition, clause))),
            }
            for clause in clauses
        ]
        return taxonomy


class Rules:
    """The rules that a run lists, each once; two designs under different rulesets may differ about a rule."""

    def __init__(self, documents: Documents | None) -> None:
        """With ``documents``, everything about a rule is told; without, what a list of findings needs."""
        self.listed: list[Json] = []
        self._documents = documents
        self._indexes: dict[Hashable, int] = {}

    def index(self, name: str, design: DesignReview) -> int:
        """The index of a rule as a design was held to it; the rule is listed if it was not yet."""
        rule = next(rule for rule in design.rules if rule.name == name)
        key: Hashable = name
        if self._documents is not None:
            parts = (rule.title, rule.severity, rule.existing, rule.due, rule.reason, rule.sources, rule.limits.all())
            key = (name, *parts)
        if key not in self._indexes:
            self._indexes[key] = len(self.listed)
            self.listed.append(_brief(rule) if self._documents is None else _full(rule, self._documents))
        return self._indexes[key]

    def index_of_understood(self) -> int:
        """The index of the rule behind results for files that were not understood."""
        if UNDERSTOOD not in self._indexes:
            self._indexes[UNDERSTOOD] = len(self.listed)
            self.listed.append(
                {
                    "id": UNDERSTOOD,
                    "shortDescription": message("A design can be understood"),
                    "fullDescription": message(
                        "A file with mistakes of form is not reviewed: nothing is known of the wiring it describes."
                    ),
                    "help": message("Mend the place that is shown and review the file again; more may come to light."),
                    "defaultConfiguration": {"level": "error"},
                }
            )
        return self._indexes[UNDERSTOOD]


def _brief(rule: Rule) -> Json:
    return {
        "id": rule.name,
        "shortDescription": message(rule.title),
        "fullDescription": message(rule.reason),
        "help": message(_help(rule)),
        "defaultConfiguration": {"level": LEVELS[rule.severity]},
        "properties": {"tags": [rule.topic]},
    }


def _full(rule: Rule, documents: Documents) -> Json:
    cited = (*rule.sources, *(limit.source for limit in rule.limits.all()))
    return {
        "id": rule.name,
        "shortDescription": message(rule.title),
        "fullDescription": message(rule.reason),
        "help": message(_help(rule)),
        "defaultConfiguration": {
            "level": LEVELS[rule.severity],
            "parameters": {"limits": [_limit(limit) for limit in rule.limits.all()]},
        },
        # A rule with several clauses breaks one or the other of them, and a clause says more than one rule.
        "relationships": [{"target": reference, "kinds": ["relevant"]} for reference in documents.references(cited)],
        "properties": {
            "tags": [rule.topic],
            "severity": rule.severity.value,
            "existing": rule.existing,
            "due": rule.due,
            "sources": [citation(source) for source in rule.sources],
            "origins": dict(rule.origins),
        },
    }


def _help(rule: Rule) -> str:
    sources = "; ".join(str(source) for source in rule.sources)
    return f"{rule.title}. {rule.reason} A {rule.severity.value} where it is not met. Sources: {sources}."


def _limit(limit: Limit) -> Json:
    return {
        "name": limit.name,
        "for": limit.keys,
        "value": str(limit.value),
        "source": citation(limit.source),
        "origin": limit.origin,
    }


def _guid(document: tuple[str, str, str]) -> str:
    return str(uuid5(NAMESPACE_URL, "\x1f".join(("https://coaxwright.invalid/documents", *document))))
