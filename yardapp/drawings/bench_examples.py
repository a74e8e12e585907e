"""The drawings of the bench, from made-up figures, for the sheet of parts."""

from math import radians

from markupsafe import Markup

from yardapp.drawings.blade_outline import blade_outline, blade_widths
from yardapp.drawings.blades_alike import BladeTip, blades_alike
from yardapp.drawings.condition import FaultMark, condition
from yardapp.drawings.play import play_in_bearing
from yardapp.drawings.shaft_line import ShaftPlace, shaft_bow, shaft_wear
from yardapp.drawings.survey_stations import survey_stations
from yardapp.drawings.template_on_blade import template_on_blade

Example = tuple[Markup, list[tuple[str, str]]]


def bench_drawings() -> dict[str, Example]:
    """Drawings by name, each with the figures for its table."""
    return {**_blades(), **_areas(), **_shafts(), **_faults()}


def _blades() -> dict[str, Example]:
    tips = [
        BladeTip(number=1, radius_ratio=1.0, track_m=-0.002, track_label="-2 mm", place_rad=0.0),
        BladeTip(number=2, is_odd=True, radius_ratio=0.98, track_m=0.0061, track_label="+6.1 mm", place_rad=0.05),
        BladeTip(number=3, radius_ratio=0.995, track_m=-0.0015, track_label="-1.5 mm", place_rad=-0.01),
    ]
    labels = {"template_label": "template 400 mm", "gap_label": "gap 2 mm", "blade_label": "blade 416 mm"}
    rows = [("Template", "400 mm"), ("Gap, leading edge", "2 mm"), ("Pitch", "416 mm")]
    everywhere = survey_stations((0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95), 5, blades=4, hand="left", key="rings")
    return {
        "where a survey reads": (everywhere, [("Radii", "0.3 R to 0.95 R"), ("Stations", "5")]),
        "blades alike, one bent": (blades_alike(tips, key="bent"), [("Blade 2, height", "+6.1 mm")]),
        "blades alike, none read": (blades_alike([], key="unread"), []),
        "template on a blade": (template_on_blade(radians(23), 0.002, 0.12, **labels, key="gap"), rows),
        "template not read": (template_on_blade(None, None, None, key="no-template"), []),
    }


def _areas() -> dict[str, Example]:
    widths = ((0.08, 0.09, "90 mm"), (0.13, 0.13, "130 mm"), (0.19, 0.14, "140 mm"), (0.24, 0.09, "90 mm"))
    corners = ((0.0, 0.0), (0.09, 0.0), (0.13, 0.08), (0.11, 0.18), (0.045, 0.23), (-0.02, 0.18), (-0.04, 0.08))
    rows = [("Radius 80 mm", "90 mm"), ("Radius 190 mm", "140 mm")]
    return {
        "blade by its widths": (blade_widths(widths, 0.28, 0.05, key="taped"), rows),
        "outline of a rubbing": (blade_outline(corners, label="0.0263 m²", key="rubbed"), [("Area", "0.0263 m²")]),
    }


def _shafts() -> dict[str, Example]:
    worn = [
        ShaftPlace(along_m=0.1, figure_m=0.0, label="38.10 mm", name="gland"),
        ShaftPlace(along_m=0.9, figure_m=0.0005, label="37.60 mm", name="bearing", is_worst=True),
        ShaftPlace(along_m=1.6, figure_m=0.0001, label="38.00 mm", name="taper"),
    ]
    bent = [
        ShaftPlace(along_m=along, figure_m=off, label=label, is_worst=off == 0.0009)
        for along, off, label in ((0.4, 0.0004, "0.4 mm"), (0.8, 0.0009, "0.9 mm"), (1.2, 0.0005, "0.5 mm"))
    ]
    labels = {"play_label": "play 0.8 mm", "bore_label": "bore 38.9 mm", "shaft_label": "shaft 38.1 mm"}
    return {
        "wear along a shaft": (shaft_wear(worn, key="worn"), [("Bearing", "37.60 mm, 0.50 mm worn")]),
        "bow of a shaft": (shaft_bow(bent, key="bent-shaft"), [("At 800 mm", "0.9 mm off its line")]),
        "shaft read nowhere": (shaft_bow([], key="no-shaft"), []),
        "play in a bearing": (play_in_bearing(0.0008, **labels, key="worn-bearing"), [("Play", "0.8 mm")]),
        "play not read": (play_in_bearing(None, key="no-play"), []),
    }


def _faults() -> dict[str, Example]:
    marks = [
        FaultMark(number=1, blade=2, radius_ratio=0.7, side="face", severity="stop", label="Crack, 12 mm; stop"),
        FaultMark(number=2, blade=1, radius_ratio=1.0, side="back", severity="watch", label="Bend at the tip; watch"),
        FaultMark(number=3, blade=None, radius_ratio=None, side="hub", severity="note", label="Pitting, hub; note"),
    ]
    rows = [(f"Fault {mark.number}", mark.label) for mark in marks]
    return {
        "condition with three faults": (condition(3, "right", marks, key="faults"), rows),
        "condition, no fault": (condition(4, "left", key="sound"), []),
    }
