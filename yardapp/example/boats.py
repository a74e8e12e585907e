"""Boats and their drives, with what nobody has read yet left out."""

from collections.abc import Mapping
from typing import Any

from yardapp.example.ends import ENDS
from yardapp.example.yard import Yard, rows, size
from yardapp.quantities import Kind
from yardapp.vessels import services as vessels

# Figures off an engine's plate, and figures read off the boat with the ± (k = 1) that the tool gives.
PLATE: dict[str, tuple[str, Kind]] = {
    "power": ("rated_power_w", "power"),
    "speed": ("rated_speed_rps", "rotation"),
    "ratio": ("reduction_ratio", "number"),
}
U_CALIPER_M = 0.000025
U_RULE_M = 0.00025
U_TAPE_M = 0.0005
U_ONE_IN = 0.2  # how well a taper of 1:N was read at the shaft, in N


def log_boats(yard: Yard) -> None:
    """Every boat of the list, and every drive."""
    ada = yard.who("Ada")
    for row in rows("boats"):
        owner_id = yard.who("Thorne").person_id if row["owner"] == "R. Thorne" else None
        vessel = vessels.log_vessel(
            yard.session,
            ada,
            name=row["name"],
            kind=row["kind"],
            owner=row["owner"],
            owner_id=owner_id,
            length_m=size(row["length"]),
            length_m_typed=row["length"],
            block_ratio=float(row["block"]),
            note=row["note"],
        )
        yard.vessels[row["name"]] = vessel.id
    for row in rows("drives"):
        drive = vessels.set_drive(yard.session, yard.who("Finn"), yard.vessels[row["boat"]], _said(row))
        yard.drives[f"{row['boat']}, {row['position']}"] = drive.id


def _said(row: Mapping[str, str]) -> dict[str, Any]:
    """A line of the list as the drive's form would hand it over."""
    said: dict[str, Any] = {name: row[name] or None for name in ("position", "engine", "hand", "note")}
    said["hull_clearance_from"] = row["clearance_from"]
    for column, (name, kind) in PLATE.items():
        said |= _typed(name, row[column], kind)
    return said | _shaft_line(row)


def _shaft_line(row: Mapping[str, str]) -> dict[str, Any]:
    end = ENDS[row["shaft"]]
    said = _typed("shaft_diameter_m", row["shaft"], u=U_CALIPER_M) | _typed("taper", row["taper"], "taper")
    said["u_taper"] = said["taper"] ** 2 * U_ONE_IN
    if row["taper_length"] == "read":
        said |= _typed("taper_length_m", end.taper_length, u=U_RULE_M)
        said |= _typed("keyway_width_m", end.keyway_width, u=U_CALIPER_M)
        said |= _typed("keyway_depth_m", end.keyway_depth, u=U_CALIPER_M)
    said |= _typed("hub_space_m", row["hub_space"], u=U_RULE_M)
    return said | _typed("hull_clearance_m", row["clearance"], u=U_TAPE_M)


def _typed(name: str, text: str, kind: Kind = "length", u: float | None = None) -> dict[str, Any]:
    """A figure by name with what was typed beside it; nothing where nobody read it."""
    if not text:
        return {}
    return {name: size(text, kind), f"{name}_typed": text, f"u_{name}": u}
