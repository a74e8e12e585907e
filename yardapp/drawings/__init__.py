"""Figures in, SVG out: drawings to scale, labelled, readable in print and by a screen reader."""
