"""Blade areas and the ratios between them."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.ranges import hold


def projected_area_ratio(pitch_ratio: ArrayLike) -> NDArray[np.float64]:
    """Projected over developed blade area, Taylor's line: 1.067 - 0.229 P/D.

    Parameters
    ----------
    pitch_ratio : array_like, shape S
        Pitch over diameter, 1.

    Returns
    -------
    ratio : ndarray, shape S
        Shadow along the shaft over area laid flat, 1.

    Raises
    ------
    OutsideRange
        A pitch ratio lies outside 0.6 to 1.4.

    Validity
    --------
    Pitch ratio from 0.6 to 1.4.

    Source
    ------
    D. W. Taylor; as given in US Department of Defense UFC 4-159-03, Moorings, eq. 22.

    Examples
    --------
    >>> float(projected_area_ratio(1.0))
    0.838
    """
    pitch_ratio = hold(
        "pitch_ratio", pitch_ratio, "must lie from 0.6 to 1.4 for Taylor's line.", at_least=0.6, at_most=1.4
    )
    return 1.067 - 0.229 * pitch_ratio
