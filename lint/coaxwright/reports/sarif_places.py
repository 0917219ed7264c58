"""SARIF's words for places: files, regions in them, and the things of a design."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from urllib.parse import quote

from coaxwright.findings import Finding, Place
from coaxwright.reports.json_report import Json
from coaxwright.source import Span

BASE = "%SRCROOT%"
"""The folder in which the review ran; where that is, each reader knows for itself, so that no log tells it."""


def message(text: str) -> Mapping[str, str]:
    """A text as a message, in which braces and links have no meaning. Source: SARIF 2.1.0, 3.11.5 and 3.11.6."""
    return {"text": text.replace("{", "{{").replace("}", "}}").replace("](", "] (")}


def uri(name: str) -> str:
    """The relative reference of a file: everything but plain letters, figures and slashes is percent-encoded.

    Source: RFC 3986, 4.2 (a colon must not look like a scheme); SARIF 2.1.0, 3.10.4.
    """
    return quote(name, safe="/", errors="surrogateescape")


class Files:
    """The files of a run. Those that are listed in it are also referred to by index."""

    def __init__(self, listed: Sequence[str]) -> None:
        self._indexes = {name: index for index, name in enumerate(listed)}

    def location(self, name: str) -> Json:
        """The artifactLocation of a file."""
        location: dict[str, Json] = {"uri": uri(name), "uriBaseId": BASE}
        if name in self._indexes:
            location["index"] = self._indexes[name]
        return location

    def physical(self, place: Place, *, with_text: bool) -> Json:
        """The physicalLocation of a place; ``with_text``, also what stands there and the line around it."""
        if not with_text:
            return {"artifactLocation": self.location(place.file), "region": region(place.span)}
        physical: dict[str, Json] = {
            "artifactLocation": self.location(place.file),
            "region": region(place.span, place.line_text),
        }
        span, length = place.span, len(place.line_text)
        if span.start.line == span.end.line and span.end.column - span.start.column < length:  # 3.29.5: properly larger
            physical["contextRegion"] = {
                "startLine": span.start.line,
                "startColumn": 1,
                "endLine": span.start.line,
                "endColumn": length + 1,
                "snippet": {"text": place.line_text},
            }
        return physical


def region(span: Span, line_text: str = "") -> Json:
    """A span as a region; with its text where that is known, which is on one line."""
    start, end = span.start, span.end
    found: dict[str, Json] = {
        "startLine": start.line,
        "startColumn": start.column,
        "endLine": end.line,
        "endColumn": end.column,
    }
    snippet = line_text[start.column - 1 : end.column - 1] if start.line == end.line else ""
    if snippet:
        found["snippet"] = {"text": snippet}
    return found


class Things:
    """The designs, their places and their things, as the run's logical locations."""

    def __init__(self) -> None:
        self.listed: list[Json] = []
        self._indexes: dict[tuple[str, str], int] = {}

    def of(self, finding: Finding) -> Sequence[Json]:
        """What a finding is about, and the place in the building."""
        subject, design = finding.subject, finding.identity.design
        parent = self._index(design, design, "design", None)
        names = [(subject.tag, f"{design}/{subject.kind}/{finding.identity.subject}", subject.kind)]
        if subject.where:
            names.append((subject.where, f"{design}/{subject.where}", "place"))
        return [
            {"fullyQualifiedName": full, "index": self._index(name, full, kind, parent)} for name, full, kind in names
        ]

    def _index(self, name: str, full: str, kind: str, parent: int | None) -> int:
        index = self._indexes.setdefault((full, kind), len(self.listed))
        if index == len(self.listed):
            entry: dict[str, Json] = {"name": name, "fullyQualifiedName": full, "kind": kind}
            if parent is not None:
                entry["parentIndex"] = parent
            self.listed.append(entry)
        return index
