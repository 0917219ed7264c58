"""Jackets of cables: against sun and water, in a fire, and where they carry a span."""
