"""Satellite IF beyond its levels: what each input of a switch gets, and a user band for each receiver."""
