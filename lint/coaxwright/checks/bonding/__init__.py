"""Bonding: what has to be bonded, by which conductor, and to which electrode."""
