"""The yard's lists of lines, by kind of drive: each edit is a new version; a launch keeps the one it was planned on."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import and_, select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import NotFound, Refused, Superseded
from yardapp.people import services as people
from yardapp.people.services import Who
from yardapp.relaunch.lines import Line, as_plain, from_plain, what_is_wrong
from yardapp.relaunch.models import LineList, LineListVersion
from yardapp.relaunch.shipped import LISTS


@dataclass(frozen=True, kw_only=True)
class ListNow:
    """A list in one of its versions; number 0 is as it came with the app."""

    name: str
    number: int
    lines: tuple[Line, ...]
    said_by: str = ""
    at: datetime | None = None
    why: str = ""

    def line(self, key: str) -> Line | None:
        """The line of that name."""
        return next((line for line in self.lines if line.key == key), None)


def lists(session: Session, who: Who) -> list[ListNow]:
    """Every list in its newest version, the yard's own in the place of the shipped one of its name."""
    who.must("see")
    newest = and_(LineListVersion.list_id == LineList.id, LineListVersion.number == LineList.number)
    kept = session.execute(select(LineList, LineListVersion).join(LineListVersion, newest).order_by(LineList.id))
    own = {row[0].name: _kept(row[0].name, row[1]) for row in kept}
    shipped = {name: own.pop(name, ListNow(name=name, number=0, lines=lines)) for name, lines in LISTS.items()}
    return [*shipped.values(), *own.values()]


def _kept(name: str, version: LineListVersion) -> ListNow:
    return ListNow(
        name=name,
        number=version.number,
        lines=from_plain(version.lines),
        said_by=version.said_by,
        at=version.at,
        why=version.why,
    )


def list_by_name(session: Session, who: Who, name: str) -> ListNow:
    """A list in its newest version.

    Raises
    ------
    NotFound
        There is none of that name.
    """
    found = next((one for one in lists(session, who) if one.name == name), None)
    if found is None:
        raise NotFound("There is no such list of lines.")
    return found


def list_versions(session: Session, who: Who, name: str) -> list[ListNow]:
    """Every version of a list, newest first, down to the one that came with the app.

    Raises
    ------
    NotFound
        There is none of that name.
    """
    who.must("see")
    chosen = select(LineListVersion).join(LineList, LineList.id == LineListVersion.list_id).where(LineList.name == name)
    found = [_kept(name, row) for row in session.scalars(chosen.order_by(LineListVersion.number.desc()))]
    if name in LISTS:
        found.append(ListNow(name=name, number=0, lines=LISTS[name]))
    if not found:
        raise NotFound("There is no such list of lines.")
    return found


def change_list(session: Session, who: Who, name: str, number: int, lines: Sequence[Line], *, why: str = "") -> ListNow:
    """Keep a list as a new version of it.

    Raises
    ------
    NotAllowed
        Only yard hands and the office change lists.
    NotFound
        There is none of that name.
    Superseded
        Somebody saved it since version `number`.
    Refused
        A line makes no sense, or the nut's lock is gone from it.
    """
    row, before = list_for_change(session, who, name)
    if before.number != number and as_plain(before.lines) != as_plain(lines):
        words = "; ".join(line.words for line in before.lines)
        raise Superseded(before.number, {"words": words}, before.said_by or "Somebody")
    return keep_lines(session, who, name, row, lines, why)


def list_for_change(session: Session, who: Who, name: str) -> tuple[LineList | None, ListNow]:
    """A list held until the save is done; no row while it is as it came with the app.

    Raises
    ------
    NotAllowed, NotFound
        As `change_list` does.
    """
    who.must("change")
    row = session.scalar(select(LineList).where(LineList.name == name).with_for_update())
    return row, list_by_name(session, who, name)


def keep_lines(session: Session, who: Who, name: str, row: LineList | None, lines: Sequence[Line], why: str) -> ListNow:
    """A new version, when the lines can stand."""
    _must_stand(lines)
    return _added(session, who, row or _new_row(session, name), lines, why)


def _must_stand(lines: Sequence[Line]) -> None:
    wrong = what_is_wrong(lines)
    if wrong is not None:
        raise Refused(wrong.said, wrong.box)


def _new_row(session: Session, name: str) -> LineList:
    row = LineList(name=name, number=0)
    try:
        with session.begin_nested():
            session.add(row)
    except IntegrityError:
        raise Refused("Somebody began that list at the same moment. Look again.", "name") from None
    return row


def _added(session: Session, who: Who, row: LineList, lines: Sequence[Line], why: str) -> ListNow:
    row.number += 1
    version = LineListVersion(
        list_id=row.id,
        number=row.number,
        lines=as_plain(lines),
        why=" ".join(why.split())[:300],
        at=now(),
        person_id=who.person_id,
        said_by=who.name,
    )
    session.add(version)
    session.flush()
    people.note(session, who, "changed lines", "list of lines", row.id, name=row.name, number=row.number)
    return _kept(row.name, version)


def add_list(session: Session, who: Who, name: str, *, like: str) -> ListNow:
    """Begin a list of the yard's own on the lines of another.

    Raises
    ------
    NotAllowed
        Only yard hands and the office make lists.
    NotFound
        There is no list to begin from.
    Refused
        It has no name, or there is one of that name.
    """
    who.must("change")
    name = " ".join(name.replace("/", " ").split())[:60]
    if not name:
        raise Refused("For which kind of drive, or of boat?", "name")
    if any(one.name.casefold() == name.casefold() for one in lists(session, who)):
        raise Refused(f"There is a list for {name}. Change that one.", "name")
    return _added(session, who, _new_row(session, name), list_by_name(session, who, like).lines, f"begun on {like}")
