"""What the coating tells on timelines: each coating that was finished, of a thing or of an untagged part of a drive."""

from typing import Any

from yardapp.coating.models import Job, Piece
from yardapp.timelines import TOLD, Strand, strand


def of_items(item_ids: Any) -> list[Strand]:
    """Coatings that these things were given."""
    return [_coated("coated", "coated: " + Job.title, Piece.item_id.in_(item_ids))]


def of_drives(drive_ids: Any) -> list[Strand]:
    """Coatings of what carries no tag, in the jobs for these drives."""
    said = "coated: " + Job.title + ", " + Piece.label
    return [_coated("untagged coated", said, Job.drive_id.in_(drive_ids), Piece.item_id.is_(None))]


def _coated(name: str, said: Any, *mine: Any) -> Strand:
    return strand(
        name,
        "coating",
        Piece,
        *mine,
        Piece.finished.is_not(None),
        joined=[(Job, Job.id == Piece.job_id)],
        at=Piece.finished,
        said_by=Job.said_by,
        kind=said,
    )


TOLD["item", "coating"] = of_items
TOLD["drive", "coating"] = of_drives
