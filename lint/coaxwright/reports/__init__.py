"""One module per output form; each is a view of the same ``Review``."""
