"""Reading one design from Python."""

from __future__ import annotations

from pathlib import Path

from coaxwright.design import Design, understand
from coaxwright.review.reading import read_design


def load(path: str | Path) -> Design:
    """The typed design in a file, with the parts it draws in.

    Raises ReadError where the file is not readable data, NotUnderstood where it breaks the schema; both say where.
    """
    return understand(read_design(Path(path), Path(path).name))
