"""Pieces of the page: tables, figures, sources."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from textwrap import wrap

from coaxwright.catalogue.entries import Source
from coaxwright.design.quantities import shown

_WIDTH = 120
_FT_PER_M = 1 / 0.3048  # exact


def wrapped(text: str) -> Iterator[str]:
    """A paragraph, or a line of a list, in lines of the usual width."""
    indent = "  " if text.startswith("- ") else ""
    yield from wrap(text, _WIDTH, break_long_words=False, break_on_hyphens=False, subsequent_indent=indent)


def table(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> Iterator[str]:
    """A Markdown table, with an empty line behind it."""
    yield f"| {' | '.join(heads)} |"
    yield f"|{'---|' * len(heads)}"
    for row in rows:
        yield f"| {' | '.join(cell.replace('|', chr(92) + '|') for cell in row)} |"
    yield ""


def code(words: Iterable[str]) -> str:
    """Words as they are written in a design."""
    return ", ".join(f"`{word}`" for word in words)


def per_100_ft(figure_per_m: float, digits: int) -> str:
    """A figure per meter as one per 100 ft."""
    return shown(figure_per_m * 100 / _FT_PER_M, digits)


def millimeters(length_m: float | None) -> str:
    """A length in mm and inches; nothing where it is not known."""
    return "" if length_m is None else f"{shown(length_m * 1000, 2)} mm ({shown(length_m / 0.0254, 3)} in)"


def sources_of_figures(sources: Mapping[str, Source]) -> Iterator[str]:
    """The sources of an entry, each once with the figures that are from it."""
    figures: dict[str, list[str]] = {}
    for figure, source in sources.items():
        figures.setdefault(source_line(source), []).append(figure)
    yield "Sources:"
    yield ""
    for line, named in figures.items():
        yield f"- {', '.join(named)}: {line}"
    yield ""


def source_line(source: Source) -> str:
    """A source with its confidence and its note."""
    return f"{source.line}{f'; {source.note}' if source.note else ''}"
