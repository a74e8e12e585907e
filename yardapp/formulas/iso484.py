"""Bands of ISO 484: which diameters it covers, and what each class allows.

The figures are those of the 1981 editions at second hand, and the millimetre floors of pitch are from memory: every
band says so, and the standard itself rules.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import OutsideRange, hold
from yardapp.formulas.tables import Row, figure, table

CLASSES = ("S", "I", "II", "III")
PARTS = ("484-1", "484-2")


@dataclass(frozen=True, kw_only=True)
class Scope:
    """Which part of ISO 484 speaks of a propeller; `is_covered` False means its classes apply by analogy only."""

    part: str
    is_covered: bool | None
    said: str


@dataclass(frozen=True, kw_only=True)
class ToleranceBand:
    """How far below and above nominal a class allows, m; the floors and percentages with where they come from."""

    minus_m: NDArray[np.float64]
    plus_m: NDArray[np.float64]
    status_percent: str
    status_floor: str


def scope(diameter_m: float) -> Scope:
    """Which part of ISO 484 covers a diameter.

    Parameters
    ----------
    diameter_m : float
        Diameter of the propeller, m.

    Returns
    -------
    scope : Scope
        Part 1 above 2.50 m, part 2 from 0.80 to 2.50 m; below it the nearer part 2, by analogy.

    Raises
    ------
    OutsideRange
        The diameter is not above zero.

    Source
    ------
    Title pages of ISO 484-1:1981, 484-2:1981 and 484-2:2015 (confirmed).

    Examples
    --------
    >>> scope(0.56).said
    'ISO 484 begins at 0.80 m: its classes apply here by analogy only.'
    """
    hold("diameter_m", diameter_m, "must be above zero.", above=0)
    if np.isnan(diameter_m):
        return Scope(part="484-2", is_covered=None, said="Cannot tell whether ISO 484 applies: read the diameter.")
    if diameter_m < 0.80:
        said = "ISO 484 begins at 0.80 m: its classes apply here by analogy only."
        return Scope(part="484-2", is_covered=False, said=said)
    part = "484-1" if diameter_m > 2.50 else "484-2"
    return Scope(part=part, is_covered=True, said=f"ISO {part} covers this diameter.")


def band(quantity: str, iso_class: str, nominal_m: ArrayLike, part: str = "484-2") -> ToleranceBand:
    """What a class allows: the larger of its percentage of nominal and its floor in millimetres.

    Parameters
    ----------
    quantity : str
        local_pitch, mean_pitch_of_section, mean_pitch_of_blade, mean_pitch_of_propeller, extreme_radius,
        section_thickness, section_length or rake.
    iso_class : str
        S, I, II or III.
    nominal_m : array_like, shape S
        What the percentage is of: design pitch, radius or thickness; D / Z for section_length, D for rake; m.
    part : str
        "484-1" or "484-2".

    Returns
    -------
    band : ToleranceBand
        minus_m and plus_m of shape S, both above zero; infinite where the class asks nothing. NaN where not known.

    Raises
    ------
    OutsideRange
        A nominal is not above zero; no such quantity, class or part.

    Source
    ------
    ISO 484-1 and 484-2, 1981 (secondary and from memory: each band carries its status). Whether 2015 changed a
    figure was not checked.

    Examples
    --------
    >>> allowed = band("section_thickness", "I", 0.020)
    >>> float(0.020 - allowed.minus_m), float(0.020 + allowed.plus_m)
    (0.0185, 0.0225)
    """
    nominal_m = hold("nominal_m", nominal_m, "must be above zero.", above=0)
    row = _rows(quantity, part)[_hold_class(iso_class)]
    minus_m, plus_m = (_allowed(row, side, nominal_m) for side in ("minus", "plus"))
    return ToleranceBand(
        minus_m=minus_m, plus_m=plus_m, status_percent=row["status_percent"], status_floor=row["status_floor"]
    )


def spacing_limit(iso_class: str) -> float:
    """What a class allows on the angle between two neighbouring blades, either way.

    Parameters
    ----------
    iso_class : str
        S, I, II or III.

    Returns
    -------
    limit_rad : float
        rad.

    Raises
    ------
    OutsideRange
        No such class.

    Source
    ------
    ISO 484-2:1981 (secondary).

    Examples
    --------
    >>> float(np.degrees(spacing_limit("II")))
    2.0
    """
    row = _rows("angle_between_consecutive_blades", "484-2", "deg")[_hold_class(iso_class)]
    return float(np.radians(figure(row, "plus")))


def _rows(quantity: str, part: str, unit: str = "%") -> dict[str, Row]:
    if part not in PARTS:
        raise OutsideRange("part", f"must be one of: {', '.join(PARTS)}.", part)
    rows = {
        row["class"]: row
        for row in table("iso484_tolerances")
        if row["quantity"] == quantity and row["part"] in (part, "both") and row["unit"] == unit
    }
    if len(rows) < len(CLASSES):
        raise OutsideRange("quantity", f"must be a quantity with a band for every class in ISO {part}.", quantity)
    return rows


def _hold_class(iso_class: str) -> str:
    if iso_class not in CLASSES:
        raise OutsideRange("iso_class", "must be S, I, II or III.", iso_class)
    return iso_class


def _allowed(row: Row, side: str, nominal_m: NDArray[np.float64]) -> NDArray[np.float64]:
    percent, floor_mm = figure(row, side), figure(row, f"{side}_floor_mm")
    if np.isnan(percent):
        return np.full_like(nominal_m, np.inf)
    share_m = percent / 100 * nominal_m
    return share_m if np.isnan(floor_mm) else np.maximum(share_m, floor_mm / 1000)
