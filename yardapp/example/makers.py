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
    marks.record_mark_of(yard.session, finn, yard.at("Rack C, bin 14"), "OT?2[KL]R3-41877", spot="aft face of the hub")
    marks.record_mark_of(yard.session, ivy, yard.at("Rack C, bin 15"), "OT20KL-2216", spot="forward face of the hub")
    marks.record_mark_of(yard.session, ivy, yard.at("Rack C, bin 15"), "RP 20 x 18 94", spot="side of the hub")
    marks.record_mark_of(yard.session, finn, yard.at("Rack D, bin 10"), "K560-4?0H-B40-7*", spot="root of a blade")
