"""A punch list written line by line: one item on each, in a fixed order, with what people wrote between them.

Two branches that each add items change different lines, so that a merge is one of lines. Comments above an item go
where it goes; those above one that is taken off stay, and one at the end of its line goes with it.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from re import compile as regex

from coaxwright.amend.spelling import scalar
from coaxwright.findings import Identity, Outcome
from coaxwright.findings.preexisting import FindingRank, FindingState
from coaxwright.findings.punch_list import FORMAT, HEADER, ITEMS, LIMITS, Item, PunchList, PunchListError, punch_list_of
from coaxwright.source import Document, Problem, ReadError, Span, Splice, apply, read_text
from coaxwright.source.document import LINE_BREAK
from coaxwright.source.scalars import typed

_HEAD = (
    f"{HEADER}: {FORMAT}",
    "# Findings that are known and still to be mended, one on each line. Comments of yours stay.",
    f"{ITEMS}:",
)
_INDENT = "  "


@dataclass(slots=True)
class _Entry:
    """The lines of one item, and those between it and what stands above it."""

    above: list[str]
    item: Item
    lines: list[str]
    span: Span | None = None
    """Where the item stands in the file; None for a new one."""


def written(items: Iterable[Item]) -> str:
    """A new punch list of these items."""
    lines = [f"{_INDENT}- {_flow(item)}" for item in sorted(items, key=lambda item: item.order)]
    return "".join(f"{line}\n" for line in (*_HEAD, *lines))


def rewritten(before: PunchList, wanted: Mapping[Identity, FindingRank]) -> str:
    """The text of a punch list that holds exactly the items wanted, each once, in their order.

    Raises PunchListError where its items do not stand on lines of their own.
    """
    layout = _Layout(before)
    text = _rewritten(layout, wanted)
    if not _holds(text, before.name, wanted):
        raise layout.refusal(before.document.span((ITEMS,)), "these items do not stand on lines of their own")
    return text


def _holds(text: str, name: str, wanted: Mapping[Identity, FindingRank]) -> bool:
    """Whether a text reads back as a punch list of exactly the items wanted."""
    try:
        items = punch_list_of(read_text(text, name, LIMITS)).items
    except (PunchListError, ReadError):
        return False
    return len(items) == len(wanted) and {item.identity: item.gravity for item in items} == wanted


def _rewritten(layout: _Layout, wanted: Mapping[Identity, FindingRank]) -> str:
    entries: list[_Entry] = []
    left: list[str] = []
    done: set[Identity] = set()
    for entry in layout.entries():
        identity = entry.item.identity
        entry.above = [*left, *entry.above]
        left = []
        if identity not in wanted or identity in done:
            left = entry.above
            continue
        done.add(identity)
        item = Item(identity, wanted[identity])
        if item != entry.item:
            entry.lines, entry.item = [layout.line(item, entry)], item
        entries.append(entry)
    fresh = [Item(identity, gravity) for identity, gravity in wanted.items() if identity not in done]
    lines = [line for entry in _ordered(entries, fresh, layout.indent) for line in (*entry.above, *entry.lines)]
    head, tail = layout.around()
    text = layout.newline.join([*head, *lines, *left, *tail])
    return text if not lines or tail or text.endswith(("\n", "\r")) else text + layout.newline


def _ordered(entries: Sequence[_Entry], fresh: Sequence[Item], indent: str) -> Iterator[_Entry]:
    """All entries in their order; a new one comes before the comments above the next, which belong to that one."""
    every = [*entries, *(_Entry([], item, [f"{indent}- {_flow(item)}"]) for item in fresh)]
    yield from sorted(every, key=lambda entry: entry.item.order)


class _Layout:
    """Where the items of a punch list stand among its lines."""

    def __init__(self, before: PunchList) -> None:
        self.before = before
        document = before.document
        self.newline = next(iter(LINE_BREAK.findall(document.text)), "\n")
        self.spans = [document.span((ITEMS, index)) for index in range(len(before.items))]
        self.key_line = document.span((ITEMS,), of_key=True).start.line
        self.lines = document.lines if self.spans else LINE_BREAK.split(_without_value(document))
        first = self.lines[self.spans[0].start.line - 1] if self.spans else _INDENT
        self.indent = first[: len(first) - len(first.lstrip())]

    def entries(self) -> Iterator[_Entry]:
        """Each item with its lines. Raises PunchListError where two share one."""
        after = self.key_line
        for item, span in zip(self.before.items, self.spans, strict=True):
            first = self.lines[span.start.line - 1]
            if span.start.line <= after or first[: span.start.column - 1].strip() != "-":
                raise self.refusal(span, "this item does not stand on a line of its own")
            above = self.lines[after : span.start.line - 1]
            yield _Entry(above, item, self.lines[span.start.line - 1 : span.end.line], span)
            after = span.end.line

    def line(self, item: Item, entry: _Entry) -> str:
        """An item in the place of another one, with what follows that one on its line."""
        assert entry.span is not None
        behind = entry.lines[-1][entry.span.end.column - 1 :].rstrip()
        return f"{self.indent}- {_flow(item)}{behind}"

    def around(self) -> tuple[list[str], list[str]]:
        """The lines before the first item, with the key, and those behind the last one."""
        end = self.spans[-1].end.line if self.spans else self.key_line
        return self.lines[: self.key_line], self.lines[end:]

    def refusal(self, span: Span, what: str) -> PunchListError:
        """Why the file cannot be written anew without touching what people wrote."""
        expected = f"write each item as '{_INDENT}- {{design: …, rule: …}}', on one line"
        return PunchListError([Problem(self.before.name, span, what, expected)])


def _without_value(document: Document) -> str:
    """The text of an empty list without its ``[]``, to make room for lines below the key."""
    span = document.span((ITEMS,))
    if span.end.index == span.start.index:
        return document.text
    start = len(document.text[: span.start.index].rstrip(" "))
    return apply(document.text, [Splice(start, span.end.index, "")])


def _flow(item: Item) -> str:
    identity, gravity = item.identity, item.gravity
    fields = {
        "design": identity.design,
        "rule": identity.rule,
        "item": identity.subject,
        "second": identity.second,
        "facet": identity.facet,
        "kind": identity.kind,
        "severity": gravity.severity.value,
        "outcome": str(Outcome.CANNOT_BE_JUDGED) if gravity.bearing is FindingState.CANNOT_BE_JUDGED else "",
    }
    return f"{{{', '.join(f'{key}: {_spelled(text)}' for key, text in fields.items() if text)}}}"


_PLAIN = regex("[A-Za-z][A-Za-z0-9]*(?:[ ./-][A-Za-z0-9]+)*")
"""Tags and jobs as most of them are, which need no quotes and no trying out."""


@lru_cache(maxsize=4096)
def _spelled(text: str) -> str:
    """A text on one line, in quotes where YAML needs them; a title may have been written in several lines."""
    if _PLAIN.fullmatch(text) and typed(text) == text:
        return text
    return json.dumps(text, ensure_ascii=False) if "\n" in text else scalar(text)
