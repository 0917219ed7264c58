"""What was understood of a design, as plain data, as text and as JSON."""
