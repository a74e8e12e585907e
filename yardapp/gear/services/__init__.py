"""What can be done with gear: one door."""

from yardapp.gear.models import Item
from yardapp.gear.services.ages import first_work_after
from yardapp.gear.services.evidence import Said, add_evidence, correct_evidence, note_evidence, refresh
from yardapp.gear.services.items import (
    accept_proposal,
    change_item,
    item_by_tag,
    log_item,
    move_item,
    record_work,
    seen_by,
)
from yardapp.gear.services.logging import log_propeller, log_shaft, work_done
from yardapp.gear.services.on_drives import on_and_off
from yardapp.gear.services.photos import Picture, attach_photo, keep_picture, kept_picture, must_see_photo, path_of
from yardapp.gear.services.search import ItemRow, aboard, came_off, propellers_near, rack, search, search_all
from yardapp.gear.services.story import ItemPage, Line, item_page
from yardapp.vessels.services import drive_choices

__all__ = [
    "Item",
    "ItemPage",
    "ItemRow",
    "Line",
    "Picture",
    "Said",
    "aboard",
    "accept_proposal",
    "add_evidence",
    "attach_photo",
    "came_off",
    "change_item",
    "correct_evidence",
    "drive_choices",
    "first_work_after",
    "item_by_tag",
    "item_page",
    "keep_picture",
    "kept_picture",
    "log_item",
    "log_propeller",
    "log_shaft",
    "move_item",
    "must_see_photo",
    "note_evidence",
    "on_and_off",
    "path_of",
    "propellers_near",
    "rack",
    "record_work",
    "refresh",
    "search",
    "search_all",
    "seen_by",
    "work_done",
]
