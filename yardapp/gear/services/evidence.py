"""Statements about an item, and the working figures derived from them."""

from collections import defaultdict
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select
from sqlalchemy.exc import IntegrityError
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import NotFound, Refused
from yardapp.gear.figures import FIGURES, KINDS, NUMBERS, ONE_A_LINE, WORDS, WORK
from yardapp.gear.models import BASES, Event, Evidence, Item
from yardapp.gear.services.twins import under_any_tag
from yardapp.gear.working import Statement, disagreements, last_change, working
from yardapp.people import services as people
from yardapp.people.services import Who
from yardapp.stamps import normalise


@dataclass(frozen=True, kw_only=True)
class Said:
    """One statement to be kept: a value with its standard uncertainty (k = 1), or a word."""

    what: str
    basis: str
    value: float | None = None
    u_value: float | None = None
    word: str | None = None
    typed: str = ""
    true_from: datetime | None = None
    source: str = ""
    source_id: int | None = None
    note: str = ""


def add_evidence(
    session: Session, who: Who, item: Item, *said: Said, replaces_id: int | None = None, why: str = ""
) -> list[Evidence]:
    """Keep statements about an item, and bring its working figures up to date.

    Raises
    ------
    NotAllowed
        Only yard hands and the office record; an owner may, on what they propose.
    Refused
        A statement is about no figure that this kind of item has, or its word is not one of the list.
    """
    if not (item.is_proposed and item.logged_by == who.person_id):
        who.must("record")
    at = now()
    rows = [_row(item, who, one, at, replaces_id, why) for one in said]
    session.add_all(rows)
    session.flush()  # the rule for the newest needs the rows' numbers
    refresh(session, item)
    if item.merged_into_id is not None:  # written under the tag that was not kept: it is said of the one that was
        refresh(session, session.get_one(Item, item.merged_into_id))
    return rows


def _row(item: Item, who: Who, said: Said, at: datetime, replaces_id: int | None, why: str) -> Evidence:
    _must_make_sense(item, said)
    measured_now = at if said.basis in ("measured", "guessed") else None
    return Evidence(
        item_id=item.id,
        what=said.what,
        value=said.value,
        u_value=said.u_value,
        word=said.word,
        typed=said.typed[:120],
        basis=said.basis,
        true_from=said.true_from or measured_now,
        at=at,
        person_id=who.person_id,
        said_by=who.name,
        source=said.source,
        source_id=said.source_id,
        note=said.note[:300],
        replaces_id=replaces_id,
        why=why[:300],
    )


def _must_make_sense(item: Item, said: Said) -> None:
    if said.what == "stamp":
        return
    figure = FIGURES.get(said.what)
    if figure is None or item.kind not in figure.of:
        raise Refused(f"A {item.kind} has no figure called {said.what}.", said.what)
    if said.basis not in BASES:
        raise Refused(f"How is it known? One of {', '.join(BASES)}.", "basis")
    if said.word is not None and said.word not in WORDS.get(said.what, ()):
        raise Refused(f"`{said.word}` is not one of {', '.join(WORDS.get(said.what, ()))}.", said.what)
    if said.true_from is not None and said.true_from > now():
        raise Refused("That day has not come yet.", "true_from")


def correct_evidence(session: Session, who: Who, evidence_id: int, said: Said | None, *, why: str) -> Evidence:
    """Put a new statement in the place of an old one, or withdraw it; the old one stays in the history.

    Raises
    ------
    NotFound
        There is no such statement.
    Refused
        No reason was given, or the statement has been replaced before: correct the newest one.
    """
    old = session.get(Evidence, evidence_id)
    if old is None:
        raise NotFound("There is no such statement.")
    if not why.strip():
        raise Refused("Say why, in a few words: it is read years later.", "why")
    item = session.get_one(Item, old.item_id)
    said = said or Said(what=old.what, basis=old.basis, note="withdrawn", true_from=old.true_from)
    try:
        return add_evidence(session, who, item, said, replaces_id=old.id, why=why)[0]
    except IntegrityError:
        raise Refused("That statement was replaced before. Correct the newest one.", "why") from None


def refresh(session: Session, item: Item) -> None:
    """Derive the working figures from the evidence: the one function that writes them."""
    rows, happened = _all_said(session, item)
    known, odds = {}, []
    for what in ("stamp", *FIGURES):
        changed = last_change(happened, what, WORK)
        chosen = working(rows[what], changed)
        _set(item, what, chosen)
        if chosen is not None:
            known[what] = chosen.basis
        odds += [
            {"what": one.what, "working": one.working_id, "other": one.other_id, "sure": one.is_sure}
            for one in disagreements(rows[what], changed)
            if what != "stamp"  # a hub may bear a maker's mark and a shop's beside it
        ]
    item.known, item.odds = known, odds
    item.words = words_of(item)


def _all_said(session: Session, item: Item) -> tuple[dict[str, list[Evidence]], list[tuple[str, datetime]]]:
    """Statements and events of a thing under each tag that it has had; a tag that is kept no more says nothing."""
    rows: dict[str, list[Evidence]] = defaultdict(list)
    if item.merged_into_id is not None:
        return rows, []
    for row in session.scalars(select(Evidence).where(under_any_tag(Evidence.item_id, [item.id]))):
        rows[row.what].append(row)
    events = session.execute(select(Event.kind, Event.at).where(under_any_tag(Event.item_id, [item.id])))
    return rows, [(row.kind, row.at) for row in events]


def _set(item: Item, what: str, chosen: Statement | None) -> None:
    if what == "stamp":
        item.stamp = (chosen.word if chosen else None) or ""
    elif what == "blades":
        item.blades = round(chosen.value) if chosen and chosen.value is not None else None
    elif what in NUMBERS:
        setattr(item, what, chosen.value if chosen else None)
        setattr(item, f"u_{what}", chosen.u_value if chosen else None)
    else:
        setattr(item, what, chosen.word if chosen else None)


def words_of(item: Item) -> str:
    """What the search reads of an item, besides its figures."""
    kind = "" if item.kind in ONE_A_LINE else KINDS[item.kind].label
    return " ".join(filter(None, (item.tag, kind, item.stamp, normalise(item.stamp), item.place, item.note)))


def note_evidence(session: Session, who: Who, tag: str, *said: Said) -> list[Evidence]:
    """Keep statements typed on an item's own page.

    Raises
    ------
    NotFound
        Nothing carries the tag.
    """
    item = session.scalar(select(Item).where(Item.tag == tag.upper()).with_for_update())
    if item is None:
        raise NotFound(f"Nothing carries the tag {tag}.")
    if item.merged_into_id is not None:
        item = session.get_one(Item, item.merged_into_id, with_for_update=True)
    rows = add_evidence(session, who, item, *said)
    people.note(session, who, "added evidence", "item", item.id, what=[one.what for one in said])
    return rows
