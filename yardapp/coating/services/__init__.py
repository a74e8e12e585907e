"""What can be done about coating: one door."""

from yardapp.coating.services import strands
from yardapp.coating.services.acting import (
    Tap,
    act,
    attach_photo,
    close_job,
    correct_step,
    end_coat,
    start_coat,
    undo,
)
from yardapp.coating.services.asking import Asked, AskedPiece
from yardapp.coating.services.documents import attach_document, document_by_name, documents_of
from yardapp.coating.services.immersing import boat_afloat, boat_not_afloat
from yardapp.coating.services.jobs import PAGE, JobRow, jobs, plan_job
from yardapp.coating.services.lasting import (
    CoatRow,
    History,
    coatings,
    history_of,
    history_of_piece,
    tag_of,
)
from yardapp.coating.services.launching import LaunchLine, before_launch
from yardapp.coating.services.looking import Looked, look
from yardapp.coating.services.moves import FATES, MoveRow, moves_of
from yardapp.coating.services.now import PotLeft, Window, items_of, job_now, pots_left, product_left, windows
from yardapp.coating.services.rating import correct_rating, rate, rating_by_id
from yardapp.coating.services.stories import Story, kept_story, story_of, story_of_act, version_now, version_of
from yardapp.coating.services.systems import (
    SystemPage,
    SystemRow,
    VersionRow,
    add_system,
    bring_back,
    change_system,
    still_shipped,
    system_page,
    systems,
    take_shipped,
    use_system,
)
from yardapp.coating.services.tins import Covers, add_tin, change_tin, covers, tin_by_id, tins
from yardapp.coating.services.waiting import waiting_pieces
from yardapp.vessels.services import drive_choices

__all__ = [
    "FATES",
    "PAGE",
    "Asked",
    "AskedPiece",
    "CoatRow",
    "Covers",
    "History",
    "JobRow",
    "LaunchLine",
    "Looked",
    "MoveRow",
    "PotLeft",
    "Story",
    "SystemPage",
    "SystemRow",
    "Tap",
    "VersionRow",
    "Window",
    "act",
    "add_system",
    "add_tin",
    "attach_document",
    "attach_photo",
    "before_launch",
    "boat_afloat",
    "boat_not_afloat",
    "bring_back",
    "change_system",
    "change_tin",
    "close_job",
    "coatings",
    "correct_rating",
    "correct_step",
    "covers",
    "document_by_name",
    "documents_of",
    "drive_choices",
    "end_coat",
    "history_of",
    "history_of_piece",
    "items_of",
    "job_now",
    "jobs",
    "kept_story",
    "look",
    "moves_of",
    "plan_job",
    "pots_left",
    "product_left",
    "rate",
    "rating_by_id",
    "start_coat",
    "still_shipped",
    "story_of",
    "story_of_act",
    "strands",
    "system_page",
    "systems",
    "tag_of",
    "take_shipped",
    "tin_by_id",
    "tins",
    "undo",
    "use_system",
    "version_now",
    "version_of",
    "waiting_pieces",
    "windows",
]
