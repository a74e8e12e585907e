"""Every room's pages, in the order of the yard."""

from yardapp.api.views import bp as api
from yardapp.bench.views import bp as bench
from yardapp.coating.views import bp as coating
from yardapp.fit.views import bp as fit
from yardapp.front import bp as front
from yardapp.gear.views import bp as gear
from yardapp.marks.views import bp as marks
from yardapp.people.story_views import bp as story
from yardapp.people.views import bp as people
from yardapp.relaunch.views import bp as relaunch
from yardapp.vessels.views import bp as vessels

ROOMS = (front, gear, vessels, bench, marks, coating, fit, relaunch, people, story, api)
