"""What the fit found, put into the words and drawings of a page. No database, no request."""

from yardapp.fit.showing.kept import ended, kept_checks, kept_row, kept_when, premise_rows
from yardapp.fit.showing.letters import both, propeller_rows, rests_on, shaft_end_rows
from yardapp.fit.showing.map import map_drawing, map_rows, spot_rows
from yardapp.fit.showing.papers import class_and_pitch, owner_paper, shop_paper
from yardapp.fit.showing.ranked import PAIR, counted, drive_row, pair_row, propeller_row
from yardapp.fit.showing.verdict import (
    check_rows,
    parts,
    room_drawing,
    room_rows,
    rows_of,
    say_in,
    shaft_drawing,
    shaft_rows,
    still_open,
)

__all__ = [
    "PAIR",
    "both",
    "check_rows",
    "class_and_pitch",
    "counted",
    "drive_row",
    "ended",
    "kept_checks",
    "kept_row",
    "kept_when",
    "map_drawing",
    "map_rows",
    "owner_paper",
    "pair_row",
    "parts",
    "premise_rows",
    "propeller_row",
    "propeller_rows",
    "rests_on",
    "room_drawing",
    "room_rows",
    "rows_of",
    "say_in",
    "shaft_drawing",
    "shaft_end_rows",
    "shaft_rows",
    "shop_paper",
    "spot_rows",
    "still_open",
]
