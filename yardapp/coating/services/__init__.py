"""What can be done about coating: one door."""

from yardapp.coating.services.acting import Tap, act, close_job, correct_step, end_coat, start_coat, undo
from yardapp.coating.services.asking import Asked, AskedPiece
from yardapp.coating.services.jobs import PAGE, JobRow, Looked, jobs, look, plan_job
from yardapp.coating.services.lasting import (
    CoatRow,
    History,
    coatings,
    history_of,
    history_of_piece,
    rate,
    tag_of,
)
from yardapp.coating.services.stories import Story, kept_story, story_of, story_of_act, version_of
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
from yardapp.coating.services.tins import add_tin, change_tin, tin_by_id, tins
from yardapp.vessels.services import drive_choices

__all__ = [
    "PAGE",
    "Asked",
    "AskedPiece",
    "CoatRow",
    "History",
    "JobRow",
    "Looked",
    "Story",
    "SystemPage",
    "SystemRow",
    "Tap",
    "VersionRow",
    "act",
    "add_system",
    "add_tin",
    "bring_back",
    "change_system",
    "change_tin",
    "close_job",
    "coatings",
    "correct_step",
    "drive_choices",
    "end_coat",
    "history_of",
    "history_of_piece",
    "jobs",
    "kept_story",
    "look",
    "plan_job",
    "rate",
    "start_coat",
    "still_shipped",
    "story_of",
    "story_of_act",
    "system_page",
    "systems",
    "tag_of",
    "take_shipped",
    "tin_by_id",
    "tins",
    "undo",
    "use_system",
    "version_of",
]
