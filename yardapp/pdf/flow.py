"""Each part as what the library lets flow down a page."""

from functools import singledispatch
from typing import Any

from reportlab.lib.colors import black, grey, lightgrey
from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.platypus import Flowable, KeepTogether, Paragraph, Spacer
from reportlab.platypus import Table as Grid

from yardapp.pdf.fonts import PLAIN, STRONG, marked_up, sayable
from yardapp.pdf.parts import Figures, Heading, Part, Picture, Row, Table, Tick, Words
from yardapp.pdf.picture import Drawn

SIZE, LEAD = 10, 13.5


def _style(name: str, **said: Any) -> ParagraphStyle:
    base = {"fontName": PLAIN, "fontSize": SIZE, "leading": LEAD, "spaceAfter": 5, "splitLongWords": 1}
    return ParagraphStyle(name, **(base | said))


STYLES = {
    "title": _style("title", fontName=STRONG, fontSize=17, leading=21, spaceAfter=9),
    "heading": _style("heading", fontName=STRONG, fontSize=12, leading=16, spaceBefore=9, spaceAfter=4, keepWithNext=1),
    "words": _style("words"),
    "strong": _style("strong", fontName=STRONG),
    "small": _style("small", fontSize=8.5, leading=11.5),
    "cell": _style("cell", fontSize=9, leading=12, spaceAfter=0),
    "head": _style("head", fontName=STRONG, fontSize=9, leading=12, spaceAfter=0),
}
RULED = [
    ("VALIGN", (0, 0), (-1, -1), "TOP"),
    ("LEFTPADDING", (0, 0), (-1, -1), 2),
    ("RIGHTPADDING", (0, 0), (-1, -1), 6),
    ("TOPPADDING", (0, 0), (-1, -1), 2.5),
    ("BOTTOMPADDING", (0, 0), (-1, -1), 3),
    ("LINEBELOW", (0, 0), (-1, -1), 0.4, lightgrey),
]
HEADED = [*RULED, ("LINEBELOW", (0, 0), (-1, 0), 0.9, black)]


def paragraph(text: str, style: ParagraphStyle) -> Paragraph:
    """Words in one style; nothing in them is taken for markup."""
    return Paragraph(marked_up(text), style)


@singledispatch
def flowed(part: Part, width: float, height: float) -> list[Flowable]:
    """A part as flowables for a column of this width and height."""
    raise TypeError(f"no part of a document: {part!r}")


@flowed.register
def _heading(part: Heading, width: float, height: float) -> list[Flowable]:
    return [paragraph(part.text, STYLES["heading"])]


@flowed.register
def _words(part: Words, width: float, height: float) -> list[Flowable]:
    name = "small" if part.is_small else "strong" if part.is_strong else "words"
    return [paragraph(part.text, STYLES[name])]


@flowed.register
def _figures(part: Figures, width: float, height: float) -> list[Flowable]:
    if not part.rows:
        return []
    return [_grid(part.rows, _shares(part.rows, width), RULED, repeats=0), Spacer(1, 6)]


@flowed.register
def _table(part: Table, width: float, height: float) -> list[Flowable]:
    rows = (part.head, *part.rows)
    return [_grid(rows, _shares(rows, width), HEADED, repeats=1), Spacer(1, 6)]


@flowed.register
def _tick(part: Tick, width: float, height: float) -> list[Flowable]:
    said = paragraph(part.label, STYLES["cell"])
    told = [said, paragraph(part.note, STYLES["small"])] if part.note else said
    row = [_Box(is_ticked=part.is_ticked), told, paragraph(part.value, STYLES["cell"])]
    return [Grid([row], [16, (width - 16) * 0.68, (width - 16) * 0.32], style=RULED, splitInRow=1)]


@flowed.register
def _picture(part: Picture, width: float, height: float) -> list[Flowable]:
    drawn = Drawn(part.svg, width * min(max(part.wide, 0.05), 1), height * 0.85)
    told = [paragraph(part.caption, STYLES["small"])] if part.caption else []
    return [KeepTogether([drawn, *told, Spacer(1, 6)])]


def _grid(rows: tuple[Row, ...], widths: list[float], ruled: list[Any], *, repeats: int) -> Grid:
    styles = [STYLES["head"] if number < repeats else STYLES["cell"] for number in range(len(rows))]
    cells = [[paragraph(text, style) for text in row] for row, style in zip(rows, styles, strict=True)]
    return Grid(cells, widths, style=ruled, repeatRows=repeats, splitInRow=1, hAlign="LEFT")


def _shares(rows: tuple[Row, ...], width: float) -> list[float]:
    """Column widths: as wide as the longest line asks for, and shared out where that is more than there is."""
    asked = [min(max(_wide(text) for text in column), width * 0.7) for column in zip(*rows, strict=True)]
    if sum(asked) <= width:
        return asked
    floor = width / len(asked) * 0.3
    spare = width - floor * len(asked)
    return [floor + spare * one / sum(asked) for one in asked]


def _wide(text: str) -> float:
    return max((stringWidth(line, STRONG, 9) for line in sayable(text).split("\n")), default=0.0) + 10.0


class _Box(Flowable):
    """A box to tick with a pen, or ticked already."""

    def __init__(self, *, is_ticked: bool) -> None:
        super().__init__()
        self.width, self.height, self._is_ticked = 9.0, 10.0, is_ticked

    def draw(self) -> None:
        """Draw it."""
        self.canv.setStrokeColor(black if self._is_ticked else grey)
        self.canv.setLineWidth(0.9)
        self.canv.rect(0.5, 0, 9, 9)
        if self._is_ticked:
            self.canv.lines([(2, 4.5, 4.2, 2), (4.2, 2, 8.2, 8)])
