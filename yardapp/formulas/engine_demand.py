"""What the line to the propeller takes, and what a propeller asks of the engine."""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import alike, as_given, hold, hold_above_zero, hold_whole
from yardapp.formulas.tables import figure, table

Array = NDArray[np.float64]


class Shortfall(NamedTuple):
    """How far an engine stays below its rated speed, and whether that is usually accepted."""

    engine_speed_rps: Array
    is_tolerated: NDArray[np.bool_]


def kept_ratio(gearbox_count: ArrayLike = 1, bearing_count: ArrayLike = 2) -> Array:
    """Part of the engine's power that reaches the propeller: 0.97 a gearbox, 0.985 a bearing.

    Parameters
    ----------
    gearbox_count : array_like, shape S
        Gearboxes in the line.
    bearing_count : array_like, shape S
        Bearings in the line.

    Returns
    -------
    kept_ratio : ndarray, shape S
        1; NaN where a count is not known.

    Raises
    ------
    OutsideRange
        A count is not a whole number from 0 to 10.

    Source
    ------
    D. Gerr, Propeller Handbook (from memory, high confidence). Textbooks give 3 to 5 % for the whole line.

    Examples
    --------
    >>> float(kept_ratio(1, 2))
    0.941
    """
    said = "must be a whole number from 0 to 10."
    alike(gearbox_count=gearbox_count, bearing_count=bearing_count)
    boxes = hold_whole("gearbox_count", gearbox_count, said, at_least=0, at_most=10)
    bearings = hold_whole("bearing_count", bearing_count, said, at_least=0, at_most=10)
    loss = {row["case"]: figure(row, "figure") for row in table("engine_match") if row["item"] == "loss"}
    return as_given((1 - loss["gearbox"]) ** boxes * (1 - loss["bearing"]) ** bearings)


def demand_power(
    engine_speed_rps: ArrayLike, power_w: ArrayLike, known_speed_rps: ArrayLike, exponent_number: ArrayLike = 3.0
) -> Array:
    """Power that the propeller asks for at a speed, from one point where it is known: P (n / n known)^exponent.

    Parameters
    ----------
    engine_speed_rps : array_like, shape S
        Speed at which to say it, 1/s.
    power_w : array_like, shape S
        Power at the known speed, W.
    known_speed_rps : array_like, shape S
        The speed at which the power is known, 1/s.
    exponent_number : array_like, shape S
        3.0 for heavy displacement and commercial craft, 2.7 for the average pleasure craft.

    Returns
    -------
    power_w : ndarray, shape S
        W; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero, or the exponent lies outside 1 to 3.5.

    Validity
    --------
    At one advance ratio; a boat that begins to plane asks for less than this.

    Source
    ------
    Similarity (3.0); D. Gerr, Propeller Handbook, formula 1-2 (2.7, from memory, medium confidence).

    Examples
    --------
    >>> float(demand_power(40.0, 28e3, 50.0))
    14336.0
    """
    alike(**locals())
    speed, power, known = hold_above_zero(
        engine_speed_rps=engine_speed_rps, power_w=power_w, known_speed_rps=known_speed_rps
    )
    said = "must lie from 1 to 3.5."
    exponent = hold("exponent_number", exponent_number, said, at_least=1, at_most=3.5)
    return as_given(power * (speed / known) ** exponent)


def rated_shortfall(reached_rps: ArrayLike, rated_rps: ArrayLike) -> Shortfall:
    """How far a loaded engine at full throttle stays below its rated speed; 100 rpm is usually accepted.

    Parameters
    ----------
    reached_rps : array_like, shape S
        Engine speed that was reached, 1/s.
    rated_rps : array_like, shape S
        Rated engine speed, 1/s.

    Returns
    -------
    shortfall : Shortfall
        engine_speed_rps, below zero where it turned faster than rated, and is_tolerated; each of shape S.
        NaN where not known.

    Raises
    ------
    OutsideRange
        An argument is not above zero.

    Source
    ------
    S. D'Antonio, PassageMaker magazine, The nuts and bolts of propellers, part 2.

    Examples
    --------
    >>> found = rated_shortfall(2_850 / 60, 3_000 / 60)
    >>> float(found.engine_speed_rps * 60), bool(found.is_tolerated)
    (150.0, False)
    """
    reached, rated = hold_above_zero(reached_rps=reached_rps, rated_rps=rated_rps)
    tolerated = next(figure(row, "figure") for row in table("engine_match") if row["item"] == "shortfall tolerated")
    short = rated - reached
    return Shortfall(short, as_given(short * 60 <= tolerated * (1 + 1e-9)))
