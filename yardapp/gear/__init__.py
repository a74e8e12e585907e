"""Propellers, shafts and what is known about each: evidence, events, photos, search."""
