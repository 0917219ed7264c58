"""Text to plain data with an exact place for every key and value."""

from coaxwright.source.document import Branch, Document, Path, Spot
from coaxwright.source.files import read_file
from coaxwright.source.limits import Limits
from coaxwright.source.place import Position, Span
from coaxwright.source.problem import Problem, ReadError
from coaxwright.source.reader import read_text
from coaxwright.source.wording import quoted

__all__ = [
    "Branch",
    "Document",
    "Limits",
    "Path",
    "Position",
    "Problem",
    "ReadError",
    "Span",
    "Spot",
    "quoted",
    "read_file",
    "read_text",
]
