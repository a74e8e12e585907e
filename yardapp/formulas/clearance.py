"""Room round a propeller: what there is, and what rules and custom ask for."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import alike, as_given, hold, hold_above_zero, hold_whole
from yardapp.formulas.tables import figure, table


def tip_clearance(hull_clearance_m: ArrayLike, diameter_m: ArrayLike) -> NDArray[np.float64]:
    """Gap between the blade tips and the hull, square to the shaft: room - diameter / 2.

    Parameters
    ----------
    hull_clearance_m : array_like, shape S
        From the shaft's centre to the hull, in the plane of the propeller, m.
    diameter_m : array_like, shape S
        Diameter of the propeller, m.

    Returns
    -------
    gap_m : ndarray, shape S
        Below zero the propeller would strike the hull, m; NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> float(tip_clearance(0.33, 0.55))
    0.055
    """
    hull_clearance_m, diameter_m = hold_above_zero(hull_clearance_m=hull_clearance_m, diameter_m=diameter_m)
    return hull_clearance_m - diameter_m / 2


def class_factor(length_m: ArrayLike, block_ratio: ArrayLike, power_w: ArrayLike) -> NDArray[np.float64]:
    """Lloyd's K: (0.1 + L / 3050) (3.48 Cb P / L^2 + 0.3), P in kW.

    Parameters
    ----------
    length_m : array_like, shape S
        Rule length, m.
    block_ratio : array_like, shape S
        Block coefficient at load draught, 1.
    power_w : array_like, shape S
        Designed power on one shaft, W.

    Returns
    -------
    k_factor : ndarray, shape S
        K of the table of recommended clearances, 1; NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero; a block coefficient is above 1.

    Source
    ------
    Lloyd's Register, Rules for Ships, July 2000, Pt 3 Ch 6 Table 6.7.2; Special Service Craft, Pt 3 Ch 3 Table 3.3.2.

    Examples
    --------
    >>> float(class_factor(20.0, 0.40, 300e3))
    0.1432
    """
    alike(length_m=length_m, block_ratio=block_ratio, power_w=power_w)
    length_m, power_w = hold_above_zero(length_m=length_m, power_w=power_w)
    block_ratio = hold("block_ratio", block_ratio, "must be above zero and at most 1.", above=0, at_most=1)
    return (0.1 + length_m / 3050) * (3.48 * block_ratio * power_w / 1000 / length_m**2 + 0.3)


@dataclass(frozen=True, kw_only=True)
class ClassClearances:
    """Recommended minimum clearances in m, by the letters of Lloyd's figure; a to d single screw, e and f twin.

    a tip to hull; b ahead of the blade at 0.7 R; c aft to the rudder at 0.7 R; d tip to sole piece; e tip to hull;
    f ahead of the blade at 0.7 R.
    """

    a_m: NDArray[np.float64]
    b_m: NDArray[np.float64]
    c_m: NDArray[np.float64]
    d_m: NDArray[np.float64]
    e_m: NDArray[np.float64]
    f_m: NDArray[np.float64]


def class_rule(
    diameter_m: ArrayLike, blades: ArrayLike, k_factor: ArrayLike, rudder_thickness_m: ArrayLike = np.nan
) -> ClassClearances:
    """Lloyd's recommended minimum clearances: the larger of a share of K and a fixed least, times the diameter.

    They are against shaking, not limits of strength; on craft under about 15 m the fixed minima usually govern.

    Parameters
    ----------
    diameter_m : array_like, shape S
        Diameter of the propeller, m.
    blades : array_like, shape S
        Number of blades, 3 to 6.
    k_factor : array_like, shape S
        K as `class_factor` gives it, 1.
    rudder_thickness_m : array_like, shape S
        Thickness of the rudder at 0.7 R, m; NaN leaves it out of c.

    Returns
    -------
    clearances : ClassClearances
        Six arrays of shape S, m; f reads the figure's label (inferred). NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero; the blades are not a whole number from 3 to 6.

    Validity
    --------
    3 to 6 blades.

    Source
    ------
    Lloyd's Register, Rules for Ships, July 2000, Pt 3 Ch 6 Table 6.7.2; Special Service Craft, Pt 3 Ch 3 Table 3.3.2,
    whose 1.12 D for c with four blades is a misprint for 0.12 D.

    Examples
    --------
    >>> float(class_rule(0.60, 4, 0.14321).b_m)
    0.1289
    """
    alike(diameter_m=diameter_m, blades=blades, k_factor=k_factor, rudder_thickness_m=rudder_thickness_m)
    diameter_m, k_factor = hold_above_zero(diameter_m=diameter_m, k_factor=k_factor)
    rudder_thickness_m = hold("rudder_thickness_m", rudder_thickness_m, "must be above zero.", above=0)
    blades = hold_whole("blades", blades, "must be a whole number from 3 to 6.", at_least=3, at_most=6)
    room = {letter: diameter_m * _asked(letter, blades, k_factor) for letter in "abcdef"}
    room["c"] = np.fmax(room["c"], rudder_thickness_m)
    return ClassClearances(**{f"{letter}_m": metres for letter, metres in room.items()})


def _asked(letter: str, blades: NDArray[np.float64], k_factor: NDArray[np.float64]) -> NDArray[np.float64]:
    """Share of the diameter; c and d do not hang on K, so that they are known where K is not."""
    k_share = _share(letter, blades, "k_share")
    return np.maximum(np.where(k_share == 0, 0.0, k_share * k_factor), _share(letter, blades, "least_share"))


def _share(letter: str, blades: NDArray[np.float64], column: str) -> NDArray[np.float64]:
    rows = {figure(row, "blades"): figure(row, column) for row in table("class_clearances") if row["letter"] == letter}
    return np.select([blades == count for count in rows], list(rows.values()), np.nan)


@dataclass(frozen=True, kw_only=True)
class Band:
    """One step of the handbook's tip clearances: for which craft, which share of the diameter, how many m."""

    craft: str
    share_ratio: float
    gap_m: NDArray[np.float64]
    source: str
    status: str


