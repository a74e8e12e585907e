"""Areas of the pieces that are coated beside the blades: hubs that taper, roots, brackets, cutters, discs."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import alike, as_given, hold, hold_above_zero, hold_whole


def frustum_area(length_m: ArrayLike, diameter_fore_m: ArrayLike, diameter_aft_m: ArrayLike) -> NDArray[np.float64]:
    """Outer side of a hub that tapers: pi (d1 + d2) / 2 x slant; its faces stay bare.

    Parameters
    ----------
    length_m : array_like, shape S
        Length along the shaft, m.
    diameter_fore_m : array_like, shape S
        Outer diameter at the forward face, m.
    diameter_aft_m : array_like, shape S
        Outer diameter at the aft face, m.

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
    Geometry: side of a cone cut off square.

    Examples
    --------
    >>> float(frustum_area(0.10, 0.08, 0.08))
    0.0251
    """
    length_m, fore_m, aft_m = hold_above_zero(
        length_m=length_m, diameter_fore_m=diameter_fore_m, diameter_aft_m=diameter_aft_m
    )
    slant_m = np.hypot(length_m, (fore_m - aft_m) / 2)
    return as_given(np.pi * (fore_m + aft_m) / 2 * slant_m)


def root_area(blades: ArrayLike, root_width_m: ArrayLike, root_thickness_m: ArrayLike) -> NDArray[np.float64]:
    """What the blades cover of the hub: blades x an ellipse as wide and thick as the root.

    Parameters
    ----------
    blades : array_like, shape S
        Number of blades, 2 to 9.
    root_width_m : array_like, shape S
        Width of a blade where it meets the hub, m.
    root_thickness_m : array_like, shape S
        Thickness of it there, fillets left out, m.

    Returns
    -------
    area_m2 : ndarray, shape S
        To be taken off the hub, m2; NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero; the blades are not a whole number from 2 to 9.

    Source
    ------
    Geometry; a blade's section covers a little less than the ellipse round it.

    Examples
    --------
    >>> float(root_area(3, 0.10, 0.02))
    0.00471
    """
    blades = hold_whole("blades", blades, "must be a whole number from 2 to 9.", at_least=2, at_most=9)
    alike(blades=blades, root_width_m=root_width_m, root_thickness_m=root_thickness_m)
    width_m, thickness_m = hold_above_zero(root_width_m=root_width_m, root_thickness_m=root_thickness_m)
    return as_given(blades * np.pi / 4 * width_m * thickness_m)


def bracket_area(
    barrel_length_m: ArrayLike,
    barrel_diameter_m: ArrayLike,
    arm_length_m: ArrayLike,
    arm_width_m: ArrayLike,
    arms_count: ArrayLike,
) -> NDArray[np.float64]:
    """Outside of a shaft bracket: its barrel, and both sides of its arms.

    Parameters
    ----------
    barrel_length_m : array_like, shape S
        Length of the barrel, m.
    barrel_diameter_m : array_like, shape S
        Outer diameter of the barrel, m.
    arm_length_m : array_like, shape S
        Length of an arm from barrel to hull, m.
    arm_width_m : array_like, shape S
        Width of an arm from its leading to its trailing edge, m.
    arms_count : array_like, shape S
        Arms: 1 (I or P bracket) to 4.

    Returns
    -------
    area_m2 : ndarray, shape S
        m2; the bearing inside and the faces at its ends stay bare, the thickness of the arms is left out.
        NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero; arms are not a whole number from 1 to 4.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> float(bracket_area(0.15, 0.08, 0.30, 0.10, 1))
    0.0977
    """
    arms_count = hold_whole("arms_count", arms_count, "must be a whole number from 1 to 4.", at_least=1, at_most=4)
    barrel_length_m, barrel_diameter_m, arm_length_m, arm_width_m, _ = hold_above_zero(
        barrel_length_m=barrel_length_m,
        barrel_diameter_m=barrel_diameter_m,
        arm_length_m=arm_length_m,
        arm_width_m=arm_width_m,
        arms_count=arms_count,
    )
    return as_given(np.pi * barrel_diameter_m * barrel_length_m + 2 * arms_count * arm_length_m * arm_width_m)


def disc_area(diameter_m: ArrayLike, bore_m: ArrayLike = 0.0) -> NDArray[np.float64]:
    """One side of a disc or ring: pi (D2 - d2) / 4.

    Parameters
    ----------
    diameter_m : array_like, shape S
        Outer diameter, m.
    bore_m : array_like, shape S
        Diameter of the hole in it, zero for none, m.

    Returns
    -------
    area_m2 : ndarray, shape S
        m2; NaN where not known.

    Raises
    ------
    OutsideRange
        The diameter is not above zero; the hole is below zero or not smaller than the disc.

    Source
    ------
    Geometry.

    Examples
    --------
    >>> float(disc_area(0.2, 0.1))
    0.02356
    """
    alike(diameter_m=diameter_m, bore_m=bore_m)
    (diameter_m,) = hold_above_zero(diameter_m=diameter_m)
    bore_m = hold("bore_m", bore_m, "must be zero or more, and less than the disc's diameter.", at_least=0)
    hold("bore_m", bore_m, "must be zero or more, and less than the disc's diameter.", below=diameter_m)
    return as_given(np.pi / 4 * (diameter_m**2 - bore_m**2))
