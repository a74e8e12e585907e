"""What the coating tells on a thing's timeline: each coating that was finished."""

from typing import Any

from yardapp.coating.models import Job, Piece
from yardapp.timelines import TOLD, Strand, strand


def of_items(item_ids: Any) -> list[Strand]:
    """Coatings that these things were given."""
    mine = [Piece.item_id.in_(item_ids), Piece.finished.is_not(None)]
    return [
        strand(
            "coated",
            "coating",
            Piece,
            *mine,
            joined=[(Job, Job.id == Piece.job_id)],
            at=Piece.finished,
            said_by=Job.said_by,
            kind="coated: " + Job.title,
        )
    ]


TOLD["item", "coating"] = of_items
