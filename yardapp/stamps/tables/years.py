"""Whether a mark's own year and serial number lie within what its table, or a code of it, holds for."""

from collections.abc import Iterator

from yardapp.stamps.tables.table import Table
from yardapp.stamps.tables.told import Option


def outside(table: Table, told: Option, known_year: int | None) -> tuple[str, ...]:
    """What lies outside, sentence by sentence."""
    year = next((one.value for one in told if one.tells == "year" and isinstance(one.value, int)), known_year)
    serial = next((int(one.text) for one in told if one.tells == "serial" and _is_number(one.text)), None)
    return tuple(_outside(table, told, year, serial))


def _is_number(text: str) -> bool:
    return text.isascii() and text.isdigit()


def _outside(table: Table, told: Option, year: int | None, serial: int | None) -> Iterator[str]:
    said = " and ".join(part for part in (f"of {year}" if year else "", f"serial {serial}" if serial else "") if part)
    if table.holds.leaves_out(year, serial):
        yield f"the table holds {table.holds.words}; this one is {said}"
    for one in told:
        for holds in one.holds:
            if holds.leaves_out(year, serial):
                yield f"this meaning of `{one.text}` at place {one.place + 1} holds {holds.words}; this one is {said}"
