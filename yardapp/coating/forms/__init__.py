"""What may be typed about coating, form by form."""

from yardapp.coating.forms.plan import MOST_PIECES, PlanForm
from yardapp.coating.forms.rating import CorrectRatingForm, DocumentForm, PhotoForm, RatingForm
from yardapp.coating.forms.sheet import MOST_ROWS, SystemForm
from yardapp.coating.forms.stock import TinForm
from yardapp.coating.forms.taps import (
    BOXES,
    BringBackForm,
    CorrectForm,
    OfferForm,
    PlainForm,
    Readings,
    TakeForm,
    TapForm,
)

__all__ = [
    "BOXES",
    "MOST_PIECES",
    "MOST_ROWS",
    "BringBackForm",
    "CorrectForm",
    "CorrectRatingForm",
    "DocumentForm",
    "OfferForm",
    "PhotoForm",
    "PlainForm",
    "PlanForm",
    "RatingForm",
    "Readings",
    "SystemForm",
    "TakeForm",
    "TapForm",
    "TinForm",
]
