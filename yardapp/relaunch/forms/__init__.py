"""What may be typed before a relaunch."""

from yardapp.relaunch.forms.faults import AcceptForm, CloseForm, DecidesForm, FaultForm
from yardapp.relaunch.forms.launches import (
    AnswerForm,
    BareForm,
    GiveForm,
    HourForm,
    OverrideForm,
    PlanForm,
    ReleaseForm,
    ScanForm,
    WhyForm,
    answer_form,
)
from yardapp.relaunch.forms.lists import LineForm, NewListForm, PolicyForm, TellListForm

__all__ = [
    "AcceptForm",
    "AnswerForm",
    "BareForm",
    "CloseForm",
    "DecidesForm",
    "FaultForm",
    "GiveForm",
    "HourForm",
    "LineForm",
    "NewListForm",
    "OverrideForm",
    "PlanForm",
    "PolicyForm",
    "ReleaseForm",
    "ScanForm",
    "TellListForm",
    "WhyForm",
    "answer_form",
]
