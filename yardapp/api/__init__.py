"""JSON: a second door to the same services."""
