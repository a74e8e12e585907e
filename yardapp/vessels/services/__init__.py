"""What can be done about boats and their drives: one door."""

from yardapp.vessels.hull_words import BEHIND, HULL_KINDS, PLANING_KINDS, POWER_TAKEN, SHAFT_ALLOYS
from yardapp.vessels.models import Drive, Vessel
from yardapp.vessels.services.boats import (
    change_vessel,
    drives_of_owner,
    log_vessel,
    may_see_vessel,
    vessel_by_id,
)
from yardapp.vessels.services.drives import (
    DRIVE_BOXES,
    DRIVE_FIGURES,
    LINE_BOXES,
    LINE_FIGURES,
    LINE_WORDS,
    change_drive,
    re_engine,
    set_drive,
)
from yardapp.vessels.services.finding import PAGE, VesselRow, boats, search_vessels
from yardapp.vessels.services.hulls import HULL_FIGURES, HULL_WORDS, set_hull
from yardapp.vessels.services.parting import move_drive, retire_drive, return_drive
from yardapp.vessels.services.shaft_lines import (
    clearance_from_centre,
    drive_by_id,
    drive_choices,
    drive_label,
    drive_names,
    drives_of_words,
    label_of,
    list_drives,
)
from yardapp.vessels.services.story import DrivePage, VesselPage, drive_page, vessel_page

__all__ = [
    "BEHIND",
    "DRIVE_BOXES",
    "DRIVE_FIGURES",
    "HULL_FIGURES",
    "HULL_KINDS",
    "HULL_WORDS",
    "LINE_BOXES",
    "LINE_FIGURES",
    "LINE_WORDS",
    "PAGE",
    "PLANING_KINDS",
    "POWER_TAKEN",
    "SHAFT_ALLOYS",
    "Drive",
    "DrivePage",
    "Vessel",
    "VesselPage",
    "VesselRow",
    "boats",
    "change_drive",
    "change_vessel",
    "clearance_from_centre",
    "drive_by_id",
    "drive_choices",
    "drive_label",
    "drive_names",
    "drive_page",
    "drives_of_owner",
    "drives_of_words",
    "label_of",
    "list_drives",
    "log_vessel",
    "may_see_vessel",
    "move_drive",
    "re_engine",
    "retire_drive",
    "return_drive",
    "search_vessels",
    "set_drive",
    "set_hull",
    "vessel_by_id",
    "vessel_page",
]
