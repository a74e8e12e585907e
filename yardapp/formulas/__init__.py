"""Numbers in, numbers out: SI floats or arrays, every relation with its range and its source."""
