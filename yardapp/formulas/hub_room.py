"""What a hub needs beside its seat: thread for its nuts, room for a cutter, metal for a bush."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import alike, as_given, hold, hold_above_zero
from yardapp.formulas.seat import bearing_gap


def thread_left(thread_length_m: ArrayLike, overhang_m: ArrayLike, nut_length_m: ArrayLike) -> NDArray[np.float64]:
    """Thread left over once the nuts are on: thread - what the hub covers of it - nuts.

    Parameters
    ----------
    thread_length_m : array_like, shape S
        Thread behind the taper's small end, m.
    overhang_m : array_like, shape S
        How far the hub stands past the taper, m; where it stays short a spacer covers nothing of the thread.
    nut_length_m : array_like, shape S
        Nuts and lock, face to face, m.

    Returns
    -------
    left_m : ndarray, shape S
        m; below zero the nuts lack thread. NaN where not known.

    Raises
    ------
    OutsideRange
        A length is not above zero; the overhang is infinite.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> float(thread_left(0.060, 0.010, 0.040))
    0.01
    """
    alike(thread_length_m=thread_length_m, overhang_m=overhang_m, nut_length_m=nut_length_m)
    thread, nuts = hold_above_zero(thread_length_m=thread_length_m, nut_length_m=nut_length_m)
    return as_given(thread - np.maximum(hold("overhang_m", overhang_m, "must be a length."), 0) - nuts)


def cutter_gap(hub_space_m: ArrayLike, set_up_m: ArrayLike, cutter_length_m: ArrayLike) -> NDArray[np.float64]:
    """Gap left between bearing and hub beside a cutter: room ahead of the taper - set-up - cutter.

    Parameters
    ----------
    hub_space_m : array_like, shape S
        From the bearing's aft face to the taper's large end, m.
    set_up_m : array_like, shape S
        How far the hub's large end passes beyond the taper's, m; below zero where it stays short.
    cutter_length_m : array_like, shape S
        What the cutter takes of the shaft, m.

    Returns
    -------
    gap_m : ndarray, shape S
        m; below zero the cutter does not go in. NaN where not known.

    Raises
    ------
    OutsideRange
        The room or the cutter's length is below zero; a figure is infinite.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> float(cutter_gap(0.030, 0.005, 0.015))
    0.01
    """
    alike(hub_space_m=hub_space_m, set_up_m=set_up_m, cutter_length_m=cutter_length_m)
    cutter = hold("cutter_length_m", cutter_length_m, "must be zero or more.", at_least=0)
    return as_given(bearing_gap(hub_space_m, set_up_m) - cutter)


def bush_diameter(shaft_diameter_m: ArrayLike, keyway_depth_m: ArrayLike, wall_m: ArrayLike) -> NDArray[np.float64]:
    """Outside of a bush that holds the keyway and keeps a wall under it: shaft + 2 (depth + wall).

    Parameters
    ----------
    shaft_diameter_m : array_like, shape S
        Shaft at the large end of its taper, m.
    keyway_depth_m : array_like, shape S
        Depth of the keyway in the bush, m.
    wall_m : array_like, shape S
        Wall wanted under the keyway, m.

    Returns
    -------
    diameter_m : ndarray, shape S
        To which the hub is bored, m; NaN where not known.

    Raises
    ------
    OutsideRange
        A diameter is not above zero; another length is below zero.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> float(bush_diameter(0.040, 0.005, 0.003))
    0.056
    """
    alike(shaft_diameter_m=shaft_diameter_m, keyway_depth_m=keyway_depth_m, wall_m=wall_m)
    (shaft,) = hold_above_zero(shaft_diameter_m=shaft_diameter_m)
    depth = hold("keyway_depth_m", keyway_depth_m, "must be zero or more.", at_least=0)
    return as_given(shaft + 2 * (depth + hold("wall_m", wall_m, "must be zero or more.", at_least=0)))
