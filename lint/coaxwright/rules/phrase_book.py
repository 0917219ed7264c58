"""The phrase book: how parts of sentences, missing figures and reasons are worded, by check.

It stands in ``rulesets/phrases/<topic>.yaml`` and holds whatever the rulesets that use a check, and firms' own, should
not have to say again. What the network and the analysis miss is worded there once for all checks.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Any

from coaxwright.checks import Check, DoesNotApply
from coaxwright.design.value_types import Phrase, Values
from coaxwright.frozen_value import frozen_value
from coaxwright.network import Unknown
from coaxwright.network.causes import CAUSES
from coaxwright.rules.wording import Phrases, fill
from coaxwright.shipped import shipped
from coaxwright.source import read_file
from coaxwright.source.preparsed import preparsed_of

PREPARSED = "phrases"
"""The collection of these files, parsed ahead."""
OF_THE_NETWORK = "network"
"""Stands in place of a check for what any question to the network or the analysis may miss."""


@frozen_value
class CheckPhrases:
    """The phrases of one check."""

    phrases: Phrases
    cannot_be_judged: Mapping[str, str]
    """For each missing figure, what is missing, in words that follow 'cannot be judged:'."""
    does_not_apply: Mapping[str, str]
    """For each reason, why the rule has nothing to say of a subject."""
    related: Mapping[str, str]
    """For each further place of a finding, what stands there."""


NONE = CheckPhrases({}, {}, {}, {})


def phrases_of(check: str) -> CheckPhrases:
    """The phrases of a check by name; none for one that needs none."""
    entry = _topic(check.partition(".")[0]).get(check)
    if entry is None:
        return NONE
    return CheckPhrases(
        entry.get("phrases", {}),
        entry.get("cannot be judged", {}),
        entry.get("does not apply", {}),
        entry.get("related", {}),
    )


def cause_text(unknown: Unknown, check: Check[Any] | None = None) -> str:
    """What is missing, in words that follow 'cannot be judged:'; ``check`` is that which misses it, if one does."""
    own = phrases_of(check.name) if check is not None else NONE
    if check is not None and unknown.case in own.cannot_be_judged:
        return fill(own.cannot_be_judged[unknown.case], unknown.values, check.cannot_judge[unknown.case], own.phrases)
    shared = phrases_of(OF_THE_NETWORK)
    return fill(shared.cannot_be_judged[unknown.case], unknown.values, CAUSES[unknown.case], shared.phrases)


def reason_text(verdict: DoesNotApply, check: Check[Any]) -> str:
    """Why a rule does not apply."""
    own = phrases_of(check.name)
    types: Values = check.does_not_apply[verdict.case]
    return fill(own.does_not_apply[verdict.case], verdict.values, types, own.phrases)


def related_text(said: str | Phrase, check: Check[Any]) -> str:
    """What stands at a further place of a finding."""
    name, values = (said.name, said.values) if isinstance(said, Phrase) else (said, {})
    own = phrases_of(check.name)
    types: Values = check.related[name] if isinstance(check.related, Mapping) else {}
    return fill(own.related[name], values, types, own.phrases)


def pages() -> Iterator[tuple[str, Path]]:
    """The files of the phrase book, by the names that messages call them: ``phrases/bonding.yaml``."""
    for path in sorted(shipped("rulesets").glob("phrases/*.yaml")):
        yield f"phrases/{path.name}", path


@cache
def _topic(topic: str) -> Mapping[str, Any]:
    path = shipped("rulesets") / "phrases" / f"{topic}.yaml"
    if not path.is_file():
        return {}
    name = f"phrases/{path.name}"
    parsed = preparsed_of(PREPARSED, name, path.read_bytes())
    data: Any = read_file(path, name).data if parsed is None else parsed.data
    return dict(data)
