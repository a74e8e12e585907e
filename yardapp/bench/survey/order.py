"""Readings put in order, as arrays that the formulas take; what can't be so is told, and left out."""

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from yardapp.bench.survey.cells import Cell, Fault, SurveyReading, Table

SAME_RAD = 1e-6
Floats = NDArray[np.float64]
Shape = tuple[int, int, int]


def table_of(reading: SurveyReading) -> Table:
    """The readings in order. A section that can't be is left out of the arrays, and told among the faults."""
    radii = tuple(sorted({_near(cell["radius_ratio"]) for cell in reading.cells}))
    blades = max([reading.blades or 0, *(cell["blade"] for cell in reading.cells)])
    stations = max((cell["station"] for cell in reading.cells), default=0)
    heights_m, angles_rad, faults = _laid_out(reading.cells, (blades, len(radii), stations), radii)
    station_of = np.broadcast_to(np.arange(1, stations + 1), heights_m.shape).copy()
    faults += _turned(heights_m, angles_rad, station_of, radii)
    rises_m = _rises(heights_m)
    way = float(np.sign(np.nanmedian(rises_m))) if np.isfinite(rises_m).any() else 0.0
    faults += _falling(heights_m, rises_m * way, radii)
    climbs = None if way == 0 else (way > 0) == (reading.counts != "clockwise")
    table = Table(
        blades=blades,
        radii=radii,
        heights_m=heights_m * (way or 1.0),
        angles_rad=angles_rad,
        station_of=station_of,
        rises_with_angle=way >= 0,
        climbs_anticlockwise=climbs,
        faults=(),
    )
    return replace_faults(table, [*_of_the_hand(table, reading), *faults])


def replace_faults(table: Table, faults: Sequence[Fault]) -> Table:
    """The same table with these faults."""
    return Table(**{**vars(table), "faults": tuple(faults)})


def _near(radius_ratio: float) -> float:
    return round(radius_ratio, 4)


def _laid_out(cells: Sequence[Cell], shape: Shape, radii: Sequence[float]) -> tuple[Floats, Floats, list[Fault]]:
    heights_m, angles_rad = np.full(shape, np.nan), np.full(shape, np.nan)
    faults = []
    for cell in cells:
        place = cell["blade"] - 1, radii.index(_near(cell["radius_ratio"])), cell["station"] - 1
        if not np.isnan(heights_m[place]):
            faults.append(_at("twice", radii, place, station=cell["station"], stops=True))
            continue
        heights_m[place], angles_rad[place] = cell["height_m"], cell["angle_rad"]
    return heights_m, angles_rad, faults


def _at(kind: str, radii: Sequence[float], place: tuple[int, ...], **more: object) -> Fault:
    return Fault(kind=kind, blade=place[0] + 1, radius_ratio=radii[place[1]], **more)  # type: ignore[arg-type]


def _sections(heights_m: Floats) -> Iterator[tuple[int, int]]:
    """The blade and the ring of each section of which anything was read."""
    for blade, ring in np.argwhere(~np.isnan(heights_m).all(axis=-1)) if heights_m.size else ():
        yield int(blade), int(ring)


def _turned(heights_m: Floats, angles_rad: Floats, station_of: NDArray[np.intp], radii: Sequence[float]) -> list[Fault]:
    """Let the angles of each section rise; tell where the stations did not go one way along the blade."""
    faults = []
    for place in _sections(heights_m):
        order, kind = _order(angles_rad[place])
        if kind:
            faults.append(_at(kind, radii, place, stops=kind == "same angle", **_station_out(angles_rad[place])))
        station_of[place] = station_of[place][order]
        for figures in (heights_m, angles_rad):
            figures[place] = figures[place][order]
            if kind == "same angle":
                figures[place] = np.nan
    return faults


def _order(angles_rad: Floats) -> tuple[NDArray[np.intp], str]:
    """The order in which the angles rise, and what is wrong with the order in which they were read."""
    steps = np.diff(angles_rad[~np.isnan(angles_rad)])
    as_read = np.arange(angles_rad.size)
    if (steps > SAME_RAD).all():
        return as_read, ""
    if (steps < -SAME_RAD).all():
        return as_read[::-1], ""
    rising = np.argsort(angles_rad)  # what was not read goes last
    is_same = (np.diff(angles_rad[rising]) <= SAME_RAD).any()
    return rising, "same angle" if is_same else "order"


def _station_out(angles_rad: Floats) -> dict[str, object]:
    """The first station that does not go the way of the most, and its angle."""
    known = np.flatnonzero(~np.isnan(angles_rad))
    steps = np.diff(angles_rad[known])
    way = np.sign(np.median(np.sign(steps))) or 1.0
    station = int(known[1 + int(np.argmax(way * steps <= SAME_RAD))])
    return {"station": station + 1, "figures": {"angle_rad": float(angles_rad[station])}}


def _rises(heights_m: Floats) -> Floats:
    """The rise of each section from its first to its last reading; NaN with fewer than two."""
    rises_m = np.full(heights_m.shape[:2], np.nan)
    for place in _sections(heights_m):
        known = heights_m[place][~np.isnan(heights_m[place])]
        if known.size > 1:
            rises_m[place] = known[-1] - known[0]
    return rises_m


def _falling(heights_m: Floats, rises_m: Floats, radii: Sequence[float]) -> list[Fault]:
    """Sections that fall where the others climb: told, and left out."""
    places = [(int(blade), int(ring)) for blade, ring in np.argwhere(rises_m <= 0)]
    for place in places:
        heights_m[place] = np.nan
    return [_at("falls", radii, place, stops=True, figures={"rise_m": float(rises_m[place])}) for place in places]


def _of_the_hand(table: Table, reading: SurveyReading) -> list[Fault]:
    """The whole face climbs the wrong way for the hand that was said."""
    if reading.hand in ("", table.hand) or not table.hand:
        return []
    return [Fault(kind="hand", figures={"said": reading.hand, "seen": table.hand})]
