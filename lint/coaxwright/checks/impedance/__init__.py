"""One impedance from end to end."""
