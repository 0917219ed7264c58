"""Write what is generated: the design schemas, the quantities of the catalogue schema, the preparsed rulesets and
catalogue, the reference pages.

``python -m coaxwright.publish`` brings a checkout up to date; a test fails while it is not.
"""

from __future__ import annotations

import json
from pathlib import Path

from coaxwright.catalogue import loader as catalogue
from coaxwright.catalogue.measures import CapacitancePerLength, Percent, ResistancePerLength
from coaxwright.catalogue.reference import catalogue_page
from coaxwright.design import quantities
from coaxwright.design.part_schema import part_schema, part_schema_draft_07
from coaxwright.design.quantities import Quantity
from coaxwright.design.reference import reference_page
from coaxwright.design.schema import design_schema, design_schema_draft_07
from coaxwright.design.schema_files import (
    DESIGN_SCHEMA,
    DESIGN_SCHEMA_DRAFT_07,
    PART_SCHEMA,
    PART_SCHEMA_DRAFT_07,
)
from coaxwright.rules import phrase_book, shipped_registry
from coaxwright.rules import ruleset_registry as rulesets
from coaxwright.rules.reference import rules_page
from coaxwright.source.preparsed import FOLDER, preparsed_text

CATALOGUE_SCHEMA = "catalogue-1.schema.json"


def generated(top: Path) -> dict[Path, str]:
    """The generated files of a checkout and the text each should hold."""
    return {
        top / "schemas" / DESIGN_SCHEMA: _json(design_schema()),
        top / "schemas" / DESIGN_SCHEMA_DRAFT_07: _json(design_schema_draft_07()),
        top / "schemas" / PART_SCHEMA: _json(part_schema()),
        top / "schemas" / PART_SCHEMA_DRAFT_07: _json(part_schema_draft_07()),
        top / "schemas" / CATALOGUE_SCHEMA: _with_current_quantities(top / "schemas" / CATALOGUE_SCHEMA),
        FOLDER / f"{catalogue.PREPARSED}.json": preparsed_text(catalogue.files()),
        FOLDER / f"{rulesets.PREPARSED}.json": preparsed_text(
            page for edition in shipped_registry().files.values() for page in rulesets.pages(edition)
        ),
        FOLDER / f"{phrase_book.PREPARSED}.json": preparsed_text(phrase_book.pages()),
        top / "docs" / "reference" / "design-file.md": reference_page(),
        top / "docs" / "reference" / "catalogue.md": catalogue_page(),
        top / "docs" / "reference" / "rules.md": rules_page(),
    }


def _json(schema: object) -> str:
    return json.dumps(schema, indent=2, ensure_ascii=False) + "\n"


def _with_current_quantities(path: Path) -> str:
    """The catalogue schema, written by hand, with the patterns of its quantities as the parsers have them."""
    known: dict[str, type[Quantity]] = {}
    for kind in (*vars(quantities).values(), Percent, CapacitancePerLength, ResistancePerLength):
        if isinstance(kind, type) and issubclass(kind, Quantity) and kind is not Quantity:
            known[kind.NAME] = kind
    text = path.read_text(encoding="utf-8")
    for definition in json.loads(text)["$defs"].values():
        kind = known.get(definition.get("quantity"))
        if kind is not None:
            text = text.replace(_quoted(definition["pattern"]), _quoted(kind.PATTERN))
    return text


def _quoted(pattern: str) -> str:
    return json.dumps(pattern, ensure_ascii=False)


def main() -> None:
    """Bring the generated files of this checkout up to date."""
    for path, text in generated(Path(__file__).resolve().parents[2]).items():
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
