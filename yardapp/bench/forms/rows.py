"""Boxes in rows: one figure at each blade, place or station."""

from collections.abc import Iterable, Mapping
from typing import Any, ClassVar

from yardapp.bench.forms.boxes import BenchForm
from yardapp.bench.rows import row_name


class RowsForm(BenchForm):
    """A sheet with rows. `ROWS` names each figure that has them; `rows` is how many a page shows."""

    ROWS: ClassVar[dict[str, str]] = {}  # each figure, and what its boxes are called together
    EACH: ClassVar[str] = "blade"
    MOST: ClassVar[int] = 7
    FEWEST: ClassVar[int] = 3

    @property
    def rows(self) -> int:
        """How many rows are open: all that hold something, and at least so many."""
        filled = [number for name in self.ROWS for number in range(1, self.MOST + 1) if self._holds(name, number)]
        return max([self.FEWEST, *filled])

    def _holds(self, name: str, number: int) -> bool:
        field = self[row_name(name, number)]
        return bool(field.typed or field.errors or field.data is not None)

    def groups(self) -> tuple[list[int], list[int]]:
        """The numbers of the rows that are open, and of those that fold away."""
        return list(range(1, self.rows + 1)), list(range(self.rows + 1, self.MOST + 1))

    def row(self, number: int) -> list[Any]:
        """All boxes of one row: what it is called, where it has a name of its own, then its figures."""
        named = [self[f"{self.EACH}_{number}"]] if f"{self.EACH}_{number}" in self else []
        return [*named, *(self[row_name(name, number)] for name in self.ROWS)]

    def boxes_of(self, name: str, rows: int | None = None) -> list[Any]:
        """The boxes of one figure that are open."""
        return [self[row_name(name, number)] for number in range(1, max(rows or 0, self.rows) + 1)]


def add_rows(form: type[RowsForm], boxes: Mapping[str, Any]) -> None:
    """Give a form its rows; `boxes` makes the box of one figure from its label."""
    for name, made in boxes.items():
        for number in range(1, form.MOST + 1):
            label = f"{form.ROWS[name]}, {form.EACH} {number}"
            setattr(form, row_name(name, number), made(label))


def tools_of(names: Mapping[str, str], most: int) -> dict[str, str]:
    """Which tool box speaks for each row of each figure."""
    return {row_name(name, number): tool for name, tool in names.items() for number in range(1, most + 1)}


def own_of(names: Iterable[str], most: int) -> dict[str, str]:
    """Each row's own ± stands in one box for all rows of its figure."""
    return {row_name(name, number): name for name in names for number in range(1, most + 1)}
