"""How a value is written where it is spliced in."""

from __future__ import annotations

from io import StringIO

from coaxwright.source import ReadError, read_text


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
