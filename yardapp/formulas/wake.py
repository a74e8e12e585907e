"""Wake and thrust deduction by hull and arrangement: what the methods say, and how far they differ."""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import OutsideRange, alike, as_given, hold
from yardapp.formulas.tables import Row, figure, table
from yardapp.formulas.wake_holtrop import (
    holtrop_open_stern_wake,
    holtrop_relative_rotative,
    holtrop_twin_screw_wake,
    holtrop_wake,
)
from yardapp.formulas.wake_lines import (
    handbook_single_wake,
    handbook_twin_wake,
    planing_wake,
    taylor_single_wake,
    taylor_twin_wake,
    twin_hard_chine_wake,
)

__all__ = [
    "Estimate",
    "handbook_single_wake",
    "handbook_twin_wake",
    "holtrop_open_stern_wake",
    "holtrop_relative_rotative",
    "holtrop_twin_screw_wake",
    "holtrop_wake",
    "hull_efficiency",
    "planing_wake",
    "taylor_single_wake",
    "taylor_twin_wake",
    "thrust_deduction",
    "twin_hard_chine_wake",
    "wake_fraction",
]

Array = NDArray[np.float64]

BY_BLOCK = {
    "Taylor, single screw": taylor_single_wake,
    "Gerr, single screw": handbook_single_wake,
    "Taylor, twin screw": taylor_twin_wake,
    "Gerr, twin screw": handbook_twin_wake,
}
METHODS = {
    "sailing_fin_keel": (),
    "sailing_long_keel": ("Taylor, single screw", "Gerr, single screw"),
    "displacement_single": ("Taylor, single screw", "Gerr, single screw"),
    "displacement_twin": ("Taylor, twin screw", "Gerr, twin screw"),
    "semi_displacement_twin": ("Gerr, twin screw", "Blount & Fox"),
    "planing_twin": ("Gerr, planing", "Blount & Fox"),
    "planing_single": ("Gerr, planing",),
}
# Schoenherr's k in t = k w by the rudder behind the screw, and his lines t = slope w + rest for twin screws.
RUDDERS = {"streamlined": (0.50, 0.70), "double_plate": (0.70, 0.90), "single_plate": (0.90, 1.05)}
TWIN_LINES = {"bossings": (0.25, 0.14), "struts": (0.70, 0.06)}


class Estimate(NamedTuple):
    """A middle value, the least and the greatest that a method gives, how far apart they are, and each method's own."""

    value: Array
    low: Array
    high: Array
    spread: Array
    by_method: dict[str, Array]


def wake_fraction(
    hull: str,
    block_ratio: ArrayLike = np.nan,
    speed_mps: ArrayLike = np.nan,
    volume_froude_number: ArrayLike = np.nan,
) -> Estimate:
    """Taylor wake fraction w in Va = Vs (1 - w), by every method that the figures allow.

    Parameters
    ----------
    hull : str
        "sailing_fin_keel", "sailing_long_keel", "displacement_single", "displacement_twin", "semi_displacement_twin",
        "planing_twin" or "planing_single".
    block_ratio : array_like, shape S
        Block coefficient CB, 1.
    speed_mps : array_like, shape S
        Speed through the water, m/s.
    volume_froude_number : array_like, shape S
        V / sqrt(g volume^(1/3)), 1.

    Returns
    -------
    wake : Estimate
        value is the mean of the methods that give a figure; with fewer than two, the usual range of the hull's kind
        counts as its two ends. Never NaN: the usual range is always known. by_method holds NaN where not known.

    Raises
    ------
    OutsideRange
        There is no such hull, or a figure lies outside a method's range.

    Validity
    --------
    A first guess. Where methods differ by 0.07, so may the boat.

    Source
    ------
    Each method's own; the usual ranges of `tables/wake_thrust.csv`, low confidence.

    Examples
    --------
    >>> wake = wake_fraction("displacement_single", block_ratio=0.45)
    >>> print(f"{wake.value:.3f} from {wake.low:.3f} to {wake.high:.3f}")
    0.168 from 0.160 to 0.175
    """
    row = _row(hull)
    alike(block_ratio=block_ratio, speed_mps=speed_mps, volume_froude_number=volume_froude_number)
    found: dict[str, Array] = {}
    for method in METHODS[hull]:
        if method in BY_BLOCK:
            found[method] = BY_BLOCK[method](block_ratio)
        elif method == "Gerr, planing":
            found[method] = planing_wake(speed_mps)
        else:
            found[method] = twin_hard_chine_wake(volume_froude_number)
    return _estimate(found, figure(row, "w_low"), figure(row, "w_high"))


