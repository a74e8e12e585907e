"""Pitch from a template laid on the blade, and the swing that a straight gauge spans."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import alike, as_given, hold, hold_above_zero


def pitch_from_template(
    template_pitch_m: ArrayLike, radius_m: ArrayLike, gap_m: ArrayLike, width_m: ArrayLike
) -> NDArray[np.float64]:
    """Pitch from the gap at one edge of a straight template: 2 pi r tan(atan(template / 2 pi r) + atan(gap / width)).

    The template is cut to a pitch at a radius, held square to the shaft and laid on the face so that it touches at one
    edge. A gap at the leading edge says that the blade stands steeper than the template, one at the trailing edge that
    it lies flatter. The face counts as straight: a hollow or cupped one shows a gap of its own.

    Parameters
    ----------
    template_pitch_m : array_like, shape S
        Pitch that the template is cut to at this radius, m.
    radius_m : array_like, shape S
        Distance from the shaft's centre at which it is laid on, m.
    gap_m : array_like, shape S
        Gap between template and face, square to the template, m: above zero at the leading edge, below at the trailing.
    width_m : array_like, shape S
        Along the template from where it touches to where the gap was read, m.

    Returns
    -------
    pitch_m : ndarray, shape S
        Advance in one full turn, m; NaN where a reading is not known.

    Raises
    ------
    OutsideRange
        A figure but the gap is not above zero; the gap is wider than the width; the blade would lie flat or the
        wrong way round, or stand along the shaft.

    Source
    ------
    Geometry: two straight lines through one point on the unrolled cylinder; J. S. Carlton for the helix.

    Examples
    --------
    >>> float(pitch_from_template(0.400, 0.150, 0.002, 0.120))
    0.419
    """
    alike(template_pitch_m=template_pitch_m, radius_m=radius_m, gap_m=gap_m, width_m=width_m)
    template, radius, width = hold_above_zero(template_pitch_m=template_pitch_m, radius_m=radius_m, width_m=width_m)
    gap = hold("gap_m", gap_m, "must be less than the width it was read over.", above=-width, below=width)
    angle = np.arctan2(template, 2 * np.pi * radius) + np.arctan2(gap, width)
    said = "must leave the blade an angle between zero and a right one."
    hold("gap_m", angle, said, above=0, below=np.pi / 2)
    return as_given(2 * np.pi * radius * np.tan(angle))


def swing_from_chord(radius_m: ArrayLike, chord_m: ArrayLike) -> NDArray[np.float64]:
    """Angle about the shaft that a straight gauge spans between its two ends: 2 asin(chord / 2r).

    Parameters
    ----------
    radius_m : array_like, shape S
        Distance from the shaft's centre to the gauge's two ends, m.
    chord_m : array_like, shape S
        Straight distance between the two ends, seen along the shaft, m.

    Returns
    -------
    swing_rad : ndarray, shape S
        rad; NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero; a chord is longer than twice the radius.

    Source
    ------
    Geometry of the circle.

    Examples
    --------
    >>> float(np.degrees(swing_from_chord(0.1575, 0.060)))
    21.96
    """
    radius, chord = hold_above_zero(radius_m=radius_m, chord_m=chord_m)
    hold("chord_m", chord, "must be at most twice the radius.", at_most=2 * radius)
    return as_given(2 * np.arcsin(np.minimum(chord / (2 * radius), 1.0)))
