"""Small pieces of language that several checks put into their values."""

from __future__ import annotations

from coaxwright.design import sentences
from coaxwright.design.quantities import in_system as in_system
from coaxwright.design.sentences import LONGEST_LIST as LONGEST_LIST
from coaxwright.design.sentences import article as article
from coaxwright.design.sentences import count as count
from coaxwright.design.sentences import decibels as decibels
from coaxwright.design.sentences import frequency as frequency
from coaxwright.design.sentences import in_series as in_series
from coaxwright.design.sentences import level_number as level_number
from coaxwright.design.sentences import level_text as level_text
from coaxwright.design.sentences import level_unit as level_unit
from coaxwright.design.sentences import listed as listed
from coaxwright.design.sentences import ohms as ohms

length_text = sentences.length_apart
several = sentences.plural
