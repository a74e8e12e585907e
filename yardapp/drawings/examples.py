"""Every drawing once or more, from made-up figures, for the sheet of parts."""

from markupsafe import Markup

from yardapp.drawings.bench_examples import bench_drawings
from yardapp.drawings.bore_on_taper import bore_on_taper
from yardapp.drawings.disc_under_hull import RuleBand, disc_under_hull
from yardapp.drawings.helix import helix_triangle
from yardapp.drawings.pitch_map import PitchCell, pitch_map
from yardapp.drawings.plot import Axis, Band, Curve, Dot, plot
from yardapp.drawings.propeller import from_aft
from yardapp.drawings.timeline import Bar, TimeRow, timeline

Example = tuple[Markup, list[tuple[str, str]]]


def every_drawing() -> dict[str, Example]:
    """Drawings by name, each with the figures for its table."""
    return {**_propellers(), **_tapers(), **_rooms_and_helices(), **_comparisons(), **bench_drawings()}


def _propellers() -> dict[str, Example]:
    three = from_aft(
        0.559,
        3,
        "right",
        hub_diameter_m=0.1,
        bore_m=0.0381,
        pitch_m=0.412,
        area_ratio=0.5,
        diameter_label="⌀ 559 ± 2 mm",
        key="three",
    )
    four = from_aft(
        0.46, 4, "left", hub_diameter_m=0.09, bore_m=0.035, area_ratio=0.65, diameter_label="⌀ 460 mm", key="four"
    )
    rows = [("Diameter", "559 ± 2 mm"), ("Blades", "3"), ("Hand", "right")]
    return {
        "propeller": (three, rows),
        "four blades, left hand": (four, [("Diameter", "460 mm"), ("Blades", "4"), ("Hand", "left")]),
        "five blades, hand not known": (from_aft(0.6, 5, None, diameter_label="⌀ 600 mm", key="five"), []),
        "propeller of which nothing is known": (from_aft(None, None, None, key="none"), []),
    }


def _tapers() -> dict[str, Example]:
    alone = bore_on_taper(0.0381, 1 / 16, 0.076, None, None, None, shaft_label="shaft 1:16", key="alone")
    return {
        "bore_on_taper": (_slow_hub(), [("Hub", "1:16"), ("Shaft", "1:12"), ("Gap, small end", "1.6 mm")]),
        "hub that seats": (_seated_hub(), [("Hub", "1:16"), ("Shaft", "1:16"), ("Set-up", "3.2 mm")]),
        "hub too fast": (_fast_hub(), [("Hub", "1:12"), ("Shaft", "1:16"), ("Gap, large end", "1.6 mm")]),
        "bore not known": (alone, []),
    }


def _slow_hub() -> Markup:
    return bore_on_taper(
        0.0381,
        1 / 12,
        0.076,
        0.0381,
        1 / 16,
        0.079,
        shaft_label="shaft 1:12",
        bore_label="hub 1:16",
        gap_label="gap 1.6 mm",
        overhang_label="3 mm past",
        key="slow",
    )


def _seated_hub() -> Markup:
    return bore_on_taper(
        0.0381,
        1 / 16,
        0.076,
        0.0383,
        1 / 16,
        0.079,
        shaft_label="shaft 1:16",
        bore_label="hub 1:16",
        set_up_label="up by 3.2 mm",
        overhang_label="0.2 mm short",
        key="seated",
    )


def _fast_hub() -> Markup:
    return bore_on_taper(
        0.0381,
        1 / 16,
        0.12,
        0.0379,
        1 / 12,
        0.079,
        shaft_label="shaft 1:16",
        bore_label="hub 1:12",
        gap_label="gap 1.6 mm",
        set_up_label="29.5 mm short",
        overhang_label="11.5 mm short",
        key="fast",
    )


def _rooms_and_helices() -> dict[str, Example]:
    bands = [RuleBand(label="10 % of D", clearance_m=0.0559), RuleBand(label="15 % of D", clearance_m=0.0839)]
    room = disc_under_hull(
        0.559,
        0.34,
        shaft_to_sole_m=0.33,
        bands=bands,
        diameter_label="⌀ 559 ± 2 mm",
        tip_gap_label="60 mm",
        sole_gap_label="50 mm",
        key="room",
    )
    helix = helix_triangle(
        0.1957,
        0.698,
        0.0333,
        base_label="137 mm",
        rise_label="33.3 mm",
        angle_label="13.7°",
        pitch_label="300 ± 12 mm",
        turn_label="one turn at 196 mm: 1230 mm",
        key="helix",
    )
    return {
        "disc under hull": (room, [("Tip to hull", "60 mm"), ("Tip to sole", "50 mm")]),
        "hull not measured": (disc_under_hull(0.559, None, bands=bands[:1], diameter_label="⌀ 559 mm", key="open"), []),
        "helix": (helix, [("Rise", "33.3 mm"), ("Swing", "40°"), ("Pitch", "300 ± 12 mm")]),
    }


def _comparisons() -> dict[str, Example]:
    return {
        "pitch survey": (_survey(), [("Blade 1, 0.7 R", "412 mm"), ("Blade 2, 0.7 R", "403 mm, below")]),
        "stock over diameter and pitch": (_stock(), [("P-0412", "559 × 412 mm"), ("P-0077", "600 × 430 mm")]),
        "coats": (_coats(), [("Blade 1", "window until 14:50"), ("Blade 2", "window until 15:00")]),
    }


def _survey() -> Markup:
    read = [("405", ""), ("412", ""), ("415", "")], [("398", "low"), ("403", "low"), ("412", "")]
    blades: list[list[PitchCell | None]] = [
        [PitchCell(label=text, side=side) for text, side in blade] for blade in read
    ]
    blades.append([PitchCell(label="410", side=""), PitchCell(label="424", side="high"), None])
    return pitch_map(blades, ("0.5 R", "0.7 R", "0.9 R"), mean_label="409", asked_label="411 ± 8 mm", key="survey")


def _stock() -> Markup:
    lines = [
        Curve(points=[(480, 470 - drop), (640, 400 - drop)], label=f"{rpm} rpm", drawn=drawn)
        for rpm, drop, drawn in ((2600, 0, "thin"), (2800, 40, "line"), (3000, 80, "thin"))
    ]
    dots = [
        Dot(x=559, y=412, label="P-0412", href="#", is_chosen=True),
        Dot(x=600, y=430, label="P-0077", href="#"),
        Dot(x=510, y=380, label="P-0102", href="#"),
    ]
    across = Axis(label="diameter, mm", low=480, high=640, ticks=[(480, "480"), (560, "560"), (640, "640")])
    up = Axis(label="pitch, mm", low=300, high=500, ticks=[(300, "300"), (400, "400"), (500, "500")])
    bands = [Band(low=615, high=640, label="tips")]
    return plot(across, up, title="Stock over diameter and pitch", curves=lines, dots=dots, bands=bands, key="stock")


def _coats() -> Markup:
    rows = [
        TimeRow(
            label=f"Blade {number + 1}",
            bars=[
                Bar(start_s=600 * number, end_s=600 * number + 900, kind="coat"),
                Bar(start_s=600 * number + 1500, end_s=600 * number + 2400, kind="window"),
            ],
        )
        for number in range(3)
    ]
    return timeline(rows, now_s=2000, now_label="14:32", key="coats")
