"""Published figures, read once from `tables/*.csv` and never written."""

import csv
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from types import MappingProxyType

Row = Mapping[str, str]


@cache
def table(name: str) -> tuple[Row, ...]:
    """All rows of one table, as text, in the file's order.

    Parameters
    ----------
    name : str
        The file's name without `.csv`.

    Returns
    -------
    rows : tuple of mappings
        Column name to text; read-only.

    Raises
    ------
    FileNotFoundError
        There is no such table.

    Source
    ------
    Each row's own `source` and `status` columns.

    Examples
    --------
    >>> table("shaft_tapers")[0]["standard"]
    'SAE J755'
    """
    text = files("yardapp.formulas").joinpath("tables", f"{name}.csv").read_text(encoding="utf-8")
    return tuple(MappingProxyType(row) for row in csv.DictReader(text.splitlines()))


def figure(row: Row, column: str) -> float:
    """One cell as a number.

    Parameters
    ----------
    row : mapping
        A row of `table`.
    column : str
        Name of the column.

    Returns
    -------
    figure : float
        In the column's own unit; NaN where the cell is empty.

    Raises
    ------
    ValueError
        The cell holds words.

    Source
    ------
    The row's own `source` and `status` columns.

    Examples
    --------
    >>> figure(table("shaft_tapers")[0], "nominal_in")
    0.75
    """
    return float(row[column] or "nan")
