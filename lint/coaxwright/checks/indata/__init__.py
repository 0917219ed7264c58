"""In-home data over coax: it stays in the house, and its stations hear one another."""
