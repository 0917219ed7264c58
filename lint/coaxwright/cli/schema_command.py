"""``coaxwright schema``: a JSON Schema that comes with the program, for editors and for other programs."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path

from coaxwright.cli.output import complain, put, say
from coaxwright.shipped import shipped


class Described(StrEnum):
    """What the schemas describe."""

    DESIGN = "design"
    PART = "part"
    CATALOGUE = "catalogue"
    RULESET = "ruleset"
    PUNCH_LIST = "punch-list"
    SETTINGS = "settings"
    REVIEW = "review"
    UNDERSTOOD = "understood"
    LEVELS = "levels"
    EFFECTIVE_SETTINGS = "effective-settings"


_STEMS = {**{file_kind: f"{file_kind}-1" for file_kind in Described}, Described.PART: "design-part-1"}


def run_schema(what: Described = Described.DESIGN, draft_07: bool = False, into: Path | None = None) -> int:
    """Print or write the schema and give the exit status: 0, or 2 where there is none or it cannot be written."""
    file = shipped("schemas") / f"{_STEMS[what]}.{'draft-07.' if draft_07 else ''}schema.json"
    if not file.is_file():
        complain(f"the schema of a {what} is there in JSON Schema 2020-12 only; leave --draft-07 out")
        return 2
    text = file.read_text(encoding="utf-8")
    if into is None:
        say(text)
        return 0
    try:
        put(text, into)
    except OSError as error:
        complain(f"cannot write {into}: {(error.strerror or str(error)).lower()}")
        return 2
    return 0
