"""Labels on paper that is cut already: each exactly in its place, code at the left, the tag as large as it goes."""

from collections.abc import Sequence
from io import BytesIO
from itertools import groupby

from reportlab.lib.units import mm
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.pdfgen.canvas import Canvas

from yardapp.pdf.fonts import STRONG, ready, runs, sayable
from yardapp.pdf.label import Label

METRE = 1000 * mm
EDGE = 1.5 * mm
QUIET = 4  # modules of white that a code needs round it
SHARE = 0.42  # of the label's width, at most, for the code
TAG_SHARE = 0.45  # of the label's height, at most, for the tag
LINE = 7.0
SMALLEST = 4.5
LEADING = 1.25


def printed(
    title: str, page_m: tuple[float, float], size_m: tuple[float, float], labels: Sequence[Label], *, is_packed: bool
) -> bytes:
    """Pages of labels, each `size_m` large; the same labels give the same bytes."""
    ready()
    held = BytesIO()
    wide, high = (METRE * side for side in page_m)
    canvas = Canvas(held, pagesize=(wide, high), pageCompression=int(is_packed), invariant=1, lang="en")
    canvas.setTitle(sayable(title))
    canvas.setCreator("yardapp")
    for _page, on_it in groupby(labels, lambda label: label.page):
        for label in on_it:
            canvas.saveState()
            canvas.translate(METRE * label.left_m, high - METRE * (label.top_m + size_m[1]))
            _draw(canvas, label, METRE * size_m[0], METRE * size_m[1])
            canvas.restoreState()
        canvas.showPage()
    canvas.save()
    return held.getvalue()


def _draw(canvas: Canvas, label: Label, wide: float, high: float) -> None:
    side = min(high - 2 * EDGE, SHARE * wide)
    _code(canvas, label.code, EDGE, (high - side) / 2, side)
    left = EDGE + side + 0.5 * mm
    room = wide - left - EDGE
    size = min(TAG_SHARE * high, room / stringWidth(label.tag, STRONG, 1))
    fitting = int((high - 2 * EDGE - size) / (LEADING * LINE))
    lines = label.lines[: max(fitting, 0)]
    top = (high + size * 0.8 + len(lines) * LEADING * LINE) / 2
    canvas.setFont(STRONG, size)
    canvas.drawString(left, top - 0.8 * size, label.tag)
    for number, line in enumerate(lines, 1):
        _line(canvas, line, left, top - 0.8 * size - 0.3 * LINE - number * LEADING * LINE + 0.2 * LINE, room)


def _line(canvas: Canvas, text: str, left: float, at: float, room: float) -> None:
    """One small line, smaller where the label is narrow; half an address leads nowhere: what can't fit is left out."""
    pieces = runs(text)
    size = min(LINE, LINE * room / max(sum(stringWidth(piece, face, LINE) for face, piece in pieces), 1.0))
    if size < SMALLEST:
        return
    for face, piece in pieces:
        canvas.setFont(face, size)
        canvas.drawString(left, at, piece)
        left += stringWidth(piece, face, size)


def _code(canvas: Canvas, code: Sequence[Sequence[bool]], left: float, low: float, side: float) -> None:
    """The code with its white border; neighbours in a row are one bar, so that no hairline parts them."""
    one = side / (len(code) + 2 * QUIET)
    for number, row in enumerate(code):
        at = low + side - (QUIET + number + 1) * one
        start = 0
        for is_dark, squares in groupby(row):
            count = len(list(squares))
            if is_dark:
                canvas.rect(left + (QUIET + start) * one, at, count * one, one, stroke=0, fill=1)
            start += count
