"""Every room's pages, in the order of the yard."""

from yardapp.front import bp as front
from yardapp.gear.views import bp as gear
from yardapp.people.views import bp as people

ROOMS = (front, gear, people)
