"""Blades alike: track, rake, spacing and tip radius of every blade, and which one is the odd one out."""

from collections.abc import Mapping
from dataclasses import asdict
from math import degrees, nan
from typing import Any

from yardapp import quantities
from yardapp.bench.repeating import repeatable
from yardapp.bench.rows import (
    MOST_BLADES,
    row_name,
    row_names,
    rows_read,
    rows_reading,
    work_out_all,
    work_out_rows,
)
from yardapp.bench.services.keeping import Method
from yardapp.bench.sums import Figure, Known, Outcome, Sum, read, work_out
from yardapp.bench.tools import K
from yardapp.errors import Refused
from yardapp.filters import kind_of
from yardapp.formulas.blades_alike import (
    odd_one_out,
    off_the_others,
    place_off,
    rake,
    rake_angle,
    spacing_closing,
    spacing_off,
    spread,
)
from yardapp.formulas.diameter import diameter_from_tip_radius
from yardapp.formulas.iso484 import scope, spacing_limit
from yardapp.formulas.repeats import stray
from yardapp.formulas.tolerance import spacing_class
from yardapp.gear import services as gear

ROWS = ("height_m", "root_m", "tip_radius_m", "spacing_rad")
FAR_OFF = 0.2  # of the others' middle: misread, or the wrong blade
AlikeReading = rows_reading(
    "AlikeReading",
    ROWS,
    MOST_BLADES,
    figures=("root_radius_m",),
    words=("blades", "heavy_blade", "balance"),
)
# How a blade that is off reads, above zero and below.
OFF = {
    "height_m": ("its tip stands {} higher than the others'", "its tip stands {} lower than the others'"),
    "rake_m": ("it rakes {} further aft than the others", "it rakes {} less aft than the others"),
    "tip_radius_m": ("its tip reaches {} further out than the others'", "its tip reaches {} less far than the others'"),
    "place_rad": ("it stands {} on, toward the next blade", "it stands {} back, toward the blade before"),
}
NOT_ALL = "Read the angle from each blade to the next, all the way round: {} blades, {} angles."
TABLE = "Lying on its hub, a hub face out of true looks like track: turn it by one blade and read one tip again."


@repeatable
def alike_of(reading: Any, known: Known | None = None) -> Outcome:
    """What was read of each blade, held against the others. No register here.

    Raises
    ------
    OutsideRange
        A reading cannot be right.
    Refused
        The blades were not counted, nothing was read, or angles are missing.
    """
    known, rows = known or Known(), _rows(reading)
    sums = [*_heights(reading, rows), *_radii(rows), *_spacings(rows)]
    odd = [_odd(what, figures) for what, figures in _held(reading, rows, sums).items()]
    return Outcome(
        answer="spread_m",
        sums=tuple(sums),
        remarks=(*_sentences(odd), *_remarks(reading, rows, known, sums)),
        more={"odd": odd, "classes": _classes(sums, known), "blades": reading.blades},
    )


def _rows(reading: Any) -> dict[str, dict[int, Figure]]:
    blades = reading.blades
    if not blades:
        raise Refused("Count the blades: each is held against the others.", "blades")
    rows = {name: rows_read(reading, name, MOST_BLADES) for name in ROWS}
    beyond = next((name for name, one in rows.items() if one and max(one) > blades), "")
    if beyond:
        raise Refused(f"With {blades} blades there is no blade {max(rows[beyond])}.", "blades")
    if not any(rows.values()):
        raise Refused("Read the tips' heights, their radii, or the angles between blades.", row_name("height_m", 1))
    if 0 < len(rows["spacing_rad"]) < blades:
        missing = next(number for number in range(1, blades + 1) if number not in rows["spacing_rad"])
        raise Refused(NOT_ALL.format(blades, len(rows["spacing_rad"])), row_name("spacing_rad", missing))
    alone = next((name for name, one in rows.items() if len(one) == 1), "")
    if alone:
        empty = next(number for number in range(1, blades + 1) if number not in rows[alone])
        raise Refused("One blade alone is like itself. Read another.", row_name(alone, empty))
    return rows


