"""The names of the schema files of the design format."""

DESIGN_SCHEMA = "design-1.schema.json"
DESIGN_SCHEMA_DRAFT_07 = "design-1.draft-07.schema.json"
PART_SCHEMA = "design-part-1.schema.json"
PART_SCHEMA_DRAFT_07 = "design-part-1.draft-07.schema.json"
