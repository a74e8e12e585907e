"""Coating: areas and pot life; dew and film lie beside and are reached from here."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.dew import dew_margin, dew_point, dew_point_from_wet_bulb, humidity_of, is_dry_enough
from yardapp.formulas.film import product_needed, spreading_rate, wet_film
from yardapp.formulas.ranges import OutsideRange, alike, as_given, hold, hold_above_zero

__all__ = [
    "dew_margin",
    "dew_point",
    "dew_point_from_wet_bulb",
    "hub_area",
    "humidity_of",
    "is_dry_enough",
    "pot_life",
    "product_needed",
    "propeller_area",
    "shaft_area",
    "spreading_rate",
    "waiting_time",
    "wet_film",
]


def propeller_area(
    expanded_area_m2: ArrayLike, hub_length_m: ArrayLike, hub_diameter_m: ArrayLike
) -> NDArray[np.float64]:
    """Area of a propeller to be coated: both sides of the blades, and the hub.

    Parameters
    ----------
    expanded_area_m2 : array_like, shape S
        Expanded area of all blades, one side, m2.
    hub_length_m : array_like, shape S
        Length of the hub, m.
    hub_diameter_m : array_like, shape S
        Mean outer diameter of the hub, m.

    Returns
    -------
    area_m2 : ndarray, shape S
        m2; blade roots and edges are not taken off or added. NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero.

    Source
    ------
    Geometry; common practice, no source.

    Examples
    --------
    >>> float(propeller_area(0.10, 0.10, 0.08))
    0.225
    """
    alike(expanded_area_m2=expanded_area_m2, hub_length_m=hub_length_m, hub_diameter_m=hub_diameter_m)
    (expanded_area_m2,) = hold_above_zero(expanded_area_m2=expanded_area_m2)
    return 2 * expanded_area_m2 + hub_area(hub_length_m, hub_diameter_m)


def hub_area(hub_length_m: ArrayLike, hub_diameter_m: ArrayLike) -> NDArray[np.float64]:
    """Outer side of a hub taken as a cylinder: pi d L; its faces stay bare.

    Parameters
    ----------
    hub_length_m : array_like, shape S
        Length of the hub, m.
    hub_diameter_m : array_like, shape S
        Mean outer diameter of the hub, m.

    Returns
    -------
    area_m2 : ndarray, shape S
        m2; NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> float(hub_area(0.10, 0.08))
    0.0251
    """
    hub_length_m, hub_diameter_m = hold_above_zero(hub_length_m=hub_length_m, hub_diameter_m=hub_diameter_m)
    return np.pi * hub_diameter_m * hub_length_m


def shaft_area(shaft_length_m: ArrayLike, shaft_diameter_m: ArrayLike) -> NDArray[np.float64]:
    """Side of a bare shaft: pi d L.

    Parameters
    ----------
    shaft_length_m : array_like, shape S
        Length that lies in the water, bearings left out, m.
    shaft_diameter_m : array_like, shape S
        Diameter of the shaft, m.

    Returns
    -------
    area_m2 : ndarray, shape S
        m2; NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> float(shaft_area(1.0, 0.05))
    0.157
    """
    shaft_length_m, shaft_diameter_m = hold_above_zero(shaft_length_m=shaft_length_m, shaft_diameter_m=shaft_diameter_m)
    return np.pi * shaft_diameter_m * shaft_length_m


def pot_life(temperature_c: ArrayLike, sheet_c: ArrayLike, sheet_s: ArrayLike) -> NDArray[np.float64]:
    """Time that a data sheet gives at a temperature, between its rows and never beyond them.

    Between two rows the time falls by equal shares for equal steps, which is never longer than a straight line gives.

    Parameters
    ----------
    temperature_c : array_like, shape S
        Temperature of the mix (or metal, as the sheet says), degrees C.
    sheet_c : array_like, shape (rows,)
        The sheet's temperatures, rising, degrees C.
    sheet_s : array_like, shape (rows,)
        The time that the sheet prints beside each, s.

    Returns
    -------
    duration_s : ndarray, shape S
        s; NaN where the temperature is not known.

    Raises
    ------
    OutsideRange
        A temperature lies outside the sheet's rows; the rows do not rise, or a time is not above zero or not known.

    Source
    ------
    The data sheet's own rows; halving for 10 C (general two-part practice, secondary) is the same curve.

    Examples
    --------
    >>> float(pot_life(30, [20, 40], [7200, 1800])) / 3600
    1.0
    """
    rows_c, rows_s = _hold_sheet(sheet_c, sheet_s)
    said = f"must lie from {rows_c[0]:g} to {rows_c[-1]:g} C, the rows of the data sheet."
    temperature_c = hold("temperature_c", temperature_c, said, at_least=rows_c[0], at_most=rows_c[-1])
    return np.exp(np.interp(temperature_c, rows_c, np.log(rows_s)))


def waiting_time(temperature_c: ArrayLike, sheet_c: ArrayLike, sheet_s: ArrayLike) -> NDArray[np.float64]:
    """Least time that a data sheet asks to wait at a temperature, between its rows and never beyond them.

    Between two rows it follows the straight line, which is never shorter than the curve of `pot_life`.

    Parameters
    ----------
    temperature_c : array_like, shape S
        Temperature of the metal (or as the sheet says), degrees C.
    sheet_c : array_like, shape (rows,)
        The sheet's temperatures, rising, degrees C.
    sheet_s : array_like, shape (rows,)
        The time that the sheet prints beside each, s; zero is "straight on".

    Returns
    -------
    duration_s : ndarray, shape S
        s; NaN where the temperature is not known.

    Raises
    ------
    OutsideRange
        A temperature lies outside the sheet's rows; the rows do not rise, or a time is below zero or not known.

    Source
    ------
    The data sheet's own rows; the straight line is our choice, on the safe side of the usual halving for 10 C.

    Examples
    --------
    >>> float(waiting_time(15, [10, 20], [5400, 1800])) / 60
    60.0
    """
    hold("sheet_s", sheet_s, "must be zero or more.", at_least=0)
    rows_c, rows_s = _hold_sheet(sheet_c, sheet_s, above=-1.0)
    said = f"must lie from {rows_c[0]:g} to {rows_c[-1]:g} C, the rows of the data sheet."
    temperature_c = hold("temperature_c", temperature_c, said, at_least=rows_c[0], at_most=rows_c[-1])
    return as_given(np.interp(temperature_c, rows_c, rows_s))


def _hold_sheet(
    sheet_c: ArrayLike, sheet_s: ArrayLike, above: float = 0.0
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    rows_c = hold("sheet_c", sheet_c, "must be finite.")
    rows_s = hold("sheet_s", sheet_s, "must be above zero.", above=above)
    if rows_c.ndim != 1 or rows_c.size == 0 or not np.all(np.diff(rows_c) > 0) or np.any(np.isnan(rows_c)):
        raise OutsideRange("sheet_c", "must be one row of temperatures or more, rising.", rows_c.tolist())
    if rows_s.shape != rows_c.shape or np.any(np.isnan(rows_s)):
        raise OutsideRange("sheet_s", "must hold one time for each temperature.", rows_s.tolist())
    return rows_c, rows_s
