"""Blank tags: taken from the counter and printed beforehand, bound when a thing is logged; and what a label says."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import exists, literal, select, union_all
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import NotFound, Refused
from yardapp.gear.figures import KINDS, LETTERS, kind_of_tag
from yardapp.gear.models import Item
from yardapp.gear.services.items import next_tag
from yardapp.gear.tag_models import BlankTag
from yardapp.people import services as people
from yardapp.people.services import Who

AT_ONCE = 400
PRINTED_AT_ONCE = 800
_ONE = r"([A-Z]-\d{1,9})"
_SPAN = re.compile(rf"{_ONE}(?:\s*(?:TO|–|—|\.\.+)\s*{_ONE})?")


@dataclass(frozen=True, kw_only=True)
class Labelled:
    """What stands on one label: the tag, and what it hangs on; a blank one hangs on nothing yet."""

    tag: str
    kind: str
    stamp: str = ""
    is_blank: bool = False


def reserve_tags(session: Session, who: Who, *, kind: str, count: int) -> list[str]:
    """Take so many tags of one kind from the counter, to be printed now and bound later.

    Raises
    ------
    NotAllowed
        Only yard hands and the office take tags.
    Refused
        There is no such kind, or the number is out of reason.
    """
    who.must("record")
    if kind not in KINDS:
        raise Refused(f"`{kind}` is none of {', '.join(KINDS)}.", "kind")
    if not 1 <= count <= AT_ONCE:
        raise Refused(f"Between one and {AT_ONCE} tags at once.", "count")
    tags = [next_tag(session, kind) for _ in range(count)]
    made = {"kind": kind, "made": now(), "person_id": who.person_id, "said_by": who.name}
    session.add_all(BlankTag(tag=tag, **made) for tag in tags)
    people.note(session, who, "reserved tags", "blank tag", first=tags[0], last=tags[-1])
    return tags


def bind_tag(session: Session, who: Who, kind: str, tag: str) -> str:
    """The blank tag, held for the thing that is being logged.

    Raises
    ------
    NotAllowed
        Only yard hands and the office bind tags.
    Refused
        It is no blank tag, hangs on something already, or belongs to another kind of thing.
    """
    who.must("record")
    tag = tag.strip().upper()
    blank = session.scalar(select(BlankTag).where(BlankTag.tag == tag).with_for_update())
    if session.scalar(select(Item.id).where(Item.tag == tag)) is not None:
        raise Refused(f"{tag} hangs on something already. Look at that first.", "tag")
    if blank is None:
        raise Refused(f"{tag} is no blank tag that was printed here. Leave the box empty for the next one.", "tag")
    if blank.kind != kind:
        raise Refused(
            f"{tag} is for a {KINDS[blank.kind].label.lower()}. A {KINDS[kind].label.lower()}’s begins with "
            f"{LETTERS[kind]}.",
            "tag",
        )
    return tag


def free_tags(session: Session, who: Who, limit: int = AT_ONCE) -> list[Labelled]:
    """Blank tags that hang on nothing yet, in order.

    Raises
    ------
    NotAllowed
        Owners see their own gear only.
    """
    who.must("see")
    rows = session.execute(
        select(BlankTag.tag, BlankTag.kind)
        .where(~exists().where(Item.tag == BlankTag.tag))
        .order_by(BlankTag.kind, BlankTag.id)
        .limit(limit)
    )
    return [Labelled(tag=row.tag, kind=row.kind, is_blank=True) for row in rows]


def blank_kind(session: Session, who: Who, tag: str) -> str | None:
    """The kind of thing that a printed tag waits for; None where it is no blank tag of this yard."""
    who.must("propose")
    return session.scalar(select(BlankTag.kind).where(BlankTag.tag == tag.strip().upper()))


def tags_in(text: str) -> list[str]:
    """`P-0007, S-0001, P-0013 to P-0052` as single tags.

    Raises
    ------
    Refused
        A piece is no tag, a span runs backwards, or there are too many.
    """
    text, found = text.strip().upper(), list[str]()
    left = re.sub(r"[\s,;]+", "", _SPAN.sub("", text))
    if left:
        raise Refused(f"`{left[:20]}` is no tag. Try P-0412, or P-0413 to P-0452.", "tags")
    for one in _SPAN.finditer(text):
        found += _span(one[1], one[2] or one[1], PRINTED_AT_ONCE - len(found))
    if not found:
        raise Refused("Which tags? P-0412, or P-0413 to P-0452.", "tags")
    return list(dict.fromkeys(found))


def _span(first: str, last: str, room: int) -> list[str]:
    (letter, low), (to, high) = first.split("-"), last.split("-")
    count = int(high) - int(low) + 1
    if letter != to or count < 1:
        raise Refused(f"{first} to {last} is no row of tags.", "tags")
    if count > room:
        raise Refused(f"At most {PRINTED_AT_ONCE} labels at once.", "tags")
    return [f"{letter}-{number:04d}" for number in range(int(low), int(high) + 1)]


def labels_of(session: Session, who: Who, tags: Sequence[str]) -> list[Labelled]:
    """What stands on the label of each of these tags, in their order. One query.

    Raises
    ------
    NotAllowed
        Only yard hands and the office print labels.
    NotFound
        A tag neither hangs on anything nor waits for it.
    """
    who.must("record")
    hung = select(Item.tag, Item.stamp, literal(False).label("is_blank")).where(Item.tag.in_(tags))
    blank = select(BlankTag.tag, literal(""), literal(True)).where(BlankTag.tag.in_(tags))
    found: dict[str, Labelled] = {}
    for row in session.execute(union_all(hung, blank)):
        if not (row.is_blank and row.tag in found):
            found[row.tag] = Labelled(
                tag=row.tag, kind=kind_of_tag(row.tag), stamp=row.stamp, is_blank=bool(row.is_blank)
            )
    missing = [tag for tag in tags if tag not in found]
    if missing:
        raise NotFound(f"{', '.join(missing[:3])} neither hangs on anything here nor is a blank tag.")
    return [found[tag] for tag in tags]
