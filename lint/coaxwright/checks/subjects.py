"""What a finding is about."""

from __future__ import annotations

from coaxwright.frozen_value import frozen_value
from coaxwright.source import Path


@frozen_value
class Subject:
    """A thing of the design by kind and tag, the place it stands in, whose it is and in which state."""

    kind: str
    tag: str
    path: Path
    second: str = ""
    """A second thing the judgment is about, such as the building a cable enters."""
    where: str = ""
    """The place in the building, for people."""
    owner: str = "owner"
    state: str = "new"
