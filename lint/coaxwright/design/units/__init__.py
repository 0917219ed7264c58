"""Repeated units: one typical unit, and the many that are like it, written out before the models are built.

Data in, data out: what comes after, from the models to the rules, meets the units written out and knows nothing more.
"""

from coaxwright.design.units.writing import write_out

__all__ = ["write_out"]
