"""What the invented yard knows of invented makers, and a few hubs that bear their marks."""

from yardapp.example.yard import Yard
from yardapp.marks import services as marks


def write_tables(yard: Yard) -> None:
    """The plain tables, unless they are there, and the three makers that never were."""
    marks.seed_tables(yard.session)
    for table in marks.examples():
        marks.add_table(yard.session, yard.who("Ada"), table, why="rang up, wrote to, or read off a known propeller")


def marks_are_found(yard: Yard) -> None:
    """Seen under grease and paint, some of it half gone."""
    finn, ivy = yard.who("Finn"), yard.who("Ivy")
    marks.record_mark_of(yard.session, finn, yard.at("Rack D, bin 2"), "OT2?[HJ]R4-41877", spot="aft face of the hub")
    # It left its maker with 19 in of pitch, and a shop took one out.
    marks.record_mark_of(yard.session, ivy, yard.at("Rack D, bin 4"), "OT22ML-2216", spot="forward face of the hub")
    marks.record_mark_of(yard.session, ivy, yard.at("Rack D, bin 4"), "RP 22 x 18 94", spot="side of the hub")
    marks.record_mark_of(yard.session, finn, yard.at("Rack D, bin 10"), "K81?-6?0V-B70-7*", spot="root of a blade")
