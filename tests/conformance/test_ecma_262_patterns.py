"""Every pattern of every shipped schema is one that an ECMA 262 engine reads in Unicode mode, as editors do.

Source: JSON Schema 2020-12 Core, 6.4 (patterns are ECMA 262 expressions, compiled with the flag "u"); ECMA 262, 22.2.1:
a backslash stands only before syntax characters. The engine is the package ``regress``.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest
import regress

SCHEMAS = Path(__file__).parents[2] / "schemas"


def patterns(node: object) -> Iterator[str]:
    if isinstance(node, dict):
        if isinstance(node.get("pattern"), str):
            yield node["pattern"]
        yield from node.get("patternProperties", ())
        for below in node.values():
            yield from patterns(below)
    elif isinstance(node, list):
        for below in node:
            yield from patterns(below)


EVERY = sorted({one for path in SCHEMAS.glob("*.json") for one in patterns(json.loads(path.read_text("utf-8")))})


@pytest.mark.parametrize("pattern", EVERY)
def test_a_pattern_is_one_for_a_strict_unicode_engine(pattern: str) -> None:
    regress.Regex(pattern, "u")


def test_the_engine_refuses_what_the_standard_does() -> None:
    with pytest.raises(regress.RegressError):
        regress.Regex(r"copper\-clad", "u")
