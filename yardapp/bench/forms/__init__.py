"""What may be typed on a bench sheet: one form for each way of each method."""

from yardapp.bench.forms.alike import ALIKE, AlikeForm
from yardapp.bench.forms.area import AREA
from yardapp.bench.forms.bore import BORE, BoreForm
from yardapp.bench.forms.boxes import BenchForm
from yardapp.bench.forms.diameter import DIAMETER, AcrossForm, RadiusForm, TipsForm
from yardapp.bench.forms.pitch import PITCH, AngleForm, ChordForm, EdgesForm, RiseForm, TemplateForm
from yardapp.bench.forms.shaft import BEARING, RUN_OUT, SHAFT_END, WEAR

WAYS = {
    "diameter": DIAMETER,
    "pitch": PITCH,
    "bore": BORE,
    "alike": ALIKE,
    "area": AREA,
    "wear": WEAR,
    "run_out": RUN_OUT,
    "shaft_end": SHAFT_END,
    "bearing": BEARING,
}

__all__ = [
    "ALIKE",
    "AREA",
    "BEARING",
    "BORE",
    "DIAMETER",
    "PITCH",
    "RUN_OUT",
    "SHAFT_END",
    "WAYS",
    "WEAR",
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
