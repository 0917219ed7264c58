"""The class of a cable, what it is made of, and how good it still is."""
