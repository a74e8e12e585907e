"""What can be done with gear: one door."""

from yardapp.gear.models import Item
from yardapp.gear.services.aboard import OnThatDay, aboard_on
from yardapp.gear.services.ages import first_work_after
from yardapp.gear.services.astray import astray
from yardapp.gear.services.away import Away, away, chase, count_late
from yardapp.gear.services.blank_tags import Labelled, blank_kind, free_tags, labels_of, reserve_tags, tags_in
from yardapp.gear.services.crossed import Doubt, look_at, pair, swap_tags
from yardapp.gear.services.doubtful import perhaps_of
from yardapp.gear.services.evidence import Said, add_evidence, correct_evidence, note_evidence, refresh
from yardapp.gear.services.items import item_by_tag, log_item, seen_by
from yardapp.gear.services.log_part import log_part
from yardapp.gear.services.logging import log_propeller, log_shaft
from yardapp.gear.services.lookalikes import GONE, Lookalike, SeenBefore, seen_before, tell_apart
from yardapp.gear.services.merging import AGAINST, merge_items, part_again
from yardapp.gear.services.moves import move_item
from yardapp.gear.services.on_drives import on_and_off
from yardapp.gear.services.papers import KeptPaper, keep_paper, must_see_paper, paper_path, papers_of
from yardapp.gear.services.photo_grid import Pictured, photo_grid
from yardapp.gear.services.photo_marks import (
    PhotoPage,
    caption_photo,
    mark_photo,
    photo_page,
    photos_of,
    take_mark_away,
)
from yardapp.gear.services.photos import Picture, attach_photo, keep_picture, kept_picture, must_see_photo, path_of
from yardapp.gear.services.rack_map import BinPage, BinRow, add_bins, bin_page, rack_map, retire_bin
from yardapp.gear.services.records import accept_proposal, change_item
from yardapp.gear.services.search import ItemRow, aboard, came_off, propellers_near, rack, search, search_all
from yardapp.gear.services.sets import SetPage, keep_together, leave_set, set_mates, set_page
from yardapp.gear.services.story import ItemPage, Line, item_page
from yardapp.gear.services.timelines import Timeline, boat_timeline, drive_timeline, item_timeline
from yardapp.gear.services.twins import kept_id, kept_ids, under_any_tag
from yardapp.gear.services.undoing import undo_move
from yardapp.gear.services.work import Bill, decline_work, record_work
from yardapp.gear.services.work_done import noon_of, work_done
from yardapp.gear.services.works import Work, works_of
from yardapp.vessels.services import drive_choices

__all__ = [
    "AGAINST",
    "GONE",
    "Away",
    "Bill",
    "BinPage",
    "BinRow",
    "Doubt",
    "Item",
    "ItemPage",
    "ItemRow",
    "KeptPaper",
    "Labelled",
    "Line",
    "Lookalike",
    "OnThatDay",
    "PhotoPage",
    "Picture",
    "Pictured",
    "Said",
    "SeenBefore",
    "SetPage",
    "Timeline",
    "Work",
    "aboard",
    "aboard_on",
    "accept_proposal",
    "add_bins",
    "add_evidence",
    "astray",
    "attach_photo",
    "away",
    "bin_page",
    "blank_kind",
    "boat_timeline",
    "came_off",
    "caption_photo",
    "change_item",
    "chase",
    "correct_evidence",
    "count_late",
    "decline_work",
    "drive_choices",
    "drive_timeline",
    "first_work_after",
    "free_tags",
    "item_by_tag",
    "item_page",
    "item_timeline",
    "keep_paper",
    "keep_picture",
    "keep_together",
    "kept_id",
    "kept_ids",
    "kept_picture",
    "labels_of",
    "leave_set",
    "log_item",
    "log_part",
    "log_propeller",
    "log_shaft",
    "look_at",
    "mark_photo",
    "merge_items",
    "move_item",
    "must_see_paper",
    "must_see_photo",
    "noon_of",
    "note_evidence",
    "on_and_off",
    "pair",
    "paper_path",
    "papers_of",
    "part_again",
    "path_of",
    "perhaps_of",
    "photo_grid",
    "photo_page",
    "photos_of",
    "propellers_near",
    "rack",
    "rack_map",
    "record_work",
    "refresh",
    "reserve_tags",
    "retire_bin",
    "search",
    "search_all",
    "seen_before",
    "seen_by",
    "set_mates",
    "set_page",
    "swap_tags",
    "tags_in",
    "take_mark_away",
    "tell_apart",
    "under_any_tag",
    "undo_move",
    "work_done",
    "works_of",
]
