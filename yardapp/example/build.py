"""The whole invented yard, chapter by chapter, in the caller's one transaction: all of it, or none."""

from collections.abc import Callable
from pathlib import Path

from sqlalchemy.orm import Session

from yardapp.example import (
    benches,
    blades,
    blank_tags,
    boats,
    coatings,
    doubts,
    hulls,
    launches,
    makers,
    parts,
    people,
    pictures,
    propellers,
    shafts,
    stories,
    surveys,
)
from yardapp.example.yard import Yard
from yardapp.people import services

CHAPTERS: tuple[tuple[str, tuple[Callable[[Yard], None], ...]], ...] = (
    ("boats and drives", (boats.log_boats, hulls.hulls_are_known)),
    ("propellers, stamps and bench sheets", (propellers.log_propellers,)),
    ("shafts", (shafts.log_shafts,)),
    ("pitch surveys", (surveys.propellers_are_surveyed,)),
    ("other days at the bench", (benches.the_bench_is_used,)),
    ("years of work and moves", (stories.work_is_done, stories.gear_moves, stories.boats_change)),
    ("racks, parts and what is away", (parts.racks_are_mapped, parts.parts_get_tags, parts.some_are_away)),
    (
        "doubts",
        (
            doubts.readings_disagree,
            doubts.slips_are_put_right,
            doubts.spares_of_the_wrong_hand,
            doubts.second_marks,
            doubts.drives_are_read_again,
            doubts.an_owner_proposes,
        ),
    ),
    ("makers' tables and the marks that they read", (makers.write_tables, makers.marks_are_found)),
    (
        "coats of years past, one planned, one running",
        (
            coatings.systems_and_stock,
            coatings.coats_of_past_years,
            coatings.one_is_planned,
            coatings.one_is_running,
        ),
    ),
    ("boats that are to go in", (launches.policies_are_settled, launches.boats_are_to_go_in)),
    ("photos", (pictures.take_pictures, blades.a_blade_is_made_good)),
    ("blank tags", (blank_tags.tags_are_printed, blank_tags.two_are_bound)),
)


def is_built(session: Session) -> bool:
    """Whether somebody lives in this register already."""
    return services.is_claimed(session)


def build(session: Session, photos: Path, tell: Callable[[str], None] = lambda chapter: None) -> None:
    """Enter everything into an empty register; `tell` hears the name of each chapter as it begins."""
    tell("people")
    yard = Yard(session=session, photos=photos, crew=people.hire(session))
    for name, steps in CHAPTERS:
        tell(name)
        for step in steps:
            step(yard)
    people.say_goodbye(session, yard.crew)
