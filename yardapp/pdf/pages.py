"""Parts bound into pages: one column on A4, a foot line, and numbers that know how many pages there are."""

from collections.abc import Sequence
from io import BytesIO
from typing import Any

from reportlab.lib.pagesizes import A4
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import BaseDocTemplate, Frame, PageTemplate

from yardapp.pdf.flow import STYLES, flowed, paragraph
from yardapp.pdf.fonts import PLAIN, ready, runs, sayable
from yardapp.pdf.parts import Part

WIDTH, HEIGHT = A4
MARGIN = 18 * mm
FOOT_AT = 11 * mm
FOOT_SIZE = 8


def bound(title: str, parts: Sequence[Part], *, foot: str, is_packed: bool) -> bytes:
    """The document as a file; unpacked, its pages can be read with a plain eye."""
    ready()
    held = BytesIO()
    frame = Frame(MARGIN, MARGIN, WIDTH - 2 * MARGIN, HEIGHT - 2 * MARGIN, 0, 0, 0, 0)
    template = BaseDocTemplate(
        held,
        pagesize=A4,
        title=sayable(title),
        author="",
        creator="yardapp",
        pageCompression=int(is_packed),
        invariant=1,
        lang="en",
    )
    template.addPageTemplates([PageTemplate(frames=[frame])])
    story = [paragraph(title, STYLES["title"])]
    for part in parts:
        story += flowed(part, frame.width, frame.height)
    template.build(story, canvasmaker=_numbering(foot))
    return held.getvalue()


def _numbering(foot: str) -> type[Canvas]:
    """A canvas that holds its pages back until it knows how many there are."""

    class Numbered(Canvas):
        """Pages kept until the last is drawn."""

        def __init__(self, *args: Any, **said: Any) -> None:
            super().__init__(*args, **said)
            self._pages: list[dict[str, Any]] = []

        def showPage(self) -> None:  # noqa: N802 - the library's name
            """Put the page by."""
            self._pages.append(dict(self.__dict__))
            self._startPage()

        def save(self) -> None:
            """Number each page, then write them."""
            for number, held in enumerate(self._pages, 1):
                self.__dict__.update(held)
                _foot_line(self, foot, f"Page {number} of {len(self._pages)}")
                super().showPage()
            super().save()

    return Numbered


def _foot_line(canvas: Canvas, foot: str, number: str) -> None:
    canvas.setFont(PLAIN, FOOT_SIZE)
    canvas.drawRightString(WIDTH - MARGIN, FOOT_AT, number)
    room = WIDTH - 2 * MARGIN - canvas.stringWidth(number, PLAIN, FOOT_SIZE) - 6 * mm
    written = canvas.beginText(MARGIN, FOOT_AT)
    size = min(FOOT_SIZE, FOOT_SIZE * room / max(_wide(canvas, foot), 1))
    for face, piece in runs(foot.replace("\n", " ")):
        written.setFont(face, size)
        written.textOut(piece)
    canvas.drawText(written)


def _wide(canvas: Canvas, text: str) -> float:
    return float(sum(canvas.stringWidth(piece, face, FOOT_SIZE) for face, piece in runs(text)))
