"""Where a formula holds, and what it says when a figure lies outside."""

from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

# A numerical derivative steps by about 1.5e-8 of the figure; that step must not fall off the edge of a range.
SLACK = 1e-6


class OutsideRange(ValueError):
    """`argument` is the formula's own parameter name. Forms use the same name, so nobody translates.

    `said` is what is allowed and reads on after a label ("Swing" + "must be above zero."); `figure` is what was given.
    """

    def __init__(self, argument: str, said: str, figure: object = None) -> None:
        super().__init__(f"{argument} {said}" if figure is None else f"{argument} is {figure}: it {said}")
        self.argument = argument
        self.said = said
        self.figure = figure


def hold(
    argument: str,
    figure: ArrayLike,
    said: str,
    *,
    above: ArrayLike | None = None,
    below: ArrayLike | None = None,
    at_least: ArrayLike | None = None,
    at_most: ArrayLike | None = None,
) -> NDArray[np.float64]:
    """Return the figure as floats; raise OutsideRange unless every known one lies within the bounds.

    NaN (not known) passes, on either side of a bound; infinity never does. `said` is what is allowed, in words.
    """
    figure = np.asarray(figure, float)
    outside = np.isinf(figure)
    if above is not None:
        outside = outside | (figure <= np.asarray(above, float))
    if below is not None:
        outside = outside | (figure >= np.asarray(below, float))
    if at_least is not None:
        outside = outside | (figure < _wider(at_least, -SLACK))
    if at_most is not None:
        outside = outside | (figure > _wider(at_most, SLACK))
    if outside.any():
        first = np.broadcast_to(figure, outside.shape)[outside][0]
        raise OutsideRange(argument, said, f"{first:.6g}")
    return as_given(figure)


def as_given(figure: ArrayLike) -> NDArray[Any]:
    """Return a number where numbers went in, and an array where arrays did: never an array of no dimension."""
    given: NDArray[Any] = np.asarray(figure)[()]
    return given


def _wider(bound: ArrayLike, slack: float) -> float | NDArray[np.float64]:
    """The bound with its slack; an infinite one has none, for it would come out as NaN and hold nothing."""
    if isinstance(bound, int | float):
        return bound + slack * abs(bound) if abs(bound) < np.inf else bound
    bound = np.asarray(bound, float)
    return np.where(np.isinf(bound), bound, bound + slack * np.abs(np.where(np.isinf(bound), 0.0, bound)))


def hold_above_zero(**figures: ArrayLike) -> tuple[NDArray[np.float64], ...]:
    """Return the figures as floats of shapes that go together; raise OutsideRange where one is not above zero."""
    alike(**figures)
    return tuple(hold(argument, figure, "must be above zero.", above=0) for argument, figure in figures.items())


def alike(**figures: ArrayLike) -> tuple[int, ...]:
    """Return the common shape; raise OutsideRange naming the first argument whose shape does not go with the others."""
    shape: tuple[int, ...] = ()
    for argument, figure in figures.items():
        own = np.shape(figure)
        if own in ((), shape):
            continue
        try:
            shape = np.broadcast_shapes(shape, own)
        except ValueError:
            said = f"must have a shape that goes with {shape}."
            raise OutsideRange(argument, said, f"of shape {own}") from None
    return shape


def hold_whole(argument: str, figure: ArrayLike, said: str, *, at_least: float, at_most: float) -> NDArray[np.float64]:
    """Return whole numbers as floats; raise OutsideRange where one is not whole or lies outside the bounds."""
    figure = hold(argument, figure, said, at_least=at_least, at_most=at_most)
    broken = np.isfinite(figure) & (figure != np.round(figure))
    if np.any(broken):
        raise OutsideRange(argument, said, f"{figure[broken][0]:.6g}")
    return figure
