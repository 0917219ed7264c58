"""The rules of a basis as they are stored: once for all designs that are bound by them, their checks by name."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence

from coaxwright.checks import AnyCheck, Citation, Limit, Limits, all_checks
from coaxwright.errors import CoaxwrightError
from coaxwright.reviewing.cache.serialization import Kept, NotStored, Plain, text_of
from coaxwright.rules import Deferral, ExistingPolicy, Rule, Severity, Words

_Checks = Mapping[str, AnyCheck]


def rules_written(rules: Sequence[Rule]) -> str:
    """Raises NotStored for a rule whose check is none of the program's own."""
    checks = all_checks()
    for rule in rules:
        if checks.get(rule.check.name) is not rule.check:
            raise NotStored(f"the check of {rule.name} is not the program's")
    return text_of([_plain(rule) for rule in rules])


def rules_read(text: str) -> tuple[Rule, ...]:
    """The rules of a text, equal to those it was made of. Raises NotStored."""
    checks, kept = all_checks(), Kept()
    try:
        return tuple(_rule(plain, checks, kept) for plain in json.loads(text))
    except (ValueError, TypeError, KeyError, CoaxwrightError) as error:
        raise NotStored(f"rules: {error}") from None


def _plain(rule: Rule) -> Plain:
    return [
        rule.name,
        rule.title,
        rule.check.name,
        rule.severity,
        rule.existing,
        rule.due,
        rule.reason,
        list(rule.words.items()),
        [[limit.name, limit.keys, limit.value.text, limit.source, limit.origin] for limit in rule.limits.all()],
        rule.sources,
        list(rule.cases.items()),
        list(rule.origins.items()),
        rule.defers,
    ]


def _rule(plain: Plain, checks: _Checks, kept: Kept) -> Rule:
    name, title, check_name, severity, existing, due, reason, words, limits, sources, cases, origins, defers = plain
    check, citation = checks[check_name], kept.maker(Citation)
    read = [
        Limit(limit, tuple(keys), check.limits[limit].dimension.parse(text), citation(source), origin)
        for limit, keys, text, source, origin in limits
    ]
    return Rule(
        name=name,
        title=title,
        check=check,
        severity=Severity(severity),
        existing=ExistingPolicy(existing),
        due=due,
        reason=reason,
        words={case: kept.maker(Words)(one) for case, one in words},
        limits=Limits({(figure.name, *figure.keys): figure for figure in read}),
        sources=tuple(map(citation, sources)),
        cases={citation(source): tuple(those) for source, those in cases},
        origins=dict(origins),
        defers=tuple(map(kept.maker(Deferral), defers)),
    )
