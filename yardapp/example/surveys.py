"""A propeller surveyed all over, and a survey that somebody was called away from."""

from math import degrees, radians, sin

from yardapp.bench import services as bench
from yardapp.example.yard import Yard, size

RADII = (0.4, 0.5, 0.6, 0.7, 0.8, 0.9)
ANGLES_DEG = (0, 15, 30, 45)
LAID_OUT = {
    "way": "steps",
    "counts": "anticlockwise",
    "unit": "mm",
    "radii": " ".join(f"{radius:g}" for radius in RADII),
    "angles": " ".join(str(angle) for angle in ANGLES_DEG),
    "wanted_class": "II",
    "height_tool": "height gauge",
    "angle_tool": "swing template",
}
BENT = (2, 0.7)  # somebody met a log with this blade


def propellers_are_surveyed(yard: Yard) -> None:
    """One was read all over before it went to the shop; of another, blade 1 is done."""
    _whole(yard, yard.spare("Plum Telegraph, centre"), "10 in", blades=3)
    _half(yard, yard.spare("Upside Clover, port"), "22 in", blades=4)


def _whole(yard: Yard, tag: str, pitch: str, *, blades: int) -> None:
    """Read by Finn with the swing template: its error is one and the same on every blade."""
    cells = [
        bench.Cell(
            blade=blade,
            radius_ratio=radius,
            station=station,
            height_m=_height_m(size(pitch), blade, radius, angle),
            angle_rad=radians(angle),
            height_m_typed=f"{1000 * _height_m(size(pitch), blade, radius, angle):.1f}",
        )
        for blade in range(1, blades + 1)
        for radius in RADII
        for station, angle in enumerate(ANGLES_DEG, 1)
    ]
    reading = bench.SurveyReading(
        blades=blades,
        hand="left",
        design_pitch_m=size(pitch),
        u_height_m=0.00005,
        u_angle_rad=0.0,
        u_common_height_m=0.0,
        u_common_angle_rad=radians(0.05),
        cells=cells,
    )
    boxes = {**LAID_OUT, "blades": str(blades), "hand": "left", "design_pitch_m": pitch, "common_angle_rad": "0.1"}
    boxes |= {_name(cell["blade"], cell["radius_ratio"], cell["station"]): cell["height_m_typed"] for cell in cells}
    about = bench.Filled(boxes={"way": "steps", "height_tool": "height gauge", "boxes": boxes}, note="Before the shop.")
    bench.measure_survey(yard.session, yard.who("Finn"), tag, reading, about)


def _half(yard: Yard, tag: str, pitch: str, *, blades: int) -> None:
    """Ivy was called away to the slip after the first blade."""
    read = {
        _name(1, radius, station): f"{1000 * _height_m(size(pitch), 1, radius, angle):.1f}"
        for radius in RADII
        for station, angle in enumerate(ANGLES_DEG, 1)
    }
    boxes = {**LAID_OUT, "blades": str(blades), "hand": "left", "design_pitch_m": pitch, **read}
    bench.begin_survey(yard.session, yard.who("Ivy"), tag, boxes)


def _name(blade: int, radius: float, station: int) -> str:
    return f"h-{blade}-{radius:g}-{station}"


def _height_m(pitch_m: float, blade: int, radius: float, angle_deg: float) -> float:
    """As the gauge shows it, to a tenth of a millimetre; left-hand, so it falls anticlockwise."""
    here_m = pitch_m * (1.07 if (blade, radius) == BENT else 1 + 0.004 * sin(7 * blade + degrees(radius)))
    return round(0.090 - here_m * angle_deg / 360, 4)
