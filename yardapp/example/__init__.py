"""A yard that nobody owns: invented boats, people and gear, entered through the services as people would have."""

from yardapp.example.build import build, is_built
from yardapp.example.people import EXAMPLE_PEOPLE, EXAMPLE_YARD

__all__ = ["EXAMPLE_PEOPLE", "EXAMPLE_YARD", "build", "is_built"]
