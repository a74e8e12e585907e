"""Which resistance method a boat's figures allow, and why."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.hull_delft import GRAVITY_MPS2, GREATEST_FROUDE, LEAST_FROUDE, delft_resistance
from yardapp.formulas.hull_handbook import PLANING_RATIO, crouch_power, displacement_power
from yardapp.formulas.hull_holtrop import holtrop_resistance
from yardapp.formulas.hull_range import hold_deadrise
from yardapp.formulas.hull_savitsky import savitsky
from yardapp.formulas.imperial import FOOT_M, KNOT_MPS, STANDARD_GRAVITY_MPS2
from yardapp.formulas.ranges import OutsideRange, as_given, hold

Array = NDArray[np.float64]

LEAST_SHIP_M = 20.0


@dataclass(frozen=True, kw_only=True)
class HullFigures:
    """What is known of a boat; NaN is not known. Lengths of centres count aft from the waterline's fore end.

    `kind` is one of Crouch's, for a boat that planes; `lcg_m` counts forward from the transom.
    """

    mass_kg: float = np.nan
    waterline_m: float = np.nan
    beam_m: float = np.nan
    draught_m: float = np.nan
    volume_m3: float = np.nan
    wetted_m2: float = np.nan
    waterplane_m2: float = np.nan
    prismatic_ratio: float = np.nan
    midship_ratio: float = np.nan
    waterplane_ratio: float = np.nan
    lcb_m: float = np.nan
    lcf_m: float = np.nan
    chine_beam_m: float = np.nan
    deadrise_rad: float = np.nan
    lcg_m: float = np.nan
    vcg_m: float = np.nan
    kind: str = ""
    density_kgpm3: float = 1025.0


class HullResistance(NamedTuple):
    """Resistance, the method it is by, why that one, and why each better one was passed over."""

    resistance_n: Array
    method: str
    why: str
    passed_over: dict[str, str]


class _Method(NamedTuple):
    name: str
    needs: tuple[str, ...]
    run: Callable[[Array, HullFigures, float], Array]
    why: str


def resistance(speed_mps: ArrayLike, boat: HullFigures, propulsive_ratio: float = 0.5) -> HullResistance:
    """Resistance by the most telling method that a boat's figures allow.

    The order is Savitsky, Delft, Holtrop & Mennen, Crouch, the displacement handbook line. The last two give power at
    the propeller, of which `propulsive_ratio` is taken to overcome resistance.

    Parameters
    ----------
    speed_mps : array_like, shape S
        Speed through the water, m/s.
    boat : HullFigures
        What is known of it.
    propulsive_ratio : float
        Effective power over power at the propeller, for the handbook lines only, 1.

    Returns
    -------
    resistance : HullResistance
        resistance_n of shape S, N, NaN at speeds outside the method's range or not known; method, why and passed_over
        in words.

    Raises
    ------
    OutsideRange
        A speed or a figure of the boat is impossible, or no method can say anything; the message lists what each one
        lacks.

    Source
    ------
    Each method's own; the order and the propulsive ratio are ours.

    Examples
    --------
    >>> found = resistance([2.0, 3.0], HullFigures(mass_kg=9752, waterline_m=10.36))
    >>> found.method, found.passed_over["Delft 2008"][:10]
    ('displacement handbook line', 'not known:')
    """
    speed = hold("speed_mps", speed_mps, "must be above zero.", above=0)
    hold("propulsive_ratio", propulsive_ratio, "must be above zero and at most 1.", above=0, at_most=1)
    _hold_figures(boat)
    passed_over: dict[str, str] = {}
    for method in METHODS:
        missing = [name for name in method.needs if not _is_known(getattr(boat, name))]
        if missing:
            passed_over[method.name] = f"not known: {', '.join(missing)}"
            continue
        try:
            found = method.run(speed, boat, propulsive_ratio)
        except OutsideRange as refusal:
            passed_over[method.name] = str(refusal)
            continue
        if np.any(np.isfinite(found)) or np.all(np.isnan(speed)):
            return HullResistance(found, method.name, method.why, passed_over)
        passed_over[method.name] = "no speed lies within its range"
    said = "; ".join(f"{name}: {reason}" for name, reason in passed_over.items())
    raise OutsideRange("speed_mps", f"suits no method. {said}.", np.asarray(speed_mps).tolist())


def _hold_figures(boat: HullFigures) -> None:
    """What no boat can have is refused by its own name, whatever the method."""
    for name, figure in vars(boat).items():
        if name == "deadrise_rad":
            hold_deadrise(figure)
        elif name != "kind":
            hold(name, figure, "must be above zero.", above=0)


def _is_known(figure: float | str) -> bool:
    return bool(figure) if isinstance(figure, str) else not np.isnan(figure)


def _within(speed: Array, low: float, high: float) -> Array:
    return as_given(np.where((speed >= low) & (speed <= high), speed, np.nan))


def _savitsky(speed: Array, boat: HullFigures, _: float) -> Array:
    least = np.sqrt(STANDARD_GRAVITY_MPS2 * boat.chine_beam_m)
    return savitsky(
        _within(speed, least, 13 * least),
        boat.mass_kg,
        boat.lcg_m,
        boat.vcg_m,
        boat.chine_beam_m,
        boat.deadrise_rad,
        density_kgpm3=boat.density_kgpm3,
    ).resistance_n


def _delft(speed: Array, boat: HullFigures, _: float) -> Array:
    root = np.sqrt(GRAVITY_MPS2 * boat.waterline_m)
    form = {name: getattr(boat, name) for name in DELFT_NEEDS}
    within = _within(speed, LEAST_FROUDE * root, GREATEST_FROUDE * root)
    return delft_resistance(within, **form, density_kgpm3=boat.density_kgpm3).total_n


def _holtrop(speed: Array, boat: HullFigures, _: float) -> Array:
    hold("waterline_m", boat.waterline_m, f"must be at least {LEAST_SHIP_M:g} m for a ship.", at_least=LEAST_SHIP_M)
    return holtrop_resistance(
        _within(speed, 0, 0.45 * np.sqrt(GRAVITY_MPS2 * boat.waterline_m)),
        boat.waterline_m,
        boat.beam_m,
        boat.draught_m,
        boat.draught_m,
        boat.volume_m3,
        0.5 - boat.lcb_m / boat.waterline_m,
        boat.midship_ratio,
        boat.waterplane_ratio,
        density_kgpm3=boat.density_kgpm3,
    ).total_n


def _crouch(speed: Array, boat: HullFigures, propulsive_ratio: float) -> Array:
    least = PLANING_RATIO * np.sqrt(boat.waterline_m / FOOT_M) * KNOT_MPS
    planing = _within(speed, least, np.inf)
    return propulsive_ratio * crouch_power(planing, boat.mass_kg, boat.kind) / planing


def _displacement(speed: Array, boat: HullFigures, propulsive_ratio: float) -> Array:
    return propulsive_ratio * displacement_power(speed, boat.mass_kg, boat.waterline_m) / speed


DELFT_NEEDS = (
    "waterline_m",
    "beam_m",
    "draught_m",
    "volume_m3",
    "wetted_m2",
    "waterplane_m2",
    "prismatic_ratio",
    "midship_ratio",
    "lcb_m",
    "lcf_m",
)
METHODS = (
    _Method(
        "Savitsky 1964",
        ("mass_kg", "lcg_m", "chine_beam_m", "deadrise_rad"),
        _savitsky,
        "a planing hull's beam, deadrise and centre of gravity are known; all forces are taken through that centre",
    ),
    _Method("Delft 2008", DELFT_NEEDS, _delft, "a sailing yacht's lines are known, and lie within the series"),
    _Method(
        "Holtrop & Mennen 1982",
        ("waterline_m", "beam_m", "draught_m", "volume_m3", "midship_ratio", "waterplane_ratio", "lcb_m"),
        _holtrop,
        "a ship's form is known",
    ),
    _Method(
        "Crouch", ("mass_kg", "waterline_m", "kind"), _crouch, "only weight, length and the kind of boat are known"
    ),
    _Method(
        "displacement handbook line",
        ("mass_kg", "waterline_m"),
        _displacement,
        "only weight and length are known",
    ),
)
