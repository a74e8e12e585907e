"""Bench sheets: readings in, sizes with an honest ± out."""
