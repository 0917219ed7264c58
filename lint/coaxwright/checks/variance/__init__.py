"""The exceptions that a design records: named right, in force, needed, and there once.

These rules are judged last and read what the others found; no variance can be granted from them.
"""