def _heights(reading: Any, rows: Mapping[str, dict[int, Figure]]) -> list[Sum]:
    """Track of the tips, and rake where a mark near the root was read too."""
    heights, roots = rows["height_m"], rows["root_m"]
    sums = []
    if heights:
        sums = [work_out_all("spread_m", spread, "height_m", heights)]
        sums += work_out_rows("track_m", off_the_others, "height_m", heights)
    for number in sorted(set(heights) & set(roots)):
        figures = {"root_height_m": roots[number], "tip_height_m": heights[number]}
        raked = work_out(row_name("rake_m", number), rake, **figures)
        sums.append(raked)
        radius, root = rows["tip_radius_m"].get(number), read(reading, "root_radius_m")
        if radius and root:
            put = {"rake_m": raked.figure, "root_radius_m": root, "tip_radius_m": radius}
            sums.append(work_out(row_name("rake_angle_rad", number), rake_angle, **put))
    return sums


def _radii(rows: Mapping[str, dict[int, Figure]]) -> list[Sum]:
    radii = rows["tip_radius_m"]
    if not radii:
        return []
    longest = max(radii.values(), key=lambda figure: figure[0])
    diameter = work_out("diameter_m", diameter_from_tip_radius, tip_radius_m=longest)
    return [*work_out_rows("tip_off_m", off_the_others, "tip_radius_m", radii), diameter]


def _spacings(rows: Mapping[str, dict[int, Figure]]) -> list[Sum]:
    spacings = rows["spacing_rad"]
    if not spacings:
        return []
    return [
        work_out_all("closing_rad", spacing_closing, "spacing_rad", spacings),
        *work_out_rows("spacing_off_rad", spacing_off, "spacing_rad", spacings),
        *work_out_rows("place_rad", place_off, "spacing_rad", spacings),
    ]


def _held(
    reading: Any, rows: Mapping[str, dict[int, Figure]], sums: list[Sum]
) -> dict[str, tuple[dict[int, float], float]]:
    """What is held against each other, blade by blade, with the standard uncertainty of one blade's."""
    held = {name: ({n: value for n, (value, _) in rows[name].items()}, _u(rows[name])) for name in ROWS[::2]}
    raked = {number: one for number in range(1, MOST_BLADES + 1) if (one := _sum(sums, row_name("rake_m", number)))}
    held["rake_m"] = ({number: one.value for number, one in raked.items()}, _u({n: s.figure for n, s in raked.items()}))
    places = {number: one for number in range(1, MOST_BLADES + 1) if (one := _sum(sums, row_name("place_rad", number)))}
    share = len(places) / (len(places) - 1) if len(places) > 1 else 1.0
    # A place is worked out from all the angles; of one blade against the rest, its own u is what is left.
    u_place = max((one.u or 0.0 for one in places.values()), default=0.0) / share**0.5
    held["place_rad"] = ({number: one.value / share for number, one in places.items()}, u_place)
    return {what: figures for what, figures in held.items() if len(figures[0]) > 1}


def _sum(sums: list[Sum], what: str) -> Sum | None:
    return next((one for one in sums if one.what == what), None)


def _u(figures: Mapping[int, Figure]) -> float:
    return max((u or 0.0 for _, u in figures.values()), default=0.0)


def _odd(what: str, figures: tuple[dict[int, float], float]) -> dict[str, Any]:
    """The odd one out in one quantity, with its blade's number."""
    values, u = figures
    found = odd_one_out(list(values.values()), u)
    blade = None if found.place is None else list(values)[found.place]
    return asdict(found) | {"what": what, "blade": blade}


