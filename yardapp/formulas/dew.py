"""Dew point, and the margin of metal above it."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import OutsideRange, alike, as_given, hold

# Magnus over water, WMO-No. 8, Guide to Instruments and Methods of Observation.
MAGNUS_A = 17.62
MAGNUS_B_C = 243.12
MAGNUS_C_PA = 611.2
LEAST_MARGIN_C = 3.0


def dew_point(air_c: ArrayLike, relative_humidity: ArrayLike) -> NDArray[np.float64]:
    """Dew point by Magnus: g = ln(RH) + a T / (b + T), Td = b g / (a - g).

    Over water throughout: below 0 C the frost point lies up to 0.4 C higher.

    Parameters
    ----------
    air_c : array_like, shape S
        Temperature of the air, degrees C.
    relative_humidity : array_like, shape S
        Share of saturation, 0 to 1; 60 % is 0.60.

    Returns
    -------
    dew_point_c : ndarray, shape S
        Degrees C; NaN where not known.

    Raises
    ------
    OutsideRange
        The air is outside -45 to 60 C; the humidity is not above zero and at most 1.

    Validity
    --------
    Air from -45 to 60 C.

    Source
    ------
    WMO-No. 8, over water (secondary); within 0.02 C of Sonntag 1994 above 0 C.

    Examples
    --------
    >>> float(dew_point(20.0, 0.60))
    12.0
    """
    alike(air_c=air_c, relative_humidity=relative_humidity)
    said = "must be above zero and at most 1; 60 % is 0.60."
    relative_humidity = hold("relative_humidity", relative_humidity, said, above=0, at_most=1)
    air_c = _hold_weather("air_c", air_c)
    return _dew(np.log(relative_humidity) + MAGNUS_A * air_c / (MAGNUS_B_C + air_c))


def dew_point_from_wet_bulb(
    air_c: ArrayLike, wet_bulb_c: ArrayLike, pressure_pa: ArrayLike = 101325.0
) -> NDArray[np.float64]:
    """Dew point from a whirled psychrometer: e = es(wet) - 6.53e-4 (1 + 9.44e-4 wet) p (air - wet).

    Parameters
    ----------
    air_c : array_like, shape S
        Dry bulb, degrees C.
    wet_bulb_c : array_like, shape S
        Wet bulb, unfrozen, degrees C.
    pressure_pa : array_like, shape S
        Pressure of the air, Pa.

    Returns
    -------
    dew_point_c : ndarray, shape S
        Degrees C; NaN where not known.

    Raises
    ------
    OutsideRange
        A temperature is outside 0 to 60 C; the wet bulb is above the dry one, or too far below it for any moisture;
        the pressure is outside 80 to 110 kPa.

    Validity
    --------
    0 to 60 C, 80 to 110 kPa, an unfrozen wick.

    Source
    ------
    WMO-No. 8, psychrometer of Assmann's kind (from memory, high).

    Examples
    --------
    >>> float(dew_point_from_wet_bulb(21.0, 17.0))
    14.7
    """
    alike(air_c=air_c, wet_bulb_c=wet_bulb_c, pressure_pa=pressure_pa)
    air_c = hold("air_c", air_c, "must lie from 0 to 60 C.", at_least=0, at_most=60)
    said = "must lie from 0 C to the dry bulb's reading."
    wet_bulb_c = hold("wet_bulb_c", wet_bulb_c, said, at_least=0, at_most=air_c)
    pressure_pa = hold("pressure_pa", pressure_pa, "must lie from 80 to 110 kPa.", at_least=80e3, at_most=110e3)
    saturated_pa = MAGNUS_C_PA * np.exp(MAGNUS_A * wet_bulb_c / (MAGNUS_B_C + wet_bulb_c))
    vapour_pa = saturated_pa - 6.53e-4 * (1 + 9.44e-4 * wet_bulb_c) * pressure_pa * (air_c - wet_bulb_c)
    dry = vapour_pa <= 0
    if np.any(dry):
        said = "must be nearer to the dry bulb's reading: no air is so dry."
        raise OutsideRange("wet_bulb_c", said, f"{np.broadcast_to(wet_bulb_c, np.shape(dry))[dry][0]:.6g}")
    return _dew(np.log(vapour_pa / MAGNUS_C_PA))


def humidity_of(air_c: ArrayLike, dew_point_c: ArrayLike) -> NDArray[np.float64]:
    """Relative humidity of air whose dew point is known, by Magnus over water: es(Td) / es(T).

    Parameters
    ----------
    air_c : array_like, shape S
        Temperature of the air, degrees C.
    dew_point_c : array_like, shape S
        Dew point over water, degrees C.

    Returns
    -------
    relative_humidity : ndarray, shape S
        Share of saturation, 0 to 1; NaN where not known.

    Raises
    ------
    OutsideRange
        The air is outside -45 to 60 C; the dew point is below -100 C or above the air's temperature.

    Validity
    --------
    Air from -45 to 60 C.

    Source
    ------
    WMO-No. 8, over water (secondary): `dew_point` the other way round.

    Examples
    --------
    >>> float(humidity_of(20.0, 12.0))
    0.60
    """
    alike(air_c=air_c, dew_point_c=dew_point_c)
    air_c = _hold_weather("air_c", air_c)
    said = "must lie from -100 C to the air's own temperature."
    dew_point_c = hold("dew_point_c", dew_point_c, said, at_least=-100, at_most=air_c)
    ratio = MAGNUS_A * dew_point_c / (MAGNUS_B_C + dew_point_c) - MAGNUS_A * air_c / (MAGNUS_B_C + air_c)
    return as_given(np.exp(ratio))


def dew_margin(surface_c: ArrayLike, dew_point_c: ArrayLike) -> NDArray[np.float64]:
    """How far the metal is warmer than the dew point: surface - dew point.

    Parameters
    ----------
    surface_c : array_like, shape S
        Temperature of the metal itself, not of the air, degrees C.
    dew_point_c : array_like, shape S
        Dew point, degrees C.

    Returns
    -------
    margin_c : ndarray, shape S
        Degrees; below zero it is wet. NaN where not known.

    Raises
    ------
    OutsideRange
        The metal is outside -45 to 60 C; the dew point is outside -100 to 60 C.

    Validity
    --------
    Metal from -45 to 60 C, dew point from -100 to 60 C.

    Source
    ------
    ISO 8502-4 (method confirmed).

    Examples
    --------
    >>> float(dew_margin(13.0, 10.74))
    2.26
    """
    alike(surface_c=surface_c, dew_point_c=dew_point_c)
    dew_point_c = hold("dew_point_c", dew_point_c, "must lie from -100 to 60 C.", at_least=-100, at_most=60)
    return _hold_weather("surface_c", surface_c) - dew_point_c


def is_dry_enough(margin_c: float, least_c: float = LEAST_MARGIN_C) -> bool | None:
    """Whether metal is far enough above its dew point: at least 3 degrees, exactly 3 included.

    Parameters
    ----------
    margin_c : float
        As `dew_margin` gives it, degrees C.
    least_c : float
        What the data sheet asks for, degrees C.

    Returns
    -------
    dry_enough : bool or None
        None: cannot tell, for the margin is not known.

    Raises
    ------
    OutsideRange
        A figure is infinite; the least margin is below zero.

    Source
    ------
    ISO 8502-4 practice (secondary); IMO MSC.215(82) Table 1 (from memory, high). For steel; by analogy on bronze.

    Examples
    --------
    >>> is_dry_enough(2.26), is_dry_enough(3.0), is_dry_enough(float("nan"))
    (False, True, None)
    """
    margin = float(hold("margin_c", margin_c, "must be finite."))
    hold("least_c", least_c, "must be zero or more.", at_least=0)
    # 16.1 - 13.1 is a hair under 3 in floats.
    return None if np.isnan(margin) else bool(margin >= least_c - 1e-9)


def _dew(moisture: NDArray[np.float64]) -> NDArray[np.float64]:
    return MAGNUS_B_C * moisture / (MAGNUS_A - moisture)


def _hold_weather(argument: str, temperature_c: ArrayLike) -> NDArray[np.float64]:
    return hold(argument, temperature_c, "must lie from -45 to 60 C.", at_least=-45, at_most=60)
