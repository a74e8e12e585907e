"""What stands far off the other blades: a blade, a section of one, or a single height."""

import numpy as np
from numpy.typing import NDArray

from yardapp.bench.survey.cells import Fault
from yardapp.bench.survey.worked import Worked
from yardapp.formulas.far_off import far_off

LOCAL_RATIO = 0.10  # a step has a part of the swing only: what is far for a section is scatter for a step


def faults_far_off(one: Worked) -> list[Fault]:
    """Sections far off, gathered to the whole blade where most of it is; else a single station within one."""
    sections = far_off(one.means.section_m, one.u_of("section_m"))
    blades = _whole_blades(one, sections)
    found = [_blade_off(one, int(blade)) for blade in np.flatnonzero(blades)]
    told = sections | blades[:, None]
    sections[blades] = False
    found += [_section_off(one, int(blade), int(ring)) for blade, ring in np.argwhere(sections)]
    local = far_off(one.means.local_m, one.u_of("local_m"), LOCAL_RATIO)
    local[told] = False
    return found + [_station_off(one, *place) for place in _misread(one, local)]


def _whole_blades(one: Worked, sections: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Blades of which two sections or more, and most, are far off; or none is and yet their mean."""
    count = sections.sum(axis=1)
    most = (count > 1) & (2 * count > (~np.isnan(one.means.section_m)).sum(axis=1))
    return np.asarray(most | (far_off(one.means.blade_m, one.u_of("blade_m")) & (count == 0)))


def _misread(one: Worked, local: NDArray[np.bool_]) -> list[tuple[int, int, int]]:
    """A station between two steps that are far off to opposite sides: there one height was misread."""
    beside = one.means.local_m - np.nanmedian(_filled(one.means.local_m), axis=0)
    opposite = (beside[..., :-1] * beside[..., 1:]) < 0
    places = np.argwhere(local[..., :-1] & local[..., 1:] & opposite)
    return [(int(blade), int(ring), int(step) + 1) for blade, ring, step in places]


def _filled(figures_m: NDArray[np.float64]) -> NDArray[np.float64]:
    """Zero where no blade was read at all, so that a median of nothing is not asked for."""
    return np.where(np.isnan(figures_m).all(axis=0), 0.0, figures_m)


def _others(figures_m: NDArray[np.float64], place: int) -> dict[str, float]:
    others = np.delete(figures_m, place, axis=0)
    return {"value_m": float(figures_m[place]), "low_m": float(np.nanmin(others)), "high_m": float(np.nanmax(others))}


def _blade_off(one: Worked, blade: int) -> Fault:
    return Fault(kind="far", blade=blade + 1, figures=_others(one.means.blade_m, blade))


def _section_off(one: Worked, blade: int, ring: int) -> Fault:
    figures = _others(one.means.section_m[:, ring], blade)
    return Fault(kind="far", blade=blade + 1, radius_ratio=one.table.radii[ring], figures=figures)


def _station_off(one: Worked, blade: int, ring: int, station: int) -> Fault:
    height_m = abs(float(one.table.heights_m[blade, ring, station]))
    figures = {"height_m": height_m, **_others(one.means.local_m[:, ring, station - 1], blade)}
    return Fault(
        kind="misread",
        blade=blade + 1,
        radius_ratio=one.table.radii[ring],
        station=int(one.table.station_of[blade, ring, station]),
        figures=figures,
    )
