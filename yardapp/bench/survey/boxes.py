"""What stood in the boxes of a kept survey, so that it opens again as it was typed."""

from collections.abc import Iterable, Mapping
from typing import Any

from yardapp.bench.survey.cells import Cell
from yardapp.bench.tools import K
from yardapp.quantities import exact

PLAIN = ("blades", "hand", "counts", "wanted_class", "height_tool")
LENGTHS = ("diameter_m", "design_pitch_m", "wanted_pitch_m")
ERRORS = {
    "plus_minus_height_m": ("u_height_m", "length"),
    "plus_minus_angle_rad": ("u_angle_rad", "angle"),
    "common_height_m": ("u_common_height_m", "length"),
    "common_angle_rad": ("u_common_angle_rad", "angle"),
}


def boxes_of(readings: Mapping[str, Any], note: str = "") -> dict[str, str]:
    """The boxes as typed; of a survey that never stood in boxes, its figures as somebody would have typed them."""
    typed = readings.get("boxes")
    return {**(typed if typed is not None else _written(readings)), "note": note}


def _written(readings: Mapping[str, Any]) -> dict[str, str]:
    cells = readings["cells"]
    radii = sorted({cell["radius_ratio"] for cell in cells})
    boxes = {name: str(readings[name]) for name in PLAIN if readings.get(name)}
    boxes |= {name: exact(readings[name], "length") for name in LENGTHS if readings.get(name)}
    boxes |= {box: exact(K * readings[u], kind) for box, (u, kind) in ERRORS.items() if readings.get(u)}  # type: ignore[arg-type]
    return {
        "blades": str(max(cell["blade"] for cell in cells)),
        "radii": " ".join(f"{radius:g}" for radius in radii),
        "stations": str(max(cell["station"] for cell in cells)),
        "way": "angles",
        "unit": "mm",
        **boxes,
        **_cells(cells),
    }


def _cells(cells: Iterable[Cell]) -> dict[str, str]:
    boxes = {}
    for cell in cells:
        place = f"{cell['blade']}-{cell['radius_ratio']:g}-{cell['station']}"
        boxes[f"h-{place}"] = exact(cell["height_m"], "length")
        boxes[f"a-{place}"] = exact(cell["angle_rad"], "angle")
    return boxes
