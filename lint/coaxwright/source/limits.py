"""How large an input may be before reading it is refused."""

from __future__ import annotations

from coaxwright.frozen_value import frozen_value


@frozen_value
class Limits:
    """Bounds on one file. The largest site we know, 10,000 devices, is 1.9 MB of about 400,000 values.

    A million values take about 0.6 GB to read. The depth bound leaves ten times what the format needs; it also keeps
    the parser's own recursion far from the interpreter's limit. The longest lists of a design, such as the places of a
    route, have tens of entries; what is many stands below tags.
    """

    size_bytes: int = 16_000_000
    depth: int = 60
    values: int = 1_000_000
    entries: int = 10_000
    """In one list."""


DEFAULT = Limits()
