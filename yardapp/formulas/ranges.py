"""Where a formula holds, and what it says when a figure lies outside."""

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
    above: ArrayLike = -np.inf,
    below: ArrayLike = np.inf,
    at_least: ArrayLike = -np.inf,
    at_most: ArrayLike = np.inf,
) -> NDArray[np.float64]:
    """Return the figure as floats; raise OutsideRange unless every known one lies within the bounds.

    NaN (not known) passes, on either side of a bound; infinity never does. `said` is what is allowed, in words.
    """
    figure = np.asarray(figure, float)
    above, below, at_least, at_most = (np.asarray(bound, float) for bound in (above, below, at_least, at_most))
    outside = (figure <= above) | (figure >= below) | np.isinf(figure)
    # An infinite bound has no slack: it would come out as NaN and hold nothing.
    outside |= np.isfinite(at_least) & (figure < at_least - SLACK * np.abs(np.nan_to_num(at_least)))
    outside |= np.isfinite(at_most) & (figure > at_most + SLACK * np.abs(np.nan_to_num(at_most)))
    if np.any(outside):
        first = np.broadcast_to(figure, outside.shape)[outside][0]
        raise OutsideRange(argument, said, f"{first:.6g}")
    return figure


def hold_above_zero(**figures: ArrayLike) -> tuple[NDArray[np.float64], ...]:
    """Return the figures as floats of shapes that go together; raise OutsideRange where one is not above zero."""
    alike(**figures)
    return tuple(hold(argument, figure, "must be above zero.", above=0) for argument, figure in figures.items())


def alike(**figures: ArrayLike) -> tuple[int, ...]:
    """Return the common shape; raise OutsideRange naming the first argument whose shape does not go with the others."""
    shape: tuple[int, ...] = ()
    for argument, figure in figures.items():
        own = np.shape(figure)
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
