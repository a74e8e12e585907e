"""Days at the bench: readings as they would be read off the tools, kept as bench sheets."""

from collections.abc import Mapping
from math import cos, pi, radians
from typing import Any

from yardapp.bench import services as bench
from yardapp.bench.tools import TOOLS
from yardapp.example.ends import ENDS
from yardapp.example.yard import Yard, millimetres, size
from yardapp.people.services import Who

SWING_DEG = 45.0
PAST_THE_TAPER_M = 0.006  # a hub stands about a quarter of an inch past its taper
# No bore is its nominal size: how far each of six, in turn, is off (m), at the large end and on the taper's drop.
WEAR_M = (-0.00010, 0.0, -0.00015, 0.00012, -0.00005, 0.00004)
DROP_M = (0.0, 0.00002, -0.00003, 0.00004, 0.00001, -0.00002)
SPREAD_M = (0.0, 0.0006, -0.0004, 0.0003)  # no blade is quite like the first: how far the rise of each is off


def bench_day(yard: Yard, who: Who, tag: str, row: Mapping[str, str], number: int) -> None:
    """Diameter from the tips, bore and hub with the caliper, and a blade's pitch where the ring was set up."""
    read_diameter(yard, who, tag, size(row["diameter"]), int(row["blades"]))
    if row["bore"]:
        read_bore(yard, who, tag, row, number)
    if row["pitch"]:
        read_pitch(yard, who, tag, size(row["diameter"]), size(row["pitch"]))


def read_diameter(yard: Yard, who: Who, tag: str, diameter_m: float, blades: int) -> None:
    """Straight across where a tip has another opposite; else from tip to furthest tip."""
    u = TOOLS["steel rule"].u
    if blades % 2:
        chord_m = round(diameter_m * cos(pi / (2 * blades)), 4)
        reading = bench.DiameterReading(chord_m=chord_m, u_chord_m=u, tips="far", blades=blades)
        boxes = {"chord_m_typed": millimetres(chord_m), "tip_tool": "steel rule"}
    else:
        reading = bench.DiameterReading(across_m=diameter_m, u_across_m=u, blades=blades)
        boxes = {"across_m_typed": millimetres(diameter_m), "tip_tool": "steel rule"}
    bench.measure_diameter(yard.session, who, tag, reading, bench.Filled(boxes=boxes))


def read_bore(yard: Yard, who: Who, tag: str, row: Mapping[str, str], number: int) -> None:
    """Both ends, the keyway and the hub; a pilot or parallel bore has one size and no keyway yet."""
    if row["bore_kind"] != "taper":
        read = {"bore_large_m": round(size(row["bore"]) + DROP_M[number % 6], 5)}
        _keep_bore(yard, who, tag, row["bore_kind"], read)
        return
    end = ENDS[row["bore"]]
    hub_m = round(size(end.taper_length) + PAST_THE_TAPER_M, 3)
    large_m = round(size(row["bore"]) + WEAR_M[number % 6], 5)
    read = {
        "bore_large_m": large_m,
        "bore_small_m": round(large_m - hub_m * size(row["taper"], "taper") + DROP_M[number % 6], 5),
        "bore_length_m": hub_m,
        "keyway_width_m": round(size(end.keyway_width), 5),
        "keyway_depth_m": round(size(end.keyway_depth) * 2, 3) / 2,
        "hub_length_m": hub_m,
        "hub_diameter_m": round(size(row["bore"]) * 2.1, 3),
    }
    _keep_bore(yard, who, tag, "taper", read)


def _keep_bore(yard: Yard, who: Who, tag: str, kind: str, read: Mapping[str, Any]) -> None:
    along = ("bore_length_m", "keyway_depth_m", "hub_length_m")
    u: dict[str, Any] = {f"u_{name}": TOOLS["steel rule" if name in along else "caliper"].u for name in read}
    boxes = {f"{name}_typed": millimetres(value_m, 1 if name in along else 2) for name, value_m in read.items()}
    tools = {"across_tool": "caliper", "along_tool": "steel rule"}
    reading = bench.BoreReading(bore_kind=kind, **read, **u)
    bench.measure_bore(yard.session, who, tag, reading, bench.Filled(boxes=boxes | tools))


def read_pitch(
    yard: Yard, who: Who, tag: str, diameter_m: float, pitch_m: float, *, blade: int = 1, note: str = ""
) -> None:
    """Rise over a swing of 45° at 0.7 of the radius, to the tenth of a millimetre that the height gauge shows."""
    swing_rad = radians(SWING_DEG)
    rise_m = round(pitch_m * swing_rad / (2 * pi) + SPREAD_M[blade - 1], 4)
    radius_m = round(0.35 * diameter_m, 3)
    reading = bench.PitchReading(
        blade=blade,
        radius_m=radius_m,
        u_radius_m=TOOLS["steel rule"].u,
        rise_m=rise_m,
        u_rise_m=TOOLS["height gauge"].u,
        swing_rad=swing_rad,
        u_swing_rad=TOOLS["degree ring"].u,
    )
    boxes = {
        "blade_typed": str(blade),
        "radius_m_typed": millimetres(radius_m, 0),
        "rise_m_typed": millimetres(rise_m),
        "swing_rad_typed": f"{SWING_DEG:g} deg",
        "rise_tool": "height gauge",
        "swing_tool": "degree ring",
        "radius_tool": "steel rule",
    }
    bench.measure_pitch(yard.session, who, tag, reading, bench.Filled(boxes=boxes, note=note))
