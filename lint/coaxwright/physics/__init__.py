"""Pure functions of the trade's physics; imports nothing of the project."""
