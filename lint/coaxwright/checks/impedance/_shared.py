"""What several checks of impedances share: parts that match nothing."""

from __future__ import annotations

STRAIGHT = frozenset(("ground block", "protector", "DC block", "galvanic isolator", "power inserter"))
"""Kinds that join their ports straight, and so never match. Source: common practice, no source."""
