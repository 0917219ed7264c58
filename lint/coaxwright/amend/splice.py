"""Changes to a text as splices: everything outside the spliced spans stays as the author wrote it, byte for byte."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from io import StringIO

from coaxwright.source import ReadError, Span, read_text


@dataclass(frozen=True, slots=True)
class Splice:
    """Replace what stands in a span."""

    span: Span
    text: str


def apply(text: str, splices: Sequence[Splice]) -> str:
    """The text with every splice made.

    Raises ValueError for splices that overlap.
    """
    parts: list[str] = []
    done = 0
    for splice in sorted(splices, key=lambda one: one.span):
        if splice.span.start.index < done:
            raise ValueError("two changes overlap")
        parts += (text[done : splice.span.start.index], splice.text)
        done = splice.span.end.index
    return "".join([*parts, text[done:]])


def scalar(value: str) -> str:
    """A text as it may stand anywhere in a design: quoted only where YAML needs it."""
    from ruamel.yaml import YAML

    writer = YAML(pure=True)
    writer.default_flow_style = True
    writer.width = 1_000_000
    stream = StringIO()
    writer.dump([value], stream)
    written = stream.getvalue().strip().removeprefix("[").removesuffix("]")
    return written if _reads_back(written, value) else "'" + value.replace("'", "''") + "'"


def _reads_back(written: str, value: str) -> bool:
    """Whether our reader, whose parser is stricter within brackets than YAML, takes it for the text it stands for."""
    try:
        return read_text(f"[{written}, {{x: {written}}}]", "").data == [value, {"x": value}]
    except ReadError:
        return False
