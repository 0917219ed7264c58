"""The way back: what answers over the coax is let through, and reaches the level that is wanted where it is heard."""
