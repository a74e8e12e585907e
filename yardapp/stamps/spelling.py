"""One spelling for stamps that mean the same, so that a part of one finds the whole."""

import re

from yardapp.quantities import numerals

AT_MOST_CHARACTERS = 80

_DOT_OF_LETTER = re.compile(r"(?<=[A-Z])\.")
_QUOTE_OR_DOT = re.compile(r"[\"']|(?<!\d)\.|\.(?!\d)", re.ASCII)
_ROUND_TIMES = re.compile(r"(?<=[\d?/])\s*[X×*]\s*(?=[\d?])", re.ASCII)
_SPACE = re.compile(r"(?<![\d?]) | (?![\d?])", re.ASCII)
_LIKE = str.maketrans({"\\": r"\\", "%": r"\%", "_": r"\_", "?": "_"})


def normalise(text: str) -> str:
    """Upper case; no quotes, no dots after letters, × as X, and spaces only between figures.

    >>> normalise('22" x 18" r.h.')
    '22X18RH'
    """
    plain = _QUOTE_OR_DOT.sub(" ", _DOT_OF_LETTER.sub("", numerals.tidy(text[:AT_MOST_CHARACTERS]).upper()))
    plain = _ROUND_TIMES.sub("X", " ".join(plain.split()))
    return _SPACE.sub("", plain)[:AT_MOST_CHARACTERS].strip()


def pattern(text: str) -> str:
    r"""For LIKE over normalised stamps, with `escape="\\"`; `?` stands for one character.

    >>> pattern("22 x ?8")
    '%22X_8%'
    """
    return f"%{normalise(text).translate(_LIKE)}%"
