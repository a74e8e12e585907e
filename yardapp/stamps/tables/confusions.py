"""Characters that are taken for one another on worn metal: 0/O, 1/I/L, 5/S, 8/B, 6/G, 2/Z."""

ALIKE = ("0O", "1IL", "5S", "8B", "6G", "2Z")
MOST_CONFUSED = 2  # a reading that assumes more than this is no reading

LOOKS_LIKE = {mark: group.replace(mark, "") for group in ALIKE for mark in group}
_FOLD = str.maketrans({mark: group[0] for group in ALIKE for mark in group})


def fold(text: str) -> str:
    """The text with every character that may be confused as the first of its group.

    >>> fold("HB56O-SIL")
    'H8560-511'
    """
    return text.translate(_FOLD)


def confused(seen: str, read: str) -> tuple[str, ...]:
    """What was assumed to read one text where another of the same length was seen.

    >>> confused("HP56O", "HP560")
    ('O read as 0',)
    """
    return tuple(f"{one} read as {other}" for one, other in zip(seen, read, strict=True) if one != other)
