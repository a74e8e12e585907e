"""What is on a thing, as rows for other rooms to build on."""

from typing import Any

from sqlalchemy import Integer, cast, literal, null, select

from yardapp.coating.models import CoatingSystem, Job, Piece, SystemVersion
from yardapp.gear import services as gear


def coating_rows(items: Any) -> Any:
    """Item, `coated`, the system's name, nothing, when its last coat was on; NULL while the job still runs."""
    return (
        select(
            gear.kept_id().label("item_id"),
            literal("coated").label("what"),
            CoatingSystem.name.label("word"),
            cast(null(), Integer).label("blade"),
            Piece.finished.label("at"),
        )
        .join(Job, Job.id == Piece.job_id)
        .join(SystemVersion, SystemVersion.id == Job.system_version_id)
        .join(CoatingSystem, CoatingSystem.id == SystemVersion.system_id)
        .join(gear.Item, gear.Item.id == Piece.item_id)
        .where(gear.under_any_tag(Piece.item_id, items))
    )
