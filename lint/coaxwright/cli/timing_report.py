"""Where the time of a review went, for standard error: a report itself has no times in it."""

from __future__ import annotations

from collections.abc import Iterator

from coaxwright.reviewing.timing import PARTS, Clock

MOST_RULES = 12
"""The slowest ones; the others are told together."""


def timing_lines(clock: Clock, elapsed_s: float) -> Iterator[str]:
    """The parts of the work in their order, then the rules, the slowest first, each with its share of all of them.

    ``elapsed_s`` is how long the review took by the clock on the wall, which several processes share.
    """
    whole = sum(clock.seconds.values())
    rules = sorted(clock.subjects, key=lambda rule: (-clock.seconds.get(rule, 0.0), rule))
    reviewed = f"{clock.designs:,} {'design' if clock.designs == 1 else 'designs'} reviewed"
    yield f"{reviewed} in {_time(elapsed_s)}; work of all processes together {_time(whole)}:"
    for part in PARTS:
        if part in clock.seconds:
            yield _line(part, clock.seconds[part], whole)
    if not rules:
        return
    in_rules = sum(clock.seconds.get(rule, 0.0) for rule in rules)
    yield _line(f"asking {len(rules)} {'rule' if len(rules) == 1 else 'rules'}", in_rules, whole)
    for rule in rules[:MOST_RULES]:
        count = clock.subjects[rule]
        subjects = f"{count:,} {'subject' if count == 1 else 'subjects'}"
        yield f"{_line(f'  {rule}', clock.seconds.get(rule, 0.0), whole)}  {subjects}"
    others = rules[MOST_RULES:]
    if others:
        seconds = sum(clock.seconds.get(rule, 0.0) for rule in others)
        yield _line(f"  {len(others)} further {'rule' if len(others) == 1 else 'rules'}", seconds, whole)


def _line(what: str, seconds: float, whole: float) -> str:
    share = seconds / whole if whole else 0.0
    return f"  {what:<42} {_time(seconds):>9}  {share:>4.0%}"


def _time(seconds: float) -> str:
    return f"{seconds:.2f} s" if seconds >= 1 else f"{seconds * 1e3:.1f} ms"
