"""What a design or a folder is reviewed by, each value with its origin, as text and as JSON."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from textwrap import wrap

from coaxwright.frozen_value import frozen_value
from coaxwright.reports.excerpt import shown
from coaxwright.reports.json_report import write
from coaxwright.reviewing.review_request import COMMAND, Origin
from coaxwright.reviewing.settings.shown import Effective

FORMAT = 1
"""Rises when a program that reads the form would have to change."""
DEFAULT = "default"
_LABEL_COLUMNS = 18


@frozen_value
class _Row:
    field: str
    value: str
    origin: str


def render(effective: Effective, width: int) -> str:
    """The text, within ``width`` columns."""
    return "\n".join(_lines(effective, max(60, width))) + "\n"


def render_json(effective: Effective) -> str:
    """One JSON object, described by ``schemas/effective-settings-1.schema.json``."""
    asked, settings, left = effective.asked, effective.settings, effective.left_out
    punch_list = settings.punch_list if not asked.reviewers_terms else None
    return write(
        {
            "coaxwright effective settings": FORMAT,
            "path": effective.path,
            "settings": asked.settings,
            "not used": asked.set_aside,
            "returns at": {"value": asked.returns_at.value, "origin": _origin(asked.returns_at_from)},
            "reviewer's rulesets": [ruleset.printed for ruleset in asked.rulesets] if asked.reviewers_terms else [],
            "also judged by": [
                {"ruleset": ruleset.printed, "origin": _origin(ruleset.origin)}
                for ruleset in asked.rulesets
                if not asked.reviewers_terms
            ],
            "only": asked.only,
            "rules left out": [
                {"rule": left_out.name, "reason": left_out.reason, "origin": _origin(left_out.origin)}
                for left_out in asked.left_out
            ],
            "files left out": _files(effective),
            "punch list": {
                "value": punch_list.value if punch_list is not None else "",
                "origin": _origin(punch_list.origin if punch_list is not None else None),
            },
            "left out of a search": None if left is None else {"reason": left.reason, "origin": left.origin},
        }
    )


def _lines(effective: Effective, width: int) -> Iterator[str]:
    yield shown(effective.path)
    for row in _rows(effective):
        yield from wrap(
            f"{shown(row.value)} ({shown(row.origin)})",
            width,
            initial_indent=f"  {row.field:<{_LABEL_COLUMNS}}",
            subsequent_indent=" " * (_LABEL_COLUMNS + 2),
            break_long_words=False,
            break_on_hyphens=False,
        )
    asked = effective.asked
    if asked.set_aside:
        yield ""
        yield from wrap(f"Beside it, and not used on the reviewer's terms: {', '.join(asked.set_aside)}", width)
    if effective.left_out is not None:
        yield ""
        out = f"{effective.left_out.reason} ({effective.left_out.origin})"
        yield from wrap(shown(f"Left out when a folder is searched, reviewed when it is named itself: {out}"), width)


def _rows(effective: Effective) -> Iterator[_Row]:
    asked, settings = effective.asked, effective.settings
    yield _Row("returns at", asked.returns_at.value, _origin(asked.returns_at_from))
    if asked.reviewers_terms:
        yield _Row(
            "judged by",
            f"{' and '.join(ruleset.printed for ruleset in asked.rulesets)}, and nothing else",
            "command line",
        )
    else:
        yield _Row("judged by", "what the design names", DEFAULT)
        for ruleset in asked.rulesets:
            yield _Row("also judged by", ruleset.printed, _origin(ruleset.origin))
    yield (
        _Row("rules checked", f"only {', '.join(asked.only)}", "command line")
        if asked.only
        else _Row("rules checked", "all", DEFAULT)
    )
    for left in asked.left_out:
        yield _Row("rule left out", f"{left.name}: {left.reason}" if left.reason else left.name, _origin(left.origin))
    for file in _files(effective):
        yield _Row("files left out", f"{file['pattern']}: {file['reason']}", file["origin"])
    if settings.punch_list is not None and not asked.reviewers_terms:
        yield _Row("punch list", settings.punch_list.value, _origin(settings.punch_list.origin))
    else:
        yield _Row("punch list", "none", DEFAULT)


def _files(effective: Effective) -> Sequence[Mapping[str, str]]:
    said = effective.settings.files_left_out
    if said is None or effective.asked.reviewers_terms:
        return []
    return [
        {"pattern": word.pattern.written, "reason": word.reason, "origin": _origin(word.origin)} for word in said.value
    ]


def _origin(origin: Origin | None) -> str:
    return DEFAULT if origin is None else "command line" if origin == COMMAND else str(origin)
