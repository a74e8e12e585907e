"""Does this go on that: checks, verdicts, matching both ways."""
