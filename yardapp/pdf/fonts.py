"""The letters a document is set in: one face that holds most of the world's, and others for what it lacks."""

import re
from functools import cache
from html import escape
from itertools import groupby
from pathlib import Path

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.cidfonts import UnicodeCIDFont
from reportlab.pdfbase.ttfonts import TTFont

VENDOR = Path(__file__).parent / "vendor" / "dejavu-sans-2.37"
PLAIN, STRONG = "DejaVuSans", "DejaVuSans-Bold"
# Not carried with us: readers bring these three faces themselves.
KANA, HANGUL, HAN = "HeiseiKakuGo-W5", "HYGothic-Medium", "STSong-Light"
SCRIPTS = (
    (re.compile("[\u3040-\u30ff\u31f0-\u31ff\uff66-\uff9f]"), KANA),
    (re.compile("[\u1100-\u11ff\u3130-\u318f\uac00-\ud7af]"), HANGUL),
    (re.compile("[\u2e80-\u303f\u3400-\u9fff\uf900-\ufaff\uff00-\uffef]"), HAN),
)
UNSAYABLE = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")


@cache
def ready() -> frozenset[int]:
    """Make the faces known to the library, once; which letters our own face holds."""
    for name in (PLAIN, STRONG):
        pdfmetrics.registerFont(TTFont(name, str(VENDOR / f"{name}.ttf")))
    for name in (KANA, HANGUL, HAN):
        pdfmetrics.registerFont(UnicodeCIDFont(name))
    pdfmetrics.registerFontFamily(PLAIN, normal=PLAIN, bold=STRONG, italic=PLAIN, boldItalic=STRONG)
    return frozenset(pdfmetrics.getFont(PLAIN).face.charToGlyph)


def sayable(text: str) -> str:
    """The text without what no face can draw: control characters become spaces."""
    return UNSAYABLE.sub(" ", text.replace("\r\n", "\n").replace("\t", " "))


def face_of(letter: str) -> str:
    """The face that holds a letter; our own where none does, which then draws a box."""
    if ord(letter) in ready():
        return PLAIN
    return next((face for script, face in SCRIPTS if script.match(letter)), PLAIN)


def runs(text: str) -> list[tuple[str, str]]:
    """The text in pieces of one face: (face, piece)."""
    return [(face, "".join(letters)) for face, letters in groupby(sayable(text), face_of)]


def marked_up(text: str) -> str:
    """The text as the library's paragraphs want it: escaped, line breaks kept, each piece in its face."""
    pieces = [(face, escape(piece, quote=False).replace("\n", "<br/>")) for face, piece in runs(text)]
    return "".join(piece if face == PLAIN else f'<font name="{face}">{piece}</font>' for face, piece in pieces)
