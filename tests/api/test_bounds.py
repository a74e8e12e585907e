"""Both doors hold a figure to the same bounds."""

import pytest

from yardapp.api.bodies import bench, drives, happenings, items, vessels
from yardapp.bench.forms import bore, diameter, pitch
from yardapp.gear.forms import LogForm, LogShaftForm, WorkForm
from yardapp.vessels.forms import LogBoatForm, NewDriveForm

PAIRS = [
    (items.PROPELLER_SIZES, (LogForm,)),
    (happenings.WORK_SIZES, (WorkForm,)),
    (items.SHAFT_SIZES, (LogShaftForm,)),
    (items.BORE_SIZES, (bore.BoreForm,)),
    (bench.PITCH_SIZES, tuple(pitch.PITCH.values())),
    (bench.DIAMETER_SIZES, tuple(diameter.DIAMETER.values())),
    (drives.DRIVE_SIZES, (NewDriveForm,)),
    ((vessels.LENGTH,), (LogBoatForm,)),
]


def boxes():
    for sizes, forms in PAIRS:
        for size in sizes:
            for form in forms:
                box = getattr(form, size.name, None)
                if box is not None and size.kind != "count":
                    yield pytest.param(size, box.kwargs, id=f"{form.__name__}.{size.name}")


@pytest.mark.parametrize(("size", "said"), boxes())
def test_the_api_holds_a_figure_to_the_bounds_of_its_box(size, said):
    assert size.most == said.get("at_most")
    # A keyway of nothing is a finding: the API takes 0 for its width as well.
    assert size.least == said.get("at_least") or (size.name == "keyway_width_m" and size.least == 0)


def test_most_boxes_have_a_figure_in_the_api():
    assert len(list(boxes())) >= 30
