"""How to state a figure that is missing: the key to write, and where."""

from __future__ import annotations

from coaxwright.source import Path

UNSAID = "state what is missing"


def missing_value_hint(root: Path, is_written: bool) -> str:
    """What to write so that something can be judged: ``write 'length: …' at C-103``.

    ``root``: where the figure belongs. Where something stands there already, what is missing is told by its cause.
    """
    if is_written or len(root) < 2 or not isinstance(root[-1], str):
        return UNSAID
    *above, key = root
    if len(above) == 1:
        return f"write '{key}: …' in '{above[0]}'"
    _, tag, *between = above
    inner = [step for step in between if isinstance(step, str) and step != "route"]
    where = f"{' '.join(inner)} of {tag}" if inner else str(tag)
    return f"write '{key}: …' at {where}"
