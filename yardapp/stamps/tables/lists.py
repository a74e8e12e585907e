"""The codes of a list as CSV, out and in: what a spreadsheet gives when it is copied, by tab, comma or semicolon."""

import csv
import re
from collections.abc import Iterable, Iterator
from io import StringIO

from yardapp.quantities import numerals
from yardapp.stamps.tables.meanings import Also, Entry
from yardapp.stamps.tables.refusals import ExchangeRefused, Fault
from yardapp.stamps.tables.sources import Holds, Source

KNOWN = ("certainty", "said by", "said on", "document")
HOLDS = ("from", "to", "serial from", "serial to")
COLUMNS = ("code", "value", "words", *KNOWN, *HOLDS, "also")
MOST_CHARACTERS = 1 << 20
MOST_FAULTS = 50
_ALSO = re.compile(r"([a-z_]+)\s+(?:([\d.,/]+)\s*([a-z]*)|(.+))")  # what else it tells: bore 40 mm, material bronze
_NUMBER = re.compile(r"[\d\s.,/½¼¾⅛⅜⅝⅞-]+")


def entries_to_csv(entries: Iterable[Entry], *, is_brief: bool = False) -> str:
    """The list with a header, by comma; brief, without the columns in which no code says anything."""
    rows = [_row(entry) for entry in entries]
    used = [at for at in range(len(COLUMNS)) if at < 3 or not is_brief or any(row[at] != "" for row in rows)]
    written = StringIO()
    writer = csv.writer(written, lineterminator="\n")
    writer.writerow([COLUMNS[at] for at in used])
    writer.writerows([row[at] for at in used] for row in rows)
    return written.getvalue()


def entries_from_csv(text: str) -> tuple[Entry, ...]:
    """The codes of a pasted list: code, value, words; with a header, any of the columns in any order.

    Raises
    ------
    ExchangeRefused
        A line can't be read; each that can't is named.
    """
    if len(text) > MOST_CHARACTERS:
        raise ExchangeRefused((Fault(f"the list has {len(text)} characters; at most {MOST_CHARACTERS} are taken"),))
    rows = list(_rows(text))
    names: tuple[str, ...] = COLUMNS[:3]
    if rows and "code" in (header := [cell.strip().lower() for cell in rows[0][1]]):
        unknown = [name for name in header if name and name not in COLUMNS]
        if unknown:
            said = f"column `{unknown[0][:40]}` is not known; the columns are {', '.join(COLUMNS)}"
            raise ExchangeRefused((Fault(said, "", rows[0][0]),))
        names, rows = tuple(header), rows[1:]
    return _entries(rows, names)


def _row(entry: Entry) -> list[object]:
    source, holds = entry.source, entry.holds
    value = f"{entry.value:.12g}" if isinstance(entry.value, int | float) else entry.value
    known = (source.certainty, source.said_by, source.said_on, source.document)
    ranges = (holds.year_from, holds.year_to, holds.serial_from, holds.serial_to)
    also = " + ".join(_also_text(one) for one in entry.also)
    return ["" if one is None else one for one in (entry.code, value, entry.words, *known, *ranges, also)]


def _also_text(one: Also) -> str:
    value = f"{one.value:.12g}" if isinstance(one.value, int | float) else one.value
    return f"{one.tells} {value} {one.unit}".strip()


def _also(cell: str) -> tuple[Also, ...]:
    """What a code tells besides, one after the other with a + between."""
    found = []
    for text in filter(None, (part.strip() for part in cell.split("+"))):
        match = _ALSO.fullmatch(text)
        number = _number(match[2], "value") if match and match[2] else None
        if not match or (number is None and not match[4]):
            raise ValueError(f"`{text[:40]}` tells nothing; write it as bore 40 mm")
        found.append(Also(match[1], match[4], "") if number is None else Also(match[1], number, match[3]))
    return tuple(found)


def _rows(text: str) -> Iterator[tuple[int, list[str]]]:
    """Line number and cells, without empty lines."""
    lines = text.removeprefix("\ufeff").splitlines()
    for number, line in enumerate(lines, 1):
        if line.strip():
            try:
                yield number, next(csv.reader([line], delimiter=_delimiter(lines), strict=True))
            except (csv.Error, StopIteration):
                raise ExchangeRefused((Fault("a quote is opened and not closed", "", number),)) from None


def _delimiter(lines: list[str]) -> str:
    """A tab if there is one, else a semicolon: a comma may be a decimal then."""
    return next((mark for mark in "\t;" if any(mark in line for line in lines)), ",")


def _entries(rows: list[tuple[int, list[str]]], names: tuple[str, ...]) -> tuple[Entry, ...]:
    found, refused = [], []
    for number, cells in rows:
        try:
            found.append(_entry(cells, names))
        except ValueError as problem:
            refused.append(Fault(str(problem), "", number))
    if refused:
        raise ExchangeRefused(tuple(refused[:MOST_FAULTS]))
    return tuple(found)


def _entry(cells: list[str], names: tuple[str, ...]) -> Entry:
    if any(cell.strip() for cell in cells[len(names) :]):
        raise ValueError(f"there are {len(cells)} cells, and {len(names)} columns: {', '.join(names)}")
    said = {name: cell.strip() for name, cell in zip(names, cells, strict=False)}
    if not said.get("code"):
        raise ValueError("there is no code")
    certainty = _number(said.get("certainty", ""), "certainty")
    source = Source(said.get("said by", ""), said.get("said on", ""), said.get("document", ""), certainty)
    holds = Holds(
        *(_year(said.get(name, "")) for name in HOLDS[:2]), *(_serial(said.get(name, "")) for name in HOLDS[2:])
    )
    also = _also(said.get("also", ""))
    return Entry(said["code"], _value(said.get("value", "")), said.get("words", ""), also, source, holds)


def _value(cell: str) -> float | str | None:
    """A number where it is written as one, else the word."""
    if not cell or not _NUMBER.fullmatch(cell):
        return cell or None
    return _number(cell, "value")


def _number(cell: str, name: str) -> float | None:
    if not cell:
        return None
    read = numerals.whole(numerals.tidy(cell[: numerals.AT_MOST_CHARACTERS]))
    if read is None:
        raise ValueError(f"`{cell[:40]}` is no {name}")
    return float(read.number)


def _year(cell: str) -> int | None:
    if cell and not (cell.isascii() and cell.isdigit() and len(cell) == 4):
        raise ValueError(f"`{cell[:40]}` is no year")
    return int(cell) if cell else None


def _serial(cell: str) -> int | None:
    if cell and not (cell.isascii() and cell.isdigit() and len(cell) <= 15):
        raise ValueError(f"`{cell[:40]}` is no serial number")
    return int(cell) if cell else None
