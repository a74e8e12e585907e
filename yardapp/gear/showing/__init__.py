"""What stands in the register, put into the words and rows of a page. No database, no request."""

from yardapp.gear.showing.crossed import doubt_shown, side_shown
from yardapp.gear.showing.doubtful import possibly_of, seen_two_ways
from yardapp.gear.showing.figures import (
    BASIS,
    GAPS,
    ON_SHEETS,
    disagreement,
    evidence_rows,
    figure_rows,
    gap_of,
    said_in,
)
from yardapp.gear.showing.history import event_said, history_rows
from yardapp.gear.showing.lists import listed, part_glance, size_of
from yardapp.gear.showing.lookalikes import lookalike_shown, pictured
from yardapp.gear.showing.moments import moment_rows
from yardapp.gear.showing.pictures import picture_of, picture_rows
from yardapp.gear.showing.places import away_shown, late_said, rack_shown
from yardapp.gear.showing.tags import bin_label, blank_rows, label_lines
from yardapp.gear.showing.ways import ways_of, worked_out
from yardapp.gear.showing.works import work_shown

__all__ = [
    "BASIS",
    "GAPS",
    "ON_SHEETS",
    "away_shown",
    "bin_label",
    "blank_rows",
    "disagreement",
    "doubt_shown",
    "event_said",
    "evidence_rows",
    "figure_rows",
    "gap_of",
    "history_rows",
    "label_lines",
    "late_said",
    "listed",
    "lookalike_shown",
    "moment_rows",
    "part_glance",
    "picture_of",
    "picture_rows",
    "pictured",
    "possibly_of",
    "rack_shown",
    "said_in",
    "seen_two_ways",
    "side_shown",
    "size_of",
    "ways_of",
    "work_shown",
    "worked_out",
]
