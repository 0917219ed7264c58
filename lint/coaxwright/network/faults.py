"""What the builder could not connect. It never stops for these; rules of the topic ``plan`` report them."""

from __future__ import annotations

from coaxwright.frozen_value import frozen_value
from coaxwright.source import Path

_MANY = 8
"""More than a reader looks through for the one that was meant."""


@frozen_value
class UnknownReference:
    """A tag, port or catalogue phrase that names nothing."""

    path: Path
    written: str
    wanted: str
    """What should have been named: ``device``, ``place``, ``port of SP1``, ``cable type`` …"""
    known: tuple[str, ...]
    nearest: str | None
    meant: str | None
    """The whole text with the nearest word put right."""

    @property
    def choices(self) -> tuple[str, ...]:
        """What a reader would look through: where a repeated unit is meant, or there are many, what that unit has."""
        unit, slash, _ = self.written.rpartition("/")
        if not slash and len(self.known) > _MANY:
            unit, slash, _ = str(self.path[1]).rpartition("/")
        return tuple(tag for tag in self.known if slash and tag.startswith(f"{unit}/")) or self.known


@frozen_value
class UndecidedPort:
    """A bare tag where ports differ electrically, so that nobody can tell which one is meant."""

    path: Path
    device: str
    choices: tuple[str, ...]


@frozen_value
class PortConflict:
    """More cables than ports."""

    device: str
    ports: tuple[str, ...]
    """The ports wanted: one by name, or all outputs."""
    wanted: str
    """``out-2``, or ``output``, ``tap output``, ``input``, ``port`` for any of that sort."""
    tenants: tuple[str, ...]
    """Every cable or part that wants one of them, in tag order."""
    paths: tuple[Path, ...]
    """Where those that found none are written."""
    free: tuple[str, ...]
    """Free ports of the device that are alike."""
