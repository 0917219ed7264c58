"""Levels: what comes to outlets and amplifiers, what parts outlets, and what parts of the way let through."""
