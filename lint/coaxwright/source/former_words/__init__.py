"""Former words of the formats: values and keys that were written otherwise, and are read for ever.

A file in former words means what it says in the present ones. Its data is brought up to them once, when it is
understood; its text, and where each part of it stands, stay the author's. ``coaxwright renew`` rewrites the text.
"""

from coaxwright.source.former_words.finding import Former, find, with_present_words
from coaxwright.source.former_words.places import ANY, Branching, Place
from coaxwright.source.former_words.tables import (
    CATALOGUE_WORDS,
    DESIGN_PLACES,
    DESIGN_WORDS,
    FORMER_KEYS,
    RULESET_VALUES,
    RULESET_WORDS,
)

__all__ = [
    "ANY",
    "CATALOGUE_WORDS",
    "DESIGN_PLACES",
    "DESIGN_WORDS",
    "FORMER_KEYS",
    "RULESET_VALUES",
    "RULESET_WORDS",
    "Branching",
    "Former",
    "Place",
    "find",
    "with_present_words",
]
