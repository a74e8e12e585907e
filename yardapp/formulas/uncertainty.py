"""Carry a standard uncertainty through any formula, without a second copy of the formula."""

from collections.abc import Callable
from contextlib import suppress
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray
from uncertainties import UFloat, wrap

from yardapp.formulas.ranges import OutsideRange, hold

# Cube root of the float's precision: the step at which a central difference is most exact.
STEP = float(np.finfo(float).eps) ** (1 / 3)
# A step that stays within the slack that `ranges.hold` leaves at the edge of a range; zero has no slack.
EDGE_STEP = 2e-8


def propagate(formula: Callable[..., Any], **readings: UFloat | float) -> UFloat:
    """Value and standard uncertainty of `formula` at `readings`; shared readings stay correlated.

    Parameters
    ----------
    formula
        A scalar-capable function of this package.
    **readings
        One number with standard uncertainty (k = 1) for each parameter, in the parameter's unit;
        a plain number is taken as exact.

    Returns
    -------
    UFloat
        In the formula's own unit, k = 1.

    Raises
    ------
    OutsideRange
        As the formula does, at the nominal values.

    Source
    ------
    JCGM 100:2008 (GUM), 5.1.2, first order.

    Examples
    --------
    >>> from uncertainties import ufloat
    >>> from yardapp.formulas.area import projected_area_ratio
    >>> print(f"{propagate(projected_area_ratio, pitch_ratio=ufloat(1.0, 0.02)):.2u}")
    0.8380+/-0.0046
    """
    slopes = {name: _slope_at(formula, name) for name in readings}
    return wrap(lambda **nominal: float(formula(**nominal)), derivatives_kwargs=slopes)(**readings)


def propagate_arrays(
    formula: Callable[..., Any], **readings: tuple[ArrayLike, ArrayLike]
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Values and standard uncertainties of `formula` for whole arrays of uncorrelated readings, by central differences.

    Parameters
    ----------
    formula
        A function of this package that takes arrays.
    **readings
        For each parameter a pair (figure, standard uncertainty at k = 1), in the parameter's unit.

    Returns
    -------
    value, u : ndarray
        In the formula's own unit, k = 1.

    Raises
    ------
    OutsideRange
        As the formula does; or an uncertainty is below zero.

    Source
    ------
    JCGM 100:2008 (GUM), 5.1.2, eq. 10, first order.

    Examples
    --------
    >>> from yardapp.formulas.pitch import pitch_from_rise
    >>> value, u = propagate_arrays(pitch_from_rise, rise_m=([0.0333], [0.0002]), swing_rad=(0.698132, 0.001745))
    >>> value.round(4), u.round(5)
    (array([0.2997]), array([0.00195]))
    """
    figures = {name: np.asarray(figure, float) for name, (figure, _) in readings.items()}
    value = np.asarray(formula(**figures), float)
    variance = np.zeros_like(value)
    for name, (_, u) in readings.items():
        u = hold(f"u_{name}", u, "must be zero or more.", at_least=0)
        variance = variance + (_slope(formula, figures, name) * u) ** 2
    return value, np.sqrt(variance)


def _slope_at(formula: Callable[..., Any], name: str) -> Callable[..., float]:
    def slope(**nominal: Any) -> float:
        return float(_slope(formula, nominal, name))

    return slope


def _slope(formula: Callable[..., Any], figures: dict[str, Any], name: str) -> NDArray[np.float64]:
    """Central difference; at the edge of a range a step within its slack, and at zero a step to one side."""
    figure = np.asarray(figures[name], float)
    size = np.where(figure == 0, 1.0, np.abs(figure))
    wide, near = STEP * size, EDGE_STEP * size
    aside = np.where(figure == 0, 0.0, near)

    def difference(up: NDArray[np.float64], down: NDArray[np.float64]) -> NDArray[np.float64]:
        above, below = (np.asarray(formula(**figures | {name: place}), float) for place in (figure + up, figure - down))
        return np.asarray((above - below) / (up + down))

    for up, down in ((wide, wide), (near, aside)):
        with suppress(OutsideRange):
            return difference(up, down)
    return difference(aside, near)


def u_of_product(value: ArrayLike, *factors: tuple[ArrayLike, ArrayLike, float]) -> NDArray[np.float64]:
    """Standard uncertainty of y = c x1^p1 x2^p2 ... from uncorrelated factors: (u/y)^2 = sum (p u(x)/x)^2.

    Parameters
    ----------
    value : array_like, shape S
        y, in any unit.
    *factors
        For each factor (x, its standard uncertainty in the same unit, its power p).

    Returns
    -------
    u : ndarray, shape S
        In the unit of `value`, k = 1.

    Raises
    ------
    OutsideRange
        A factor is zero, or an uncertainty is below zero.

    Source
    ------
    JCGM 100:2008 (GUM), 5.1.6, eq. 12.

    Examples
    --------
    >>> float(u_of_product(0.6660, (0.29970, 0.00195, 1), (0.450, 0.0005, -1)))
    0.0044
    """
    share = np.zeros(())
    for figure, u, power in factors:
        hold("factor", np.abs(np.asarray(figure, float)), "must not be zero.", above=0)
        u = hold("u_factor", u, "must be zero or more.", at_least=0)
        share = share + (power * u / np.asarray(figure, float)) ** 2
    return np.asarray(np.abs(np.asarray(value, float)) * np.sqrt(share))