def thrust_deduction(hull: str, wake_ratio: ArrayLike = np.nan, behind: str = "") -> Estimate:
    """Thrust deduction t in T = R / (1 - t), from the wake and what stands behind or beside the screw.

    Parameters
    ----------
    hull : str
        As in `wake_fraction`.
    wake_ratio : array_like, shape S
        Wake fraction w, 1.
    behind : str
        Single screw: the rudder, "streamlined", "double_plate" or "single_plate". Twin screws: "bossings" or "struts".
        Left out: not known, and the usual range of the hull's kind is returned.

    Returns
    -------
    deduction : Estimate
        As in `wake_fraction`; never NaN, for the usual range is always known.

    Raises
    ------
    OutsideRange
        There is no such hull or arrangement, or the wake lies outside -0.1 to 0.6.

    Validity
    --------
    w from -0.1 to 0.6. A first guess.

    Source
    ------
    K. E. Schoenherr, Principles of Naval Architecture, 1939 (from memory); Blount & Fox 1976 for twin-screw planing
    craft (from memory); the usual ranges of `tables/wake_thrust.csv`, low confidence.

    Examples
    --------
    >>> deduction = thrust_deduction("displacement_single", 0.20, "double_plate")
    >>> print(f"{deduction.value:.2f} from {deduction.low:.2f} to {deduction.high:.2f}")
    0.16 from 0.14 to 0.18
    """
    row = _row(hull)
    wake = hold("wake_ratio", wake_ratio, "must lie from -0.1 to 0.6.", at_least=-0.1, at_most=0.6)
    found: dict[str, Array] = {}
    if behind in RUDDERS and not hull.endswith("twin"):
        found = {f"Schoenherr, {k:.2f} w": k * wake for k in RUDDERS[behind]}
    elif behind in TWIN_LINES and hull.endswith("twin"):
        slope, rest = TWIN_LINES[behind]
        found = {f"Schoenherr, {behind}": slope * wake + rest}
    elif behind:
        allowed = TWIN_LINES if hull.endswith("twin") else RUDDERS
        raise OutsideRange("behind", f"must be one of {', '.join(allowed)} for this hull.", behind)
    if hull == "planing_twin":
        found["Blount & Fox"] = as_given(np.full(wake.shape, 0.08))
    return _estimate(found, figure(row, "t_low"), figure(row, "t_high"))


def hull_efficiency(wake_ratio: ArrayLike, deduction_ratio: ArrayLike) -> Array:
    """Hull efficiency: (1 - t) / (1 - w).

    Parameters
    ----------
    wake_ratio : array_like, shape S
        Wake fraction w, 1.
    deduction_ratio : array_like, shape S
        Thrust deduction t, 1.

    Returns
    -------
    efficiency : ndarray, shape S
        1; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        A figure lies outside -0.5 to 1.

    Validity
    --------
    w and t from -0.5 to below 1.

    Source
    ------
    Definition; ITTC dictionary.

    Examples
    --------
    >>> float(hull_efficiency(0.18, 0.12))
    1.073
    """
    alike(wake_ratio=wake_ratio, deduction_ratio=deduction_ratio)
    said = "must lie from -0.5 to below 1."
    wake = hold("wake_ratio", wake_ratio, said, at_least=-0.5, below=1)
    return (1 - hold("deduction_ratio", deduction_ratio, said, at_least=-0.5, below=1)) / (1 - wake)


def _row(hull: str) -> Row:
    rows = {row["hull"]: row for row in table("wake_thrust")}
    if hull not in rows:
        raise OutsideRange("hull", f"must be one of {', '.join(rows)}.", hull)
    return rows[hull]


def _estimate(by_method: dict[str, Array], usual_low: float, usual_high: float) -> Estimate:
    shape = np.broadcast_shapes(*(np.shape(each) for each in by_method.values()))
    each = np.stack([np.full(shape, np.nan), *(np.broadcast_to(one, shape) for one in by_method.values())])
    known = ~np.isnan(each)
    count = known.sum(axis=0)
    mean = np.where(known, each, 0).sum(axis=0) / np.maximum(count, 1)
    low: Array = np.fmin.reduce(each, axis=0)
    high: Array = np.fmax.reduce(each, axis=0)
    low = np.where(count < 2, np.fmin(low, usual_low), low)
    high = np.where(count < 2, np.fmax(high, usual_high), high)
    value = np.where(count == 0, (usual_low + usual_high) / 2, mean)
    value, low, high, spread = (as_given(one) for one in (value, low, high, high - low))
    return Estimate(value, low, high, spread, by_method)
