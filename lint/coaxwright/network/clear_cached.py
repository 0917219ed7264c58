"""Freeing what was computed, once nobody will ask for it again."""

from __future__ import annotations

from functools import cached_property


def clear_cached(computed: object) -> None:
    """Forget every answer that an object keeps; it computes them anew where it is asked again.

    An answer often holds the thing that keeps it, in a circle that only the garbage collector would find. Without the
    answers everything goes at once, and the collector has nothing to look through after each design.
    """
    made, kept = type(computed), vars(computed)
    for name in [*kept]:
        if isinstance(getattr(made, name, None), cached_property):
            del kept[name]