def handbook_rule(diameter_m: ArrayLike) -> tuple[Band, ...]:
    """Small-craft tip clearances: 8, 10, 15 and 20 % of the diameter by kind of craft.

    Bands to show beside a gap, never a pass or a fail.

    Parameters
    ----------
    diameter_m : array_like, shape S
        Diameter of the propeller, m.

    Returns
    -------
    bands : tuple of Band
        From slow craft to fast; gap_m of shape S, m. NaN where not known.

    Raises
    ------
    OutsideRange
        A diameter is not above zero.

    Source
    ------
    D. Gerr, Propeller Handbook: from memory (medium). 10 %, and one sixth to one fifth, are both in circulation.

    Examples
    --------
    >>> [band.share_ratio for band in handbook_rule(0.5)]
    [0.08, 0.1, 0.15, 0.2]
    """
    diameter_m = hold("diameter_m", diameter_m, "must be above zero.", above=0)
    return tuple(
        Band(
            craft=row["craft"],
            share_ratio=figure(row, "share_ratio"),
            gap_m=as_given(figure(row, "share_ratio") * diameter_m),
            source=row["source"],
            status=row["status"],
        )
        for row in table("tip_bands")
    )


def hub_gap_limit(shaft_diameter_m: ArrayLike) -> NDArray[np.float64]:
    """Longest overhang from the bearing's aft end to the hub: one shaft diameter.

    No published lower bound was found; water must still get out of the bearing.

    Parameters
    ----------
    shaft_diameter_m : array_like, shape S
        Diameter of the shaft, m.

    Returns
    -------
    gap_m : ndarray, shape S
        Upper bound, m; NaN where not known.

    Raises
    ------
    OutsideRange
        A diameter is not above zero.

    Source
    ------
    SAE J756 and ABYC P-6 as practitioners cite them (secondary).

    Examples
    --------
    >>> float(hub_gap_limit(0.030))
    0.03
    """
    return 1.0 * hold("shaft_diameter_m", shaft_diameter_m, "must be above zero.", above=0)
