"""Text to plain data with an exact place for every key and value."""

from coaxwright.source.document import Branch, Document, Instance, Path, Spot
from coaxwright.source.files import decode, read_file
from coaxwright.source.includes import INCLUDES, PART, PART_SUFFIX, Drawn, draw_in, included_by, located
from coaxwright.source.limits import Limits
from coaxwright.source.place import Position, Span
from coaxwright.source.problem import Problem, ReadError
from coaxwright.source.reader import read_text
from coaxwright.source.referenced_files import CATALOGUE_SUFFIX, RULESET_SUFFIX, FilesRead, read_beside, read_once
from coaxwright.source.splice import Splice, apply
from coaxwright.source.wording import quoted

__all__ = [
    "CATALOGUE_SUFFIX",
    "INCLUDES",
    "PART",
    "PART_SUFFIX",
    "RULESET_SUFFIX",
    "Branch",
    "Document",
    "Drawn",
    "FilesRead",
    "Instance",
    "Limits",
    "Path",
    "Position",
    "Problem",
    "ReadError",
    "Span",
    "Splice",
    "Spot",
    "apply",
    "decode",
    "draw_in",
    "included_by",
    "located",
    "quoted",
    "read_beside",
    "read_file",
    "read_once",
    "read_text",
]
