"""Reads a drawing back: its marks by name, and how far they reach."""

import re
from xml.etree import ElementTree

NUMBERS = re.compile(r"-?\d+(?:\.\d+)?")
SVG = "{http://www.w3.org/2000/svg}"


class Drawn:
    """One drawing, parsed; not well-formed is a failure of the test that asked."""

    def __init__(self, svg):
        self.root = ElementTree.fromstring(str(svg))

    @property
    def title(self):
        return self.root.find(f"{SVG}title").text

    @property
    def desc(self):
        return self.root.find(f"{SVG}desc").text

    @property
    def text(self):
        return " ".join(mark.text for mark in self.root.iter(f"{SVG}text"))

    @property
    def ids(self):
        return [mark.get("id") for mark in self.root.iter() if mark.get("id")]

    def named(self, name):
        return [mark for mark in self.root.iter() if mark.get("data-name") == name]

    def corners(self, name, which=0):
        """Corners of a straight-lined path."""
        figures = [float(number) for number in NUMBERS.findall(self.named(name)[which].get("d"))]
        return list(zip(figures[::2], figures[1::2], strict=True))

    def radius(self, name):
        return float(self.named(name)[0].get("r"))

    def long(self, name):
        """Length of a straight dimension line."""
        (x1, y1), (x2, y2) = self.corners(name)
        return ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5
