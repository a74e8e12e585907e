"""Resistance of a displacement ship: Holtrop & Mennen's regression of 1982."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.hull_holtrop_steps import HoltropResistance
from yardapp.formulas.hull_range import hold_proportion
from yardapp.formulas.ranges import alike, hold

Array = NDArray[np.float64]

POSITIVE = ("speed_mps", "length_m", "beam_m", "draught_fore_m", "draught_aft_m", "volume_m3", "density_kgpm3")
NOT_NEGATIVE = ("bulb_m2", "bulb_height_m", "transom_m2", "appendage_m2")
BETWEEN = {
    "lcb_ratio": (-0.05, 0.05),
    "midship_ratio": (0.5, 1.0),
    "waterplane_ratio": (0.5, 0.95),
    "appendage_factor": (1.0, 5.0),
    "stern_number": (-25.0, 10.0),
}


def holtrop_resistance(
    speed_mps: ArrayLike,
    length_m: ArrayLike,
    beam_m: ArrayLike,
    draught_fore_m: ArrayLike,
    draught_aft_m: ArrayLike,
    volume_m3: ArrayLike,
    lcb_ratio: ArrayLike,
    midship_ratio: ArrayLike,
    waterplane_ratio: ArrayLike,
    bulb_m2: ArrayLike = 0.0,
    bulb_height_m: ArrayLike = 0.0,
    transom_m2: ArrayLike = 0.0,
    appendage_m2: ArrayLike = 0.0,
    appendage_factor: ArrayLike = 1.5,
    stern_number: ArrayLike = 0.0,
    density_kgpm3: ArrayLike = 1025.0,
) -> HoltropResistance:
    """Resistance: R = RF (1+k1) + RAPP + RW + RB + RTR + RA.

    Parameters
    ----------
    speed_mps : array_like, shape S
        Speed through the water, m/s.
    length_m : array_like, shape S
        Length of the waterline, m.
    beam_m : array_like, shape S
        Moulded beam, m.
    draught_fore_m : array_like, shape S
        Moulded draught at the fore end, m.
    draught_aft_m : array_like, shape S
        Moulded draught at the after end, m.
    volume_m3 : array_like, shape S
        Displaced volume, m3.
    lcb_ratio : array_like, shape S
        Centre of buoyancy forward of half the length, over the length, 1.
    midship_ratio : array_like, shape S
        CM, 1.
    waterplane_ratio : array_like, shape S
        CWP, 1.
    bulb_m2 : array_like, shape S
        Transverse area of the bulb, m2.
    bulb_height_m : array_like, shape S
        Centre of that area above the keel, m.
    transom_m2 : array_like, shape S
        Immersed transom at rest, m2.
    appendage_m2 : array_like, shape S
        Wetted surface of the appendages, m2.
    appendage_factor : array_like, shape S
        1+k2 of the appendages, 1.
    stern_number : array_like, shape S
        Cstern: -10 V-shaped, 0 normal, +10 U-shaped sections aft.
    density_kgpm3 : array_like, shape S
        Of the water, kg/m3.

    Returns
    -------
    resistance : HoltropResistance
        total_n and its parts, and every step of the paper, each of shape S; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        A figure is impossible, or the ship lies outside the regression.

    Validity
    --------
    Froude number to 0.45, CP 0.55-0.85, L/B 3.9-9.5, B/T 2.1-4.0 (the last three from memory). A regression of ships
    above some 20 m: for a yard's boats a cross-check. RA is on hull and appendages together, as the example has it.

    Source
    ------
    J. Holtrop & G. G. J. Mennen, An approximate power prediction method, Int. Shipb. Progress 29(335), 1982, 166-170.

    Examples
    --------
    >>> ship = dict(length_m=205, beam_m=32, draught_fore_m=10, draught_aft_m=10, volume_m3=37500, lcb_ratio=-0.0075)
    >>> ship |= dict(midship_ratio=0.98, waterplane_ratio=0.75, bulb_m2=20, bulb_height_m=4, transom_m2=16)
    >>> found = holtrop_resistance(12.8611, **ship, appendage_m2=50, stern_number=10)
    >>> print(f"{found.total_n / 1000:.0f} kN")
    1793 kN
    """
    said = locals().copy()
    alike(**said)
    ship = HoltropResistance(**{argument: _hold(argument, figure) for argument, figure in said.items()})
    _hold_proportions(ship)
    return ship


def _hold(argument: str, figure: ArrayLike) -> Array:
    if argument in POSITIVE:
        return hold(argument, figure, "must be above zero.", above=0)
    if argument in NOT_NEGATIVE:
        return hold(argument, figure, "must be zero or more.", at_least=0)
    low, high = BETWEEN[argument]
    return hold(argument, figure, f"must lie from {low:g} to {high:g}.", at_least=low, at_most=high)


def _hold_proportions(ship: HoltropResistance) -> None:
    """Refuse a ship whose like is not in the regression."""
    said = "must be less than two thirds of the draught at the fore end."
    hold("bulb_height_m", ship.bulb_height_m, said, below=ship.draught_fore_m / 1.5)
    under = 16 * (ship.draught_fore_m - ship.bulb_height_m) ** 2
    hold("bulb_m2", ship.bulb_m2, "must be small enough to lie under water.", below=under)
    section = ship.beam_m * ship.draught_m * ship.midship_ratio
    hold("transom_m2", ship.transom_m2, "must be less than the midship section.", below=section)
    for argument, what, proportion, low, high in (
        ("speed_mps", "the Froude number", ship.froude_number, 0.0, 0.45),
        ("volume_m3", "the prismatic coefficient", ship.prismatic_ratio, 0.55, 0.85),
        ("beam_m", "length over beam", ship.length_m / ship.beam_m, 3.9, 9.5),
        ("draught_fore_m", "beam over mean draught", ship.beam_m / ship.draught_m, 2.1, 4.0),
    ):
        hold_proportion(argument, getattr(ship, argument), f"{what}, for Holtrop & Mennen,", proportion, low, high)
