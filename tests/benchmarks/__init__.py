"""Ratios against a floor measured in the same run. Run by hand: `python -m tests.benchmarks.register`."""
