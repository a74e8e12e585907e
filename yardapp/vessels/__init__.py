"""Boats, their names over the years, and their drives."""
