"""Keys as standards give them to a shaft."""

from dataclasses import dataclass

import numpy as np

from yardapp.formulas.imperial import INCH_M
from yardapp.formulas.ranges import OutsideRange, hold
from yardapp.formulas.tables import figure, table

MM = 0.001

# A shaft read this near to a nominal size is that size.
SAME_SHAFT_M = 0.00025


@dataclass(frozen=True, kw_only=True)
class Key:
    """A parallel key and its seats, SI; NaN where the standard's figure was not to be had.

    Where a standard prints two limits, `width_m` is the keyway's greatest width and `shaft_depth_m` its least depth.
    """

    standard: str
    width_m: float
    height_m: float
    shaft_depth_m: float
    hub_depth_m: float
    source: str
    status: str
    width_min_m: float = np.nan
    shaft_depth_max_m: float = np.nan


def key_for(diameter_m: float, standard: str) -> Key | None:
    """Key that a standard gives a shaft.

    Parameters
    ----------
    diameter_m : float
        Diameter of the shaft, m: the nominal size for SAE J755. Which diameter of a taper enters ISO/R 773
        is not settled; measure the key.
    standard : str
        "SAE J755" or "ISO/R 773".

    Returns
    -------
    key : Key or None
        None where the standard has no key for this shaft.

    Raises
    ------
    OutsideRange
        The diameter is not above zero; the standard is neither of the two.

    Source
    ------
    SAE J755 (square key up to 2-3/4 in: derived); ISO/R 773 (secondary, from 58 mm up from memory).

    Examples
    --------
    >>> key_for(0.0254, "SAE J755").width_m / 0.0254
    0.25
    >>> key_for(0.025, "ISO/R 773").width_m
    0.008
    """
    hold("diameter_m", diameter_m, "must be above zero.", above=0)
    if standard not in _KEYS:
        raise OutsideRange("standard", "must be SAE J755 or ISO/R 773.", standard)
    return _KEYS[standard](diameter_m)


def _inch_key(diameter_m: float) -> Key | None:
    for row in table("shaft_tapers"):
        width_m = figure(row, "keyway_width_max_in") * INCH_M
        if abs(figure(row, "nominal_in") * INCH_M - diameter_m) <= SAME_SHAFT_M and width_m > 0:
            return Key(
                standard="SAE J755",
                width_m=width_m,
                height_m=width_m if figure(row, "nominal_in") <= 2.75 else np.nan,
                shaft_depth_m=figure(row, "keyway_side_depth_min_in") * INCH_M,
                hub_depth_m=np.nan,
                source=row["source"],
                status=row["status_keyway"],
                width_min_m=figure(row, "keyway_width_min_in") * INCH_M,
                shaft_depth_max_m=figure(row, "keyway_side_depth_max_in") * INCH_M,
            )
    return None


def _metric_key(diameter_m: float) -> Key | None:
    for row in table("shaft_tapers_keys"):
        if figure(row, "shaft_over_mm") < round(diameter_m / MM, 6) <= figure(row, "shaft_to_mm"):
            return Key(
                standard="ISO/R 773",
                width_m=figure(row, "key_b_mm") * MM,
                height_m=figure(row, "key_h_mm") * MM,
                shaft_depth_m=figure(row, "shaft_depth_t1_mm") * MM,
                hub_depth_m=figure(row, "hub_depth_t2_mm") * MM,
                source=row["source"],
                status=row["status"],
            )
    return None


_KEYS = {"SAE J755": _inch_key, "ISO/R 773": _metric_key}
