"""Our own drawings on paper: the few SVG elements that `drawings.sheet` writes, drawn with its line weights."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TypeVar
from xml.etree import ElementTree

from reportlab.lib.colors import HexColor, black, white
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import Flowable

from yardapp.pdf.course import Course, arrow_heads, course_of
from yardapp.pdf.fonts import runs

SVG = "{http://www.w3.org/2000/svg}"
SHAFT, HATCH = HexColor("#e6e6e6"), HexColor("#bbbbbb")
# As static/css/parts/drawing.css and the colours of print.css: what a class paints and how wide it draws.
FILLS: dict[str, object] = {
    "fillpaper": white,
    "fillshaft": SHAFT,
    "fillink": black,
    "hatch": HATCH,
    "gap": white,
    "window": white,
    "region": white,
    "region-hatch": SHAFT,
}
WEIGHTS: dict[str, float] = {"line": 1.8, "thin": 0.9, "gap": 0.9, "now": 3.0, "heavy": 5.0}
DASHES: dict[str, tuple[float, ...]] = {"dash": (7, 4), "dot": (1.5, 3), "chain": (12, 3, 2, 3), "gap": (3, 2)}
T = TypeVar("T")
ANCHORS = {"start": 0.0, "middle": 0.5, "end": 1.0}


class Drawn(Flowable):
    """A drawing as large as the room given lets it be; its words stay words."""

    def __init__(self, svg: str, width: float, height: float) -> None:
        super().__init__()
        self._root = ElementTree.fromstring(svg)
        self._left, self._top, wide, self._high = (float(one) for one in self._root.attrib["viewBox"].split())
        self._scale = min(width / wide, height / self._high)
        self.width, self.height = wide * self._scale, self._high * self._scale

    def draw(self) -> None:
        """Draw it, y downward as SVG has it."""
        self.canv.saveState()
        self.canv.scale(self._scale, -self._scale)
        self.canv.translate(-self._left, -self._top - self._high)
        for element in _marks(self._root):
            _put(self.canv, element)
        self.canv.restoreState()


def _marks(element: ElementTree.Element) -> Iterator[ElementTree.Element]:
    """What is drawn, in order: what only explains or defines is left out."""
    for child in element:
        if child.tag in (f"{SVG}a", f"{SVG}g"):
            yield from _marks(child)
        elif child.tag in (f"{SVG}path", f"{SVG}circle", f"{SVG}text"):
            yield child


def _put(canvas: Canvas, element: ElementTree.Element) -> None:
    if element.tag == f"{SVG}text":
        _write(canvas, element)
        return
    drawn = _Drawn.of(element.attrib.get("class", "line").split())
    canvas.saveState()
    drawn.set_on(canvas)
    if element.tag == f"{SVG}circle":
        x, y, radius = (float(element.attrib[name]) for name in ("cx", "cy", "r"))
        canvas.circle(x, y, radius, stroke=drawn.is_stroked, fill=drawn.is_filled)
    else:
        _follow(canvas, element, drawn)
    canvas.restoreState()


@dataclass(frozen=True)
class _Drawn:
    """How one mark is painted."""

    weight: float
    fill: object | None
    dash: tuple[float, ...]

    @classmethod
    def of(cls, classes: list[str]) -> "_Drawn":
        """From its classes; the last that speaks of a thing decides, as in the stylesheet."""
        fill = None if "none" in classes or "touch" in classes else _last(FILLS, classes)
        dash = _last(DASHES, classes)
        return cls(weight=_last(WEIGHTS, classes) or 0.0, fill=fill, dash=dash or ())

    @property
    def is_stroked(self) -> int:
        return int(self.weight > 0)

    @property
    def is_filled(self) -> int:
        return int(self.fill is not None)

    def set_on(self, canvas: Canvas) -> None:
        """Ready the canvas."""
        canvas.setStrokeColor(black)
        canvas.setLineWidth(self.weight)
        canvas.setLineJoin(1)
        canvas.setDash(*((list(self.dash), 0) if self.dash else ((), 0)))
        if self.fill is not None:
            canvas.setFillColor(self.fill)


def _last(table: dict[str, T], classes: list[str]) -> T | None:
    said = [one for name, one in table.items() if name in classes]
    return said[-1] if said else None


def _follow(canvas: Canvas, element: ElementTree.Element, drawn: _Drawn) -> None:
    """One path, and the arrows at its ends."""
    course = course_of(element.attrib["d"])
    canvas.drawPath(_path(canvas, course), stroke=drawn.is_stroked, fill=drawn.is_filled)
    canvas.setFillColor(black)
    canvas.setDash((), 0)
    at_start, at_end = "marker-start" in element.attrib, "marker-end" in element.attrib
    for head in arrow_heads(course, at_start=at_start, at_end=at_end):
        canvas.drawPath(_path(canvas, [(head, True)]), stroke=0, fill=1)


def _path(canvas: Canvas, course: Course) -> object:
    path = canvas.beginPath()
    for corners, is_closed in course:
        path.moveTo(*corners[0])
        for corner in corners[1:]:
            path.lineTo(*corner)
        if is_closed:
            path.close()
    return path


def _write(canvas: Canvas, element: ElementTree.Element) -> None:
    """A label, turned about its own place; paper shows through round it where lines would cross it."""
    classes, text = element.attrib["class"].split(), "".join(element.itertext())
    size = 16 if "big" in classes else 14
    canvas.saveState()
    canvas.translate(float(element.attrib["x"]), float(element.attrib["y"]))
    if turned := element.attrib.get("transform", ""):
        canvas.rotate(float(turned.removeprefix("rotate(").split()[0]))
    canvas.scale(1, -1)
    wide = sum(canvas.stringWidth(piece, face, size) for face, piece in runs(text))
    start = -ANCHORS[element.attrib.get("text-anchor", "start")] * wide
    if "halo" in classes:
        canvas.setStrokeColor(white)
        canvas.setLineWidth(5)
        _text(canvas, text, start, size, mode=1)
    canvas.setFillColor(black)
    _text(canvas, text, start, size, mode=0)
    canvas.restoreState()


def _text(canvas: Canvas, text: str, start: float, size: int, *, mode: int) -> None:
    written = canvas.beginText(start, 0)
    written.setTextRenderMode(mode)
    for face, piece in runs(text):
        written.setFont(face, size)
        written.textOut(piece)
    written.setTextRenderMode(0)
    canvas.drawText(written)
