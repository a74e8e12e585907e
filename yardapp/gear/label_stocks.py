"""Label papers by their sizes: A4 and Letter sheets, and single labels off a roll. No database here."""

from dataclasses import dataclass

A4_M = (0.210, 0.297)
INCH_M = 0.0254
LETTER_M = (8.5 * INCH_M, 11 * INCH_M)


@dataclass(frozen=True)
class Place:
    """Where one label lies: which page, and its left and top edge on it."""

    page: int
    left_m: float
    top_m: float


@dataclass(frozen=True)
class Stock:
    """One paper: so many columns and rows of labels of one size, `across_m` and `down_m` from one to the next."""

    columns: int
    rows: int
    width_m: float
    height_m: float
    across_m: float
    down_m: float
    page_m: tuple[float, float] = A4_M

    @property
    def count(self) -> int:
        """Labels on a page."""
        return self.columns * self.rows

    @property
    def is_roll(self) -> bool:
        """Whether each label is a page of its own."""
        return self.count == 1

    @property
    def label(self) -> str:
        """`24 an A4 sheet: 3 × 8 of 63.5 × 33.9 mm`."""
        if self.is_roll:
            return f"Roll, {self._size}"
        sheet = "an A4 sheet" if self.page_m == A4_M else "a Letter sheet"
        return f"{self.count} {sheet}: {self.columns} × {self.rows} of {self._size}"

    @property
    def _size(self) -> str:
        if self.page_m == LETTER_M:
            return f"{self.width_m / INCH_M:g} × {self.height_m / INCH_M:g} in"
        return f"{1000 * self.width_m:g} × {1000 * self.height_m:g} mm"

    def place(self, number: int, *, start: int = 1) -> Place:
        """Where label `number` (from 0) lies when the first one goes to position `start` of a part-used sheet."""
        page, at = divmod(number + (1 if self.is_roll else start) - 1, self.count)
        row, column = divmod(at, self.columns)
        # The papers are cut so that the margins left and right, and above and below, are alike.
        left_m = (self.page_m[0] - (self.columns - 1) * self.across_m - self.width_m) / 2
        top_m = (self.page_m[1] - (self.rows - 1) * self.down_m - self.height_m) / 2
        return Place(page, left_m + column * self.across_m, top_m + row * self.down_m)


def _sheet(columns: int, rows: int, size_mm: tuple[float, float], apart_mm: tuple[float, float]) -> Stock:
    width_m, height_m, across_m, down_m = (0.001 * one for one in (*size_mm, *apart_mm))
    return Stock(columns, rows, width_m, height_m, across_m, down_m)


def _letter(columns: int, rows: int, size_in: tuple[float, float], apart_in: tuple[float, float]) -> Stock:
    width_m, height_m, across_m, down_m = (INCH_M * one for one in (*size_in, *apart_in))
    return Stock(columns, rows, width_m, height_m, across_m, down_m, page_m=LETTER_M)


def _roll(width_mm: float, height_mm: float) -> Stock:
    size = (0.001 * width_mm, 0.001 * height_mm)
    return Stock(1, 1, *size, *size, page_m=size)


# As the trade cuts sheets: sizes and steps of common ones in millimetres, of Letter in inches; margins follow.
STOCKS = {
    "24": _sheet(3, 8, (63.5, 33.9), (66.0, 33.9)),
    "24-edge": _sheet(3, 8, (70.0, 37.0), (70.0, 37.0)),
    "21": _sheet(3, 7, (63.5, 38.1), (66.0, 38.1)),
    "40": _sheet(4, 10, (52.5, 29.7), (52.5, 29.7)),
    "65": _sheet(5, 13, (38.1, 21.2), (40.6, 21.2)),
    "14": _sheet(2, 7, (99.1, 38.1), (101.6, 38.1)),
    "8": _sheet(2, 4, (99.1, 67.7), (101.6, 67.7)),
    "letter-30": _letter(3, 10, (2.625, 1.0), (2.75, 1.0)),
    "letter-20": _letter(2, 10, (4.0, 1.0), (4.1875, 1.0)),
    "letter-10": _letter(2, 5, (4.0, 2.0), (4.1875, 2.0)),
    "roll-62": _roll(62.0, 29.0),
    "roll-50": _roll(50.0, 30.0),
    "roll-89": _roll(89.0, 36.0),
}
