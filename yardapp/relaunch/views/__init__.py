"""Pages of the relaunch room."""

from yardapp.relaunch.views import board, faults, kept, lines, lists, owners, policies, releases, sheet
from yardapp.relaunch.views.door import bp

__all__ = ["board", "bp", "faults", "kept", "lines", "lists", "owners", "policies", "releases", "sheet"]
