"""One step of the format: from a text of format N to the same design in format N + 1."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from coaxwright.frozen_value import frozen_value
from coaxwright.source.document import Document
from coaxwright.source.splice import Splice


@frozen_value
class Change:
    """One thing that a step changes, in words, and the splices that do it, the first of them where it stands."""

    what: str
    splices: tuple[Splice, ...]


@frozen_value
class Step:
    """What changes between two formats, said twice: for the text, and for the data that the text holds.

    Each proves the other: the changed text has to read as the changed data. The line of the format belongs to neither.
    """

    changes: Callable[[Document], Sequence[Change]]
    """Raises ReadError at the first thing that cannot be brought up, with its place."""
    data: Callable[[Any], Any]
    """A copy of the data; asked only of data that ``changes`` took."""
