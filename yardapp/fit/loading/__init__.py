"""Engine, hull and propeller together: what she turns at full throttle, how well that is known, what would mend it."""

from yardapp.fit.loading.hull import Hull, hull_curve
from yardapp.fit.loading.loading import loading, scatter
from yardapp.fit.loading.parts import Assumed, Lacking, Loading, Premises, Step, Unsure
from yardapp.fit.loading.premises import premises
from yardapp.fit.loading.reach import free_meet, meet, propped
from yardapp.fit.loading.water import HULL_KINDS

__all__ = [
    "HULL_KINDS",
    "Assumed",
    "Hull",
    "Lacking",
    "Loading",
    "Premises",
    "Step",
    "Unsure",
    "free_meet",
    "hull_curve",
    "loading",
    "meet",
    "premises",
    "propped",
    "scatter",
]
