"""Propellers: what is on the boats, what came off them, what lies on the racks, what was found under a tarpaulin."""

from collections.abc import Mapping

from yardapp.example.ends import ENDS
from yardapp.example.sheets import bench_day
from yardapp.example.yard import Yard, ago, rows, size
from yardapp.gear import services as gear
from yardapp.gear.services import Said
from yardapp.marks import services as marks
from yardapp.people.services import Who

U_TAPE_ACROSS_M = 0.0025  # common practice, no source: a tape laid across by eye
U_CALIPER_M = 0.0001  # inside, by hand, in a bore that is not clean
TAM_LEFT = 800  # days ago
SEASONS_ABOARD = 420


def log_propellers(yard: Yard) -> None:
    """Every propeller of the list, oldest first, each by whoever was at the bench that day."""
    for number, row in enumerate(rows("propellers")):
        days = int(row["days"])
        who = yard.who("Tam" if days > TAM_LEFT else "Finn" if number % 2 else "Ivy")
        item = _logged(yard, who, row)
        if row["stamp"]:
            marks.record_mark(yard.session, who, item, row["stamp"], spot=("aft face", "forward face")[number % 2])
        if row["how"] == "bench":
            bench_day(yard, who, item.tag, row, number)
        _put_where_it_is(yard, who, item.tag, row)


def _logged(yard: Yard, who: Who, row: Mapping[str, str]) -> gear.Item:
    """As it came to the bench: tag, what the eye saw, what a tape and a caliper read."""
    days = int(row["days"]) + (SEASONS_ABOARD if row["state"] == "off" else 3)
    at = ago(days)
    said = [*_by_eye(row, days), *(_by_tape(row, days) if row["how"] == "tape" else ())]
    if row["how"] == "stamp" and row["bore"]:
        said += _off_a_label(row)
    place = row["place"] if row["state"] in ("stock", "find") else "Bench 1"
    return gear.log_item(yard.session, who, *said, place=place, note=row["note"], at=at)


def _by_eye(row: Mapping[str, str], days: int) -> list[Said]:
    seen = ago(days)
    said = []
    if row["hand"]:
        note = "seen: how the near blade leans"
        said.append(Said(what="hand", basis="measured", word=row["hand"], true_from=seen, note=note))
    if row["blades"]:
        blades = row["blades"]
        said.append(
            Said(what="blades", basis="measured", value=float(blades), u_value=0.0, typed=blades, true_from=seen)
        )
    if row["metal"]:
        said.append(Said(what="material", basis="guessed", word=row["metal"], true_from=seen, note="by its colour"))
    return said


def _by_tape(row: Mapping[str, str], days: int) -> list[Said]:
    """The diameter as every yard first reads it, and the bore where it has one that a caliper reaches."""
    said = [_read("diameter_m", row["diameter"], U_TAPE_ACROSS_M, "tape", days)]
    if row["bore"]:
        end = ENDS[row["bore"]]
        said += [
            _read("bore_large_m", row["bore"], U_CALIPER_M, "caliper", days),
            _read("keyway_width_m", end.keyway_width, U_CALIPER_M, "caliper", days),
            Said(what="bore_kind", basis="measured", word=row["bore_kind"], true_from=ago(days), note="seen"),
            Said(what="taper", basis="paper", value=size(row["taper"], "taper"), typed=row["taper"], note="shaft's"),
        ]
    return said


def _off_a_label(row: Mapping[str, str]) -> list[Said]:
    """An old bin label gives the bore; nobody has put a caliper in it since."""
    bore = size(row["bore"])
    return [
        Said(what="bore_large_m", basis="paper", value=bore, typed=row["bore"], note="off the old bin label"),
        Said(what="bore_kind", basis="guessed", word="taper", note="most here are"),
    ]


def _read(what: str, typed: str, u: float, tool: str, days: int) -> Said:
    return Said(what=what, basis="measured", value=size(typed), u_value=u, typed=typed, true_from=ago(days), note=tool)


def _put_where_it_is(yard: Yard, who: Who, tag: str, row: Mapping[str, str]) -> None:
    """Onto its boat; off her again, for one that came off; what lies on a rack lies there already."""
    drive, days = f"{row['boat']}, {row['position']}", int(row["days"])
    if row["state"] in ("stock", "find"):
        yard.tags[row["place"]] = tag
        return
    on = days if row["state"] == "aboard" else days + SEASONS_ABOARD - 3
    gear.move_item(yard.session, who, tag, "went on", drive_id=yard.drives[drive], at=ago(on))
    if row["state"] == "off":
        gear.move_item(yard.session, who, tag, "came off", place=row["place"], at=ago(days))
    yard.tags[f"{'on' if row['state'] == 'aboard' else 'off'} {drive}"] = tag
