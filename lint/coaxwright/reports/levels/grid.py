"""A table in a width: columns that find no room stand in further tables below, under the same labels."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from coaxwright.frozen_value import frozen_value
from coaxwright.reports.excerpt import columns, shown
from coaxwright.reports.network_report.page import Page

GAP = 2
WIDEST_LABEL = 20
"""A wider label stands in a line of its own, its figures below it."""
_LEAST_TAIL = 8
"""Of words at the end of a line so many columns are shown, or none."""


@frozen_value
class Column:
    """A heading, and one cell for each row."""

    head: str
    cells: Sequence[str]
    to_the_right: bool = False

    @property
    def width(self) -> int:
        return max((columns(text) for text in (self.head, *self.cells)), default=0)

    def placed(self, text: str) -> str:
        """A cell, filled up to the width of its column."""
        fill = " " * (self.width - columns(text))
        return f"{fill}{text}" if self.to_the_right else f"{text}{fill}"


def table(
    page: Page,
    head: str,
    labels: Sequence[str],
    shown_columns: Sequence[Column],
    *,
    indent: int = 2,
    tails: Sequence[str] = (),
    notes: Sequence[str] = (),
) -> None:
    """Write a table: a label to each row, then its cells.

    ``tails``: words behind each row, cut to the room that is left; ``notes``: words in lines below each row.
    """
    labels = [shown(label) for label in labels]
    fitting = [columns(label) for label in labels if columns(label) <= WIDEST_LABEL]
    wide = max((columns(head), *fitting))
    room = page.width - indent - wide
    groups = list(_groups(shown_columns, room))
    for number, group in enumerate(groups):
        if number:
            page.gap()
        page.lines.append(_line(head, wide, indent, [column.placed(column.head) for column in group]))
        is_last = number == len(groups) - 1
        for row, label in enumerate(labels):
            if columns(label) > wide:
                page.paragraph(label, indent, hang=2)
            own = label if columns(label) <= wide else ""
            line = _line(own, wide, indent, [column.placed(column.cells[row]) for column in group])
            page.lines.append(_with_tail(line, tails[row], page.width) if tails and is_last else line)
            if notes and is_last and notes[row]:
                page.paragraph(notes[row], indent + 2, hang=2)


def _groups(shown_columns: Sequence[Column], room: int) -> Iterator[list[Column]]:
    """Columns in the order given, as many to a group as there is room for, and one at least."""
    group: list[Column] = []
    taken = 0
    for column in shown_columns:
        if group and taken + GAP + column.width > room:
            yield group
            group, taken = [], 0
        group.append(column)
        taken += GAP + column.width
    yield group


def _line(label: str, wide: int, indent: int, cells: Sequence[str]) -> str:
    start = f"{' ' * indent}{label}{' ' * (wide - columns(label))}"
    return (" " * GAP).join((start, *cells)).rstrip()


def _with_tail(line: str, tail: str, width: int) -> str:
    """A line and words behind it; words that find no room are cut, or left out."""
    words = shown(tail)
    room = width - columns(line) - GAP
    if columns(words) > room:
        if room < _LEAST_TAIL:
            return line
        while columns(words) > room - 1:
            words = words[:-1]
        words = f"{words.rstrip()}\N{HORIZONTAL ELLIPSIS}"
    return f"{line}{' ' * GAP}{words}" if words else line
