"""Small commented designs to begin with."""

from coaxwright.starters.site import Dwelling, Incoming, Units, starter

__all__ = ["Dwelling", "Incoming", "Units", "starter"]
