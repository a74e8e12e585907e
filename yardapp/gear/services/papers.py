"""Papers of a piece of work: the shop's letter or bill as PDF, or photos; kept under their own SHA-256."""

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from sqlalchemy import select
from sqlalchemy.orm import Session

from yardapp.db import now
from yardapp.errors import NotFound, Refused
from yardapp.gear.models import Event, Item, Paper, Photo
from yardapp.gear.services.items import seen_by
from yardapp.gear.services.photos import keep_picture, put_file
from yardapp.people.services import Who

LARGEST = 20 * 1024 * 1024
PDF = b"%PDF-"


@dataclass(frozen=True)
class KeptPaper:
    """A file that lies in the data folder already, though no work may claim it yet."""

    sha256: str
    kind: str
    name: str
    width: int = 0
    height: int = 0


def paper_path(folder: Path, sha256: str) -> Path:
    """Where a document lies in the photo folder."""
    return folder / sha256[:2] / f"{sha256}.pdf"


def keep_paper(folder: Path, file: BinaryIO, name: str) -> KeptPaper:
    """Judge a document or a photo and keep it.

    Raises
    ------
    Refused
        It is too large, or neither a PDF nor a picture that can be read here.
    """
    name = " ".join(Path(name).name.split())[:120]
    start = file.read(len(PDF))
    file.seek(0)
    if start != PDF:
        picture = keep_picture(folder, file)
        return KeptPaper(picture.sha256, "picture", name, picture.width, picture.height)
    raw = file.read(LARGEST + 1)
    if len(raw) > LARGEST:
        raise Refused("That document is over 20 MB.", "papers")
    sha256 = hashlib.sha256(raw).hexdigest()
    put_file(paper_path(folder, sha256), raw)
    return KeptPaper(sha256, "pdf", name)


def put_papers(session: Session, who: Who, item: Item, event: Event, papers: Sequence[KeptPaper]) -> None:
    """Put kept files to a line of history; a picture is one of the item's photos too."""
    for paper in papers:
        said = {"item_id": item.id, "sha256": paper.sha256, "at": now(), "said_by": who.name}
        session.add(Paper(event_id=event.id, kind=paper.kind, name=paper.name, person_id=who.person_id, **said))
        if paper.kind == "picture":
            session.add(Photo(width=paper.width, height=paper.height, first_caption=event.kind, **said))
    session.flush()  # the answer may name them


def papers_of(session: Session, who: Who, tag: str) -> list[tuple[Event, Paper]]:
    """Every paper of an item's work, with the line of history that it belongs to, newest first."""
    chosen = (
        select(Event, Paper)
        .join(Paper, Paper.event_id == Event.id)
        .join(Item, Item.id == Paper.item_id)
        .where(Item.tag == tag.strip().upper(), seen_by(who))
        .order_by(Paper.id.desc())
    )
    return [(row.Event, row.Paper) for row in session.execute(chosen)]


def must_see_paper(session: Session, who: Who, sha256: str) -> Paper:
    """The document of that number, when this person may see its item.

    Raises
    ------
    NotFound
        There is none, or its item is out of this person's sight.
    """
    chosen = select(Paper).join(Item, Item.id == Paper.item_id).where(Paper.sha256 == sha256, seen_by(who))
    paper = session.scalar(chosen.order_by(Paper.id).limit(1))
    if paper is None:
        raise NotFound("There is no such document here.")
    return paper
