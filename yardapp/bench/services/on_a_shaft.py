"""How a hub would sit on the shaft that it is meant for: set-up, what stands past the taper, metal still to bore."""

from typing import Any

from yardapp.bench.rows import row_name
from yardapp.bench.sums import Figure, Sum, read, work_out
from yardapp.bench.tools import K
from yardapp.errors import OutsideRange
from yardapp.formulas.seat import metal_to_bore, overhang, parting, wall_left
from yardapp.formulas.taper import set_up

SAME = 0.0005  # two tapers nearer than this are one: 0.05 mm in 100
PAST = "The hub's large end would pass the shaft's: look at the room to the bearing."
SHORT = "The hub's small end stays short of the taper's end: the nut would clamp the shaft's shoulder."
CANT_CLEAN = "The bore is too big already for that shaft at one end: it would not clean up."


def on_a_shaft(reading: Any, taper: Figure | None) -> tuple[list[Sum], list[str]]:
    """The sums that hub and shaft allow together, and what they say."""
    shaft = read(reading, "shaft_large_m")
    bore = read(reading, "bore_large_m")
    if shaft is None or bore is None:
        return [], []
    slope = read(reading, "shaft_taper")
    if reading.bore_kind in ("pilot", "parallel"):
        return _to_bore(reading, bore, shaft, slope)
    slope = slope or taper
    if slope is None:
        return [], ["The shaft's taper would tell how far the hub goes up."]
    sums = [work_out("set_up_m", set_up, bore_large_m=bore, shaft_large_m=shaft, taper=slope)]
    sums += _past(reading, sums[0].figure)
    said = [PAST] if sums[0].value > K * (sums[0].u or 0.0) else []
    said += [SHORT] if len(sums) > 1 and sums[1].value < 0 else []
    return _with_parting(reading, taper, sums, said)


def _past(reading: Any, up: Figure) -> list[Sum]:
    hub, length = read(reading, "hub_length_m"), read(reading, "shaft_length_m")
    if hub is None or length is None:
        return []
    return [work_out("overhang_m", overhang, hub_length_m=hub, taper_length_m=length, set_up_m=up)]


def _with_parting(reading: Any, taper: Figure | None, sums: list[Sum], said: list[str]) -> tuple[list[Sum], list[str]]:
    """Two tapers that are not one part toward one end."""
    own, length = read(reading, "shaft_taper"), read(reading, "bore_length_m")
    if taper is None or own is None or length is None:
        return sums, said
    reach = K * ((taper[1] or 0.0) ** 2 + (own[1] or 0.0) ** 2) ** 0.5
    if abs(taper[0] - own[0]) <= max(SAME, reach):
        return sums, said
    apart = work_out("parting_m", parting, hub_taper=taper, shaft_taper=own, length_m=length)
    where = "nut" if apart.value > 0 else "large"
    return [*sums, apart], [*said, f"Its taper is not the shaft's: they part toward the {where} end."]


def _to_bore(reading: Any, bore: Figure, shaft: Figure, slope: Figure | None) -> tuple[list[Sum], list[str]]:
    """A pilot bore: the metal still to go at either end, and the wall that is left."""
    sums: list[Sum] = []
    hub = read(reading, "hub_diameter_m")
    if slope is not None:
        ends = [(0.0, 0.0), *([length] if (length := read(reading, "hub_length_m")) else [])]
        for number, station in enumerate(ends, 1):
            figures = {"bore_large_m": bore, "shaft_large_m": shaft, "shaft_taper": slope, "station_m": station}
            figures["bore_taper"] = (0.0, 0.0)
            sums.append(work_out(row_name("metal_m", number), metal_to_bore, **figures))
    said = [CANT_CLEAN] if any(one.value < -K * (one.u or 0.0) for one in sums) else []
    if slope is None:
        said.append("The shaft's taper would tell how much metal is still to be bored away.")
    if hub is not None:
        deep = read(reading, "keyway_depth_m") or (0.0, 0.0)
        try:
            sums.append(work_out("wall_m", wall_left, hub_diameter_m=hub, bore_m=shaft, keyway_depth_m=deep))
        except OutsideRange:
            said.append("The hub's diameter can't be right for that shaft.")
    return sums, said
