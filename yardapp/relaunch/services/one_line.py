"""One line of a list: changed, added, dropped, moved. Who changes another line meanwhile is in nobody's way."""

from dataclasses import replace

from sqlalchemy.orm import Session

from yardapp.errors import NotFound, Refused, Superseded
from yardapp.people.services import Who
from yardapp.relaunch.lines import Line, moved, put, without
from yardapp.relaunch.services.lists import ListNow, keep_lines, list_for_change, list_versions

TOLD = ("words", "plain", "part", "by", "unit", "signer", "after")


def change_line(session: Session, who: Who, name: str, number: int, line: Line, *, why: str = "") -> ListNow:
    """Change one line of a list, as it was read in version `number`.

    Raises
    ------
    NotAllowed
        Only yard hands and the office change lists.
    NotFound
        There is no such list or line.
    Superseded
        Somebody changed this very line since.
    Refused
        The line makes no sense, or it is the nut's lock and made less than a stop.
    """
    row, before = list_for_change(session, who, name)
    there = _line(before, line.key)
    if before.number != number and there != line and there != _as_read(session, who, name, number, line.key):
        theirs = {one: str(getattr(there, one)) for one in TOLD}
        raise Superseded(before.number, theirs, before.said_by or "Somebody")
    return keep_lines(session, who, name, row, put(before.lines, line), why or f"changed: {line.words}")


def _line(one: ListNow, key: str) -> Line:
    line = one.line(key)
    if line is None:
        raise NotFound("That line is not on the list.")
    return line


def _as_read(session: Session, who: Who, name: str, number: int, key: str) -> Line | None:
    read = next((one for one in list_versions(session, who, name) if one.number == number), None)
    return read.line(key) if read is not None else None


def add_line(session: Session, who: Who, name: str, line: Line, *, why: str = "") -> ListNow:
    """Add a line at the end of its part.

    Raises
    ------
    NotAllowed, NotFound, Refused
        As `change_line` does.
    """
    row, before = list_for_change(session, who, name)
    taken, key = {one.key for one in before.lines}, line.key
    count = 2
    while key in taken:
        key, count = f"{line.key[:36]}_{count}", count + 1
    return keep_lines(session, who, name, row, put(before.lines, replace(line, key=key)), why or f"added: {line.words}")


def drop_line(session: Session, who: Who, name: str, key: str) -> ListNow:
    """Ask a line no more of launches planned from here on.

    Raises
    ------
    NotAllowed, NotFound
        As `change_line` does.
    Refused
        It is the nut's lock.
    """
    row, before = list_for_change(session, who, name)
    line = _line(before, key)
    if line.is_lock:
        raise Refused("The nut's lock is always asked: that line can't be dropped.")
    return keep_lines(session, who, name, row, without(before.lines, key), f"dropped: {line.words}")


def move_line(session: Session, who: Who, name: str, key: str, by: int) -> ListNow:
    """Move a line one place up (-1) or down (1) within its part.

    Raises
    ------
    NotAllowed, NotFound
        As `change_line` does.
    """
    row, before = list_for_change(session, who, name)
    line = _line(before, key)
    return keep_lines(session, who, name, row, moved(before.lines, key, by), f"moved: {line.words}")
