"""Antennas: where they may stand, and what cellular boosters ask of theirs."""
