"""The examples beside the rules: whole small designs that mark where a finding of their rule must stand.

The tests execute them; the command ``cite`` and the page of rules show them. Nothing else imports this module.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, Literal, cast

from coaxwright.frozen_value import frozen_value
from coaxwright.rules.errors import RulesetError
from coaxwright.shipped import shipped
from coaxwright.source import read_file

FOLDER = "examples"
SCHEMA_FILE = "examples-1.schema.json"

Kind = Literal["right", "wrong", "boundary", "cannot be judged", "needs a person", "does not apply"]
HEADINGS: dict[Kind, str] = {
    "right": "Right",
    "wrong": "Wrong",
    "boundary": "At the limit",
    "cannot be judged": "Not to be judged",
    "needs a person": "For a person to judge",
    "does not apply": "Not concerned",
}
"""What stands above an example of a kind."""
MarkedOutcome = Literal["not met", "cannot be judged", "needs a person"]

_MARK = re.compile(r" *# here: (?P<outcome>not met|cannot be judged|needs a person)$")
_ANY_MARK = re.compile(r"#\s*here\b")


@dataclass(frozen=True, slots=True, order=True)
class Mark:
    """A line of an example at which a finding of its rule stands."""

    line: int
    """Counted from 1, as findings count."""
    outcome: MarkedOutcome


@frozen_value
class Example:
    """One design that shows how a rule is met or broken."""

    rule: str
    ruleset: str
    """The ruleset beside which it stands: ``trade``, ``us``."""
    kind: Kind
    title: str
    design: str
    """The design file with its marks, as a person reads it."""
    marks: tuple[Mark, ...]
    says: tuple[str, ...]
    """Words that the texts of its findings hold."""

    def under(self, label: str) -> str:
        """The design judged by another edition of its ruleset: ``us 2017`` for ``us 2023``."""
        return re.sub(rf"(?<=rulesets: \[){re.escape(self.ruleset)} [0-9]+(?=\])", label, self.design, count=1)


def examples_of(rule_name: str, labels: Sequence[str]) -> tuple[Example, ...]:
    """The examples of a rule in the rulesets named (``us 2023``) and those they build on, the most special first.

    ``labels``: every ruleset that has a say, bases first, as ``EffectiveRules.rulesets`` has them.
    Raises RulesetError where a file of examples is about another rule or has a mark that is none.
    """
    names = dict.fromkeys(label.partition(" ")[0] for label in reversed(labels))
    return tuple(example for name in names for example in _read(name, rule_name))


def telling_kinds(examples: Sequence[Example]) -> tuple[Kind, Kind]:
    """The two kinds that show a rule: how it is broken (or, where no number decides, left to a person), and how met."""
    return ("wrong" if any(example.kind == "wrong" for example in examples) else "needs a person", "right")


def example_files() -> tuple[Path, ...]:
    """Every file of examples that comes with the program."""
    return tuple(sorted(shipped("rulesets").glob(f"*/{FOLDER}/*.yaml")))


@cache
def _read(ruleset: str, rule_name: str) -> tuple[Example, ...]:
    path = shipped("rulesets") / ruleset / FOLDER / f"{rule_name}.yaml"
    if not path.is_file():
        return ()
    name = f"{ruleset}/{FOLDER}/{path.name}"
    data = cast("dict[str, Any]", read_file(path, name).data)
    if data["rule"] != rule_name:
        raise RulesetError(name, f"the examples are of {data['rule']}, not of {rule_name}")
    return tuple(_example(entry, ruleset, rule_name, name) for entry in data["examples"])


def _example(entry: dict[str, Any], ruleset: str, rule_name: str, where: str) -> Example:
    design: str = entry["design"]
    return Example(
        rule=rule_name,
        ruleset=ruleset,
        kind=entry["kind"],
        title=entry["title"],
        design=design,
        marks=tuple(_marks(design, f"{where}, {entry['title']!r}")),
        says=tuple(entry.get("says", ())),
    )


def _marks(design: str, where: str) -> Iterator[Mark]:
    for line, text in enumerate(design.splitlines(), start=1):
        mark = _MARK.search(text)
        if mark is not None:
            yield Mark(line, cast("MarkedOutcome", mark["outcome"]))
        elif _ANY_MARK.search(text):
            raise RulesetError(where, f"line {line}: write '# here: not met', 'cannot be judged' or 'needs a person'")
