"""What is known of some boats' hulls and shaft lines; of the others nobody has asked yet."""

from collections.abc import Mapping
from typing import Any

from yardapp.example.yard import Yard, rows, size
from yardapp.vessels import services as vessels

LINE = {"span": "shaft_span_m", "depth": "shaft_depth_m"}


def hulls_are_known(yard: Yard) -> None:
    """Kind and weight, here and there a curve of speed and power, the shaft's metal, span and depth."""
    ada = yard.who("Ada")
    for row in rows("hulls"):
        vessel = vessels.vessel_by_id(yard.session, ada, yard.vessels[row["boat"]])
        vessels.set_hull(yard.session, ada, vessel.id, vessel.version, _hull(row))
        for drive, _label in _drives(yard, row["boat"]):
            vessels.change_drive(yard.session, ada, drive.id, drive.version, _line(row))


def _drives(yard: Yard, boat: str) -> list[tuple[Any, str]]:
    found = vessels.list_drives(yard.session, yard.who("Ada"), limit=2000)
    return [(drive, label) for drive, label in found if label.startswith(f"{boat}, ")]


def _hull(row: Mapping[str, str]) -> dict[str, Any]:
    weight = row["displacement"]
    said: dict[str, Any] = {"hull_kind": row["hull_kind"], "displacement_kg": size(weight, "mass")}
    said["displacement_kg_typed"] = weight
    if row["curve"]:
        said |= {"speed_power": [_pair(pair) for pair in row["curve"].split("; ")], "speed_power_kind": row["taken"]}
    return said


def _pair(text: str) -> tuple[float, float]:
    speed, _, power = text.partition(" kn ")
    return size(f"{speed} kn", "speed"), size(power, "power")


def _line(row: Mapping[str, str]) -> dict[str, Any]:
    said: dict[str, Any] = {"shaft_alloy": row["alloy"]}
    for column, name in LINE.items():
        if row[column]:
            said |= {name: size(row[column]), f"{name}_typed": row[column]}
    return said
