"""Routes of cables: what is beside them, what shares their raceway, and how they are hung, bent, buried and sealed."""
