"""Write what is generated from the models: the two schemas and the reference page."""

from __future__ import annotations

import json
from pathlib import Path

from coaxwright.design.reference import reference_page
from coaxwright.design.schema import design_schema, design_schema_draft_07
from coaxwright.design.schema_files import DESIGN_SCHEMA, DESIGN_SCHEMA_DRAFT_07


def generated(top: Path) -> dict[Path, str]:
    """The generated files of a checkout and the text each should hold."""
    return {
        top / "schemas" / DESIGN_SCHEMA: _json(design_schema()),
        top / "schemas" / DESIGN_SCHEMA_DRAFT_07: _json(design_schema_draft_07()),
        top / "docs" / "reference" / "design-file.md": reference_page(),
    }


def _json(schema: object) -> str:
    return json.dumps(schema, indent=2, ensure_ascii=False) + "\n"


def main() -> None:
    """Bring the generated files of this checkout up to date."""
    for path, text in generated(Path(__file__).resolve().parents[3]).items():
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
