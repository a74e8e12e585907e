"""What may be typed on a bench sheet: one form for each way of each method."""

from yardapp.bench.forms.alike import ALIKE, AlikeForm
from yardapp.bench.forms.bore import BORE, BoreForm
from yardapp.bench.forms.boxes import BenchForm
from yardapp.bench.forms.diameter import DIAMETER, AcrossForm, RadiusForm, TipsForm
from yardapp.bench.forms.pitch import PITCH, AngleForm, ChordForm, EdgesForm, RiseForm, TemplateForm

WAYS = {"diameter": DIAMETER, "pitch": PITCH, "bore": BORE, "alike": ALIKE}

__all__ = [
    "ALIKE",
    "BORE",
    "DIAMETER",
    "PITCH",
    "WAYS",
    "AcrossForm",
    "AlikeForm",
    "AngleForm",
    "BenchForm",
    "BoreForm",
    "ChordForm",
    "EdgesForm",
    "RadiusForm",
    "RiseForm",
    "TemplateForm",
    "TipsForm",
]
