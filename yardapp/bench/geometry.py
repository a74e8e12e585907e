"""Where the bench's own formulas stood before they moved to `yardapp.formulas`."""

from yardapp.formulas.diameter import diameter_across, diameter_from_tip_radius
from yardapp.formulas.pitch import mark_radius, rise_from_edges

__all__ = ["diameter_across", "diameter_from_tip_radius", "mark_radius", "rise_from_edges"]
