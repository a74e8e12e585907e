"""Plain sizes on a hub: what is stamped, taken apart and read. Text in, reading out; no register."""

from yardapp.stamps.plain_sizes import PlainReading, decode
from yardapp.stamps.spelling import normalise, pattern

__all__ = ["PlainReading", "decode", "normalise", "pattern"]
