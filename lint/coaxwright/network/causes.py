"""What a question to the network or the analysis may miss: each case by name, with its values.

The phrase book words them (``rulesets/phrases/network.yaml``).
"""

from __future__ import annotations

from collections.abc import Mapping

from coaxwright.design.value_types import FREQUENCY, TAG, Values

CAUSES: Mapping[str, Values] = {
    "no figure of a way": {"device": TAG, "one": TAG, "other": TAG, "frequency": FREQUENCY},
}
