"""The drawing itself: everything named, joined, fed and labeled once, and the papers agree."""
