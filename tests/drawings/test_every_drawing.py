import pytest

from tests.drawings.reading import SVG, Drawn
from yardapp.drawings.bore_on_taper import bore_on_taper
from yardapp.drawings.disc_under_hull import disc_under_hull
from yardapp.drawings.examples import every_drawing
from yardapp.drawings.hand import hand_picture
from yardapp.drawings.helix import helix_triangle
from yardapp.drawings.propeller import from_aft

NOT_KNOWN = {
    "propeller": from_aft(None, None, None),
    "bore": bore_on_taper(None, None, None, None, None, None),
    "disc": disc_under_hull(None, None),
    "helix": helix_triangle(None, None, None),
}
NAN = float("nan")
NAN_KNOWN = {
    "propeller": from_aft(NAN, 3, "right", hub_diameter_m=NAN, bore_m=NAN, pitch_m=NAN, area_ratio=NAN),
    "bore": bore_on_taper(NAN, NAN, NAN, NAN, NAN, NAN),
    "disc": disc_under_hull(NAN, NAN, shaft_to_sole_m=NAN),
    "helix": helix_triangle(NAN, NAN, NAN),
}
ALL = {name: svg for name, (svg, _) in every_drawing().items()}
ALL |= {"right": hand_picture("right"), "left": hand_picture("left")}


@pytest.mark.parametrize("svg", ALL.values(), ids=ALL)
def test_a_drawing_says_what_it_is_to_a_screen_reader(svg):
    drawn = Drawn(svg)

    assert drawn.root.get("role") == ("group" if drawn.root.find(f".//{SVG}a") is not None else "img")
    assert len(drawn.title) > 5
    assert len(drawn.desc) > 5
    assert all(name in drawn.ids for name in drawn.root.get("aria-labelledby").split())


@pytest.mark.parametrize("svg", ALL.values(), ids=ALL)
def test_a_drawing_carries_no_style_and_no_script_of_its_own(svg):
    drawn = Drawn(svg)

    assert not [mark for mark in drawn.root.iter() if mark.get("style")]
    assert not {mark.tag for mark in drawn.root.iter()} & {f"{SVG}style", f"{SVG}script"}


@pytest.mark.parametrize("svg", ALL.values(), ids=ALL)
def test_every_label_starts_inside_its_sheet(svg):
    drawn = Drawn(svg)
    left, top, width, height = (float(number) for number in drawn.root.get("viewBox").split())

    for mark in drawn.root.iter(f"{SVG}text"):
        assert left <= float(mark.get("x")) <= left + width
        assert top <= float(mark.get("y")) <= top + height


def test_drawings_with_keys_of_their_own_share_no_id_on_one_page():
    ids = [name for svg in ALL.values() for name in Drawn(svg).ids]

    assert len(ids) == len(set(ids))


@pytest.mark.parametrize("svg", NOT_KNOWN.values(), ids=NOT_KNOWN)
def test_a_drawing_of_which_nothing_is_known_says_so(svg):
    said = Drawn(svg).text

    assert "not known" in said or "not read" in said or "not measured" in said


@pytest.mark.parametrize("svg", NAN_KNOWN.values(), ids=NAN_KNOWN)
def test_a_figure_that_is_nan_is_never_drawn(svg):
    assert "nan" not in str(svg).lower()


def test_a_label_with_signs_of_the_markup_is_text_and_not_markup():
    drawn = Drawn(from_aft(0.559, 3, "right", diameter_label="<b>22 & 18</b>"))

    assert "<b>22 & 18</b>" in drawn.text