def _sentences(odd: list[dict[str, Any]]) -> list[str]:
    """Which blade is bent and by how much, or that they are alike."""
    said = []
    for one in odd:
        kind = kind_of(one["what"])
        far = quantities.show(abs(one["off"]), kind, u=one["u"] or None)
        if one["blade"] is not None:
            words = OFF[one["what"]][one["off"] < 0].format(far)
            rest = "" if one["others_agree"] else " The others are not alike either."
            said.append(f"Blade {one['blade']}: {words}, more than the readings explain.{rest}")
        elif one["is_odd"]:
            said.append(f"{_noun(one['what'])} of the blades differ by more than the readings explain; {CANT_TELL}")
    return said or ["The blades are alike, as far as the readings can tell."]


CANT_TELL = "which of them is bent these readings can't say."


def _noun(what: str) -> str:
    return {"height_m": "Heights", "rake_m": "Rakes", "tip_radius_m": "Radii", "place_rad": "Places"}[what]


def _remarks(reading: Any, rows: Mapping[str, dict[int, Figure]], known: Known, sums: list[Sum]) -> list[str]:
    remarks = [*_closing(sums), *_strays(rows), *_balance(reading)]
    if known.blades and reading.blades != known.blades:
        remarks.append(f"The register says {known.blades} blades. Count again.")
    if rows["height_m"]:
        remarks.append(TABLE)
    return remarks


def _closing(sums: list[Sum]) -> list[str]:
    """Whether the angles add up to a full turn within what the readings allow."""
    closing = _sum(sums, "closing_rad")
    if closing is None:
        return []
    total, allowed = 360 + degrees(closing.value), degrees(K * (closing.u or 0.0))
    if abs(total - 360) <= allowed + 1e-6:
        return [f"The angles add up to {total:.4g}°, which the readings allow."]
    return [f"The angles add up to {total:.4g}°, not 360°; the readings allow {allowed:.2g}°. Read them again."]


def _strays(rows: Mapping[str, dict[int, Figure]]) -> list[str]:
    """One blade 20 % off: told by its number, beside what the others read."""
    said = []
    for name in ("tip_radius_m", "spacing_rad"):
        values = {number: value for number, (value, _) in rows[name].items()}
        place = stray(list(values.values()), FAR_OFF)
        if place is None:
            continue
        number = list(values)[place]
        others = [value for other, value in values.items() if other != number]
        kind = kind_of(name)
        low, high = (quantities.show(end, kind) for end in (min(others), max(others)))
        said.append(f"Check blade {number}: {quantities.show(values[number], kind)}, the others {low} to {high}.")
    return said


def _balance(reading: Any) -> list[str]:
    """What was seen when it hung free on its shaft."""
    heavy = f"Hung free, blade {reading.heavy_blade} comes down." if reading.heavy_blade else ""
    return [part for part in (heavy, f"Balance: {reading.balance}" if reading.balance else "") if part]


def _classes(sums: list[Sum], known: Known) -> list[dict[str, str]]:
    """The spacing's class of ISO 484; none where the readings are too coarse to tell."""
    off = [one for one in sums if one.what in row_names("spacing_off_rad", MOST_BLADES)]
    if not off:
        return []
    covered = scope(known.diameter_m or nan)
    worst = max(off, key=lambda one: abs(one.value))
    found = str(spacing_class([worst.value])[0])
    note = covered.said
    finest = found if found != "none" else "III"
    if worst.u is None or K * worst.u > spacing_limit(finest):
        reach = "unknown" if worst.u is None else f"{degrees(K * worst.u):.2g}°"
        note = f"No class: the readings' ± ({reach}) is wider than what a class allows. {covered.said}"
        found = ""
    return [{"quantity": "angle_between_consecutive_blades", "class": found, "note": note}]


def _statements(reading: Any, outcome: Outcome, known: Known) -> tuple[gear.Said, ...]:
    """The diameter from the longest tip, where every tip was read."""
    diameter = outcome.sum_of("diameter_m")
    if diameter is None or len(rows_read(reading, "tip_radius_m", MOST_BLADES)) < reading.blades:
        return ()
    return (gear.Said(what="diameter_m", basis="measured", value=diameter.value, u_value=diameter.u),)


ALIKE = Method(
    name="alike", reading=AlikeReading, work_out=alike_of, statements=_statements, tools=("radius_tool", "height_tool")
)
