"""How straight and how worn a shaft is, from a dial and a caliper."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import OutsideRange, alike, as_given, hold, hold_above_zero

Figures = Sequence[float] | NDArray[np.float64]
QUARTERS = 4


def bend_offset(swing_m: ArrayLike) -> NDArray[np.float64]:
    """How far a shaft's middle stands off the line it turns about: half the dial's full swing.

    Parameters
    ----------
    swing_m : array_like, shape S
        Full swing of the dial in one turn, highest less lowest, m.

    Returns
    -------
    offset_m : ndarray, shape S
        m; NaN where not known.

    Raises
    ------
    OutsideRange
        A swing is below zero.

    Source
    ------
    Geometry: a point that turns at e about a line comes e nearer and goes e further, so run-out is twice the offset.

    Examples
    --------
    >>> float(bend_offset(0.0005))
    0.00025
    """
    return hold("swing_m", swing_m, "must be zero or more: highest less lowest.", at_least=0) / 2


def dial_swing(dial_m: Figures) -> NDArray[np.float64]:
    """Full swing of a dial over the readings of one turn: highest less lowest.

    Parameters
    ----------
    dial_m : array_like, shape (readings,)
        Two readings or more at one place along the shaft, m.

    Returns
    -------
    swing_m : ndarray, shape ()
        m.

    Raises
    ------
    OutsideRange
        There are fewer than two readings, or one is infinite.

    Source
    ------
    Definition of run-out, total indicator reading; ASME Y14.5.

    Examples
    --------
    >>> round(float(dial_swing([0.0001, 0.0004, -0.0001, 0.0])), 7)
    0.0005
    """
    dial = _hold_dial(dial_m, 2)
    return as_given(np.max(dial) - np.min(dial))


def offset_from_quarters(dial_m: Figures) -> NDArray[np.float64]:
    """Offset of a shaft's middle from the dial at four quarters: half of (1st - 3rd) and (2nd - 4th), put together.

    What turns once a turn is the bend; a shaft out of round swings twice a turn and drops out.

    Parameters
    ----------
    dial_m : array_like, shape (4,)
        Readings at 0, 90, 180 and 270 degrees of one turn, m.

    Returns
    -------
    offset_m : ndarray, shape ()
        m.

    Raises
    ------
    OutsideRange
        There are not four readings, or one is infinite.

    Source
    ------
    First term of the Fourier series of four even readings; two-plane run-out practice.

    Examples
    --------
    >>> round(float(offset_from_quarters([0.0003, 0.0004, -0.0003, -0.0004])), 7)
    0.0005
    """
    dial = _hold_dial(dial_m, QUARTERS, exactly=True)
    return as_given(np.hypot(dial[0] - dial[2], dial[1] - dial[3]) / 2)


def out_of_round(dial_m: Figures) -> NDArray[np.float64]:
    """How far a shaft under a dial is out of round: |1st - 2nd + 3rd - 4th|, on diameter.

    Parameters
    ----------
    dial_m : array_like, shape (4,)
        Readings at 0, 90, 180 and 270 degrees of one turn, m.

    Returns
    -------
    out_of_round_m : ndarray, shape ()
        Difference of the two diameters at right angles, m; an oval whose axes lie between the quarters is not seen.

    Raises
    ------
    OutsideRange
        There are not four readings, or one is infinite.

    Source
    ------
    Geometry: opposite readings add up to a diameter, whatever the bend.

    Examples
    --------
    >>> round(float(out_of_round([0.0, -0.0001, 0.0, -0.0001])), 7)
    0.0002
    """
    dial = _hold_dial(dial_m, QUARTERS, exactly=True)
    return as_given(np.abs(dial[0] - dial[1] + dial[2] - dial[3]))


def _hold_dial(dial_m: Figures, count: int, *, exactly: bool = False) -> NDArray[np.float64]:
    dial = hold("dial_m", dial_m, "must be finite.")
    if dial.ndim != 1 or dial.size < count or (exactly and dial.size != count):
        said = f"must be {count} readings{'' if exactly else ' or more'} round one turn."
        raise OutsideRange("dial_m", said, dial.tolist())
    return dial


def wear(diameters_m: Figures) -> NDArray[np.float64]:
    """How much thinner a shaft is at each place than where it is thickest: largest - diameter.

    Parameters
    ----------
    diameters_m : array_like, shape (places,)
        Diameters along the shaft, m.

    Returns
    -------
    wear_m : ndarray, shape (places,)
        On diameter, m; zero at the thickest place, which counts as unworn.

    Raises
    ------
    OutsideRange
        There are fewer than two places, or a diameter is not above zero.

    Source
    ------
    Arithmetic.

    Examples
    --------
    >>> [round(float(one), 6) for one in wear([0.0380, 0.0377, 0.0379])]
    [0.0, 0.0003, 0.0001]
    """
    diameters = hold("diameters_m", diameters_m, "must be above zero.", above=0)
    if diameters.ndim != 1 or diameters.size < 2:
        raise OutsideRange("diameters_m", "must be two places or more.", diameters.tolist())
    return as_given(np.max(diameters) - diameters)


def ovality(first_m: ArrayLike, second_m: ArrayLike) -> NDArray[np.float64]:
    """How far a shaft is out of round at one place: |first - second| of two diameters at right angles.

    Parameters
    ----------
    first_m : array_like, shape S
        Diameter, m.
    second_m : array_like, shape S
        Diameter at right angles to it, m.

    Returns
    -------
    ovality_m : ndarray, shape S
        m; NaN where not known.

    Raises
    ------
    OutsideRange
        A diameter is not above zero.

    Source
    ------
    Arithmetic.

    Examples
    --------
    >>> round(float(ovality(0.0380, 0.0378)), 6)
    0.0002
    """
    first, second = hold_above_zero(first_m=first_m, second_m=second_m)
    return as_given(np.abs(first - second))


def bearing_play(bearing_bore_m: ArrayLike, shaft_m: ArrayLike) -> NDArray[np.float64]:
    """Play of a shaft in its bearing: bore - shaft, on diameter.

    Parameters
    ----------
    bearing_bore_m : array_like, shape S
        Bore of the bearing where it is widest, m.
    shaft_m : array_like, shape S
        Diameter of the shaft where it runs in it, m.

    Returns
    -------
    play_m : ndarray, shape S
        m; below zero the bearing is swollen or the readings are wrong. NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero.

    Source
    ------
    Arithmetic; play is diametral.

    Examples
    --------
    >>> round(float(bearing_play(0.0390, 0.0381)), 6)
    0.0009
    """
    alike(bearing_bore_m=bearing_bore_m, shaft_m=shaft_m)
    bore, shaft = hold_above_zero(bearing_bore_m=bearing_bore_m, shaft_m=shaft_m)
    return as_given(bore - shaft)


def play_from_lift(lift_m: ArrayLike) -> NDArray[np.float64]:
    """Play of a shaft in its bearing from how far it lifts: the lift itself.

    Parameters
    ----------
    lift_m : array_like, shape S
        From where the shaft lies to where it is lifted against the top of the bearing, at the bearing, m.

    Returns
    -------
    play_m : ndarray, shape S
        On diameter, m; NaN where not known.

    Raises
    ------
    OutsideRange
        A lift is below zero.

    Source
    ------
    Geometry: lifted from bottom to top the shaft goes through its whole play.

    Examples
    --------
    >>> float(play_from_lift(0.0009))
    0.0009
    """
    return hold("lift_m", lift_m, "must be zero or more.", at_least=0)
