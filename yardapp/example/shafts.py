"""Shafts: on the boats, and on the arms of the shaft rack."""

from collections.abc import Mapping

from yardapp.example.ends import ENDS
from yardapp.example.yard import Yard, ago, rows, size
from yardapp.gear import services as gear
from yardapp.gear.services import Said

U_CALIPER_M = 0.000025
U_TAPE_M = 0.001


def log_shafts(yard: Yard) -> None:
    """Every shaft of the list."""
    finn = yard.who("Finn")
    for row in rows("shafts"):
        days = int(row["days"])
        drive_id = yard.drives.get(f"{row['boat']}, {row['position']}")
        came_off_id = drive_id if row["state"] == "off" else None
        item = gear.log_item(
            yard.session, finn, *_said(row), kind="shaft", place=row["place"], came_off_id=came_off_id, at=ago(days + 2)
        )
        yard.tags[f"shaft {row['boat']}, {row['position']}"] = item.tag
        if row["state"] == "aboard":
            gear.move_item(yard.session, finn, item.tag, "went on", drive_id=drive_id, at=ago(days))


def _said(row: Mapping[str, str]) -> list[Said]:
    seen = ago(int(row["days"]) + 2)
    said = [
        _read("diameter_m", row["diameter"], U_CALIPER_M, row),
        _read("length_m", row["length"], U_TAPE_M, row),
        Said(what="taper", basis="paper", value=size(row["taper"], "taper"), typed=row["taper"], note="as ordered"),
        Said(what="material", basis="guessed", word=row["metal"], true_from=seen, note="by its colour"),
    ]
    if row["state"] != "stock":
        end = ENDS[row["diameter"]]
        said.append(_read("taper_length_m", end.taper_length, U_TAPE_M, row))
        said.append(_read("keyway_width_m", end.keyway_width, U_CALIPER_M, row))
        said.append(_read("keyway_depth_m", end.keyway_depth, U_CALIPER_M * 2, row))
    return said


def _read(what: str, typed: str, u: float, row: Mapping[str, str]) -> Said:
    seen = ago(int(row["days"]) + 2)
    return Said(what=what, basis="measured", value=size(typed), u_value=u, typed=typed, true_from=seen)
