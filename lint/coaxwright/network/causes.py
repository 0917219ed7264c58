"""What a question to the network or the analysis may miss: each case by name, with its values.

The phrase book words them (``rulesets/phrases/network.yaml``).
"""

from __future__ import annotations

from collections.abc import Mapping

from coaxwright.design.value_types import Values

CAUSES: Mapping[str, Values] = {}
