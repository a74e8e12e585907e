"""Every room's tables, brought together so that keys between rooms resolve by name."""

from yardapp.bench import models as bench
from yardapp.coating import models as coating
from yardapp.fit import models as fit
from yardapp.gear import models as gear
from yardapp.gear import photo_models as gear_photos
from yardapp.gear import tag_models as gear_tags
from yardapp.marks import models as marks
from yardapp.people import models as people
from yardapp.relaunch import models as relaunch
from yardapp.vessels import models as vessels

__all__ = ["bench", "coating", "fit", "gear", "gear_photos", "gear_tags", "marks", "people", "relaunch", "vessels"]
