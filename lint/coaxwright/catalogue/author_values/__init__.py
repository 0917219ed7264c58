"""Entries of a design's own and of a firm's files: data sheets in the words of the catalogue, often ``like`` another.

What is not written is taken from the entry that it is like. Every figure that is written has the one source that the
entry names, and is the author's own word: its confidence says so wherever it is shown.
"""

from coaxwright.catalogue.author_values.entries import HEADER
from coaxwright.catalogue.author_values.filling import STATED
from coaxwright.catalogue.author_values.merging import with_own

__all__ = ["HEADER", "STATED", "with_own"]
