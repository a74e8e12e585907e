"""What a propeller shop must move, and how far, to bring a surveyed propeller to a pitch."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.iso484 import band
from yardapp.formulas.pitch_survey import PitchMeans, mean_of_known
from yardapp.formulas.ranges import OutsideRange, alike, as_given, hold

CLOSE_M = 1e-9


@dataclass(frozen=True, kw_only=True)
class EdgeMoves:
    """How far each edge moves along the shaft, m: above zero is forward, off the table when it lies face down."""

    leading_m: NDArray[np.float64]
    trailing_m: NDArray[np.float64]


def edge_moves(pitch_m: ArrayLike, swing_rad: ArrayLike, wanted_m: ArrayLike) -> EdgeMoves:
    """What each edge of a section moves to bring it to a pitch, about its middle: (wanted - pitch) swing / 4 pi.

    The rise between the two places must change by (wanted - pitch) swing / 2 pi. Half of it at each edge leaves the
    middle of the section where it is, and so rake and track; the whole of it at one edge does as much for the pitch.

    Parameters
    ----------
    pitch_m : array_like, shape S
        Pitch of the section as it is, m.
    swing_rad : array_like, shape S
        Angle about the shaft between the two places that will be moved, the outermost stations, rad.
    wanted_m : array_like, shape S
        Pitch that it should have, m.

    Returns
    -------
    moves : EdgeMoves
        leading_m and trailing_m of shape S, equal and opposite, m; NaN where a figure is not known.

    Raises
    ------
    OutsideRange
        A pitch is not above zero; a swing is not above zero or is more than one full turn.

    Validity
    --------
    The section stays as straight as it is: local pitch inside it changes alike everywhere. Metal springs back and more
    than one heat may be needed; measure again.

    Source
    ------
    Geometry of the helix.

    Examples
    --------
    >>> moves = edge_moves(0.312, np.radians(40), 0.290)
    >>> float(1000 * moves.leading_m), float(1000 * moves.trailing_m)
    (-1.22, 1.22)
    """
    alike(pitch_m=pitch_m, swing_rad=swing_rad, wanted_m=wanted_m)
    pitch_m = hold("pitch_m", pitch_m, "must be above zero.", above=0)
    wanted_m = hold("wanted_m", wanted_m, "must be above zero.", above=0)
    said = "must be above zero and at most one full turn."
    swing_rad = hold("swing_rad", swing_rad, said, above=0, at_most=2 * np.pi)
    half_m = as_given((wanted_m - pitch_m) * swing_rad / (4 * np.pi))
    return EdgeMoves(leading_m=half_m, trailing_m=-half_m)


def sections_to_move(means: PitchMeans, wanted_m: ArrayLike, iso_class: str, part: str = "484-2") -> NDArray[np.bool_]:
    """Which sections must be brought to the wanted pitch, so that sections, blades and the whole reach a class.

    First every section outside the class's band. Then, on each blade whose mean would still be outside, the worst
    section that is left, until its mean is within; then the worst of all, until the propeller's mean is.

    Parameters
    ----------
    means : PitchMeans
        What the survey found, m.
    wanted_m : array_like, shape () or (radii,)
        Pitch that it should have, for all radii or for each, m.
    iso_class : str
        Class to be reached: S, I, II or III.
    part : str
        "484-1" or "484-2".

    Returns
    -------
    is_moved : ndarray of bool, shape (blades, radii)
        Which sections to move; each is then taken to have the wanted pitch.

    Raises
    ------
    OutsideRange
        A wanted pitch is not above zero or does not go with the radii; no such class or part.

    Validity
    --------
    Local pitch is left out: it is a blade's shape inside a section, which turning the section does not mend.

    Source
    ------
    Arithmetic over the bands of `iso484.band`; the order is common sense, no source.

    Examples
    --------
    >>> section_m = np.array([[0.500, 0.500], [0.500, 0.560]])
    >>> blade_m = section_m.mean(axis=1)
    >>> means = PitchMeans(local_m=section_m[..., None], section_m=section_m, blade_m=blade_m, propeller_m=0.515)
    >>> sections_to_move(means, 0.500, "II").tolist()
    [[False, False], [False, True]]
    """
    section_m = np.asarray(means.section_m, float)
    wanted_m = _hold_wanted(wanted_m, section_m.shape[1])
    off_m = section_m - wanted_m
    moved = np.abs(np.nan_to_num(off_m)) > _limit("mean_pitch_of_section", iso_class, wanted_m, part)
    blade_limit = _limit("mean_pitch_of_blade", iso_class, mean_of_known(wanted_m), part)
    for blade in range(len(off_m)):
        _add_worst(off_m[[blade]], moved[[blade]], float(blade_limit), moved, slice(blade, blade + 1))
    limit = _limit("mean_pitch_of_propeller", iso_class, mean_of_known(wanted_m), part)
    _add_worst(off_m, moved, float(limit), moved, slice(None))
    return as_given(moved)


def _add_worst(
    off_m: NDArray[np.float64],
    within: NDArray[np.bool_],
    limit: float,
    moved: NDArray[np.bool_],
    rows: slice,
) -> None:
    """Mark the worst section that is left until the mean of the blades' means lies within."""
    while abs(float(mean_of_known(mean_of_known(np.where(within, 0.0 * off_m, off_m))))) > limit:
        left = np.where(within | np.isnan(off_m), -1.0, np.abs(off_m))
        within[np.unravel_index(np.argmax(left), left.shape)] = True
        moved[rows] = within


def _limit(quantity: str, iso_class: str, nominal_m: ArrayLike, part: str) -> NDArray[np.float64]:
    allowed = band(quantity, iso_class, nominal_m, part)
    return as_given(np.minimum(allowed.minus_m, allowed.plus_m) + CLOSE_M)


def _hold_wanted(wanted_m: ArrayLike, radii: int) -> NDArray[np.float64]:
    wanted_m = hold("wanted_m", wanted_m, "must be above zero.", above=0)
    if wanted_m.shape not in ((), (radii,)):
        said = f"must be one pitch, or one for each of the {radii} radii."
        raise OutsideRange("wanted_m", said, f"of shape {wanted_m.shape}")
    return np.broadcast_to(wanted_m, (radii,))
