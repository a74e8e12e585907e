"""Wake, thrust deduction and relative rotative efficiency of ships: Holtrop & Mennen 1982."""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.hull_range import hold_proportion
from yardapp.formulas.ranges import alike, as_given, hold, hold_above_zero

Array = NDArray[np.float64]


class HoltropWake(NamedTuple):
    """Wake fraction and thrust deduction, and for a single screw the paper's own steps."""

    wake_ratio: Array
    deduction_ratio: Array
    c9: Array
    c11: Array
    cp1: Array


class ScrewWake(NamedTuple):
    """Wake fraction and thrust deduction."""

    wake_ratio: Array
    deduction_ratio: Array


def holtrop_wake(
    viscous_factor: ArrayLike,
    length_m: ArrayLike,
    beam_m: ArrayLike,
    draught_m: ArrayLike,
    draught_aft_m: ArrayLike,
    volume_m3: ArrayLike,
    wetted_m2: ArrayLike,
    diameter_m: ArrayLike,
    midship_ratio: ArrayLike,
    lcb_ratio: ArrayLike,
    stern_number: ArrayLike = 0.0,
) -> HoltropWake:
    """Wake and thrust deduction of a single-screw ship with a conventional stern.

    Parameters
    ----------
    viscous_factor : array_like, shape S
        CV = (1+k) CF + CA, 1.
    length_m : array_like, shape S
        Length of the waterline, m.
    beam_m : array_like, shape S
        Moulded beam, m.
    draught_m : array_like, shape S
        Mean draught, m.
    draught_aft_m : array_like, shape S
        Draught at the after end, m.
    volume_m3 : array_like, shape S
        Displaced volume, m3.
    wetted_m2 : array_like, shape S
        Wetted surface of hull and appendages together, m2.
    diameter_m : array_like, shape S
        Diameter of the propeller, m.
    midship_ratio : array_like, shape S
        CM, 1.
    lcb_ratio : array_like, shape S
        Centre of buoyancy forward of half the length, over the length, 1.
    stern_number : array_like, shape S
        Cstern: -10 V-shaped, 0 normal, +10 U-shaped sections aft.

    Returns
    -------
    wake : HoltropWake
        wake_ratio, deduction_ratio and the steps c9, c11 and cp1, each of shape S, 1; NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero, or the ship lies outside the regression.

    Validity
    --------
    CP 0.55 to 0.85 (from memory); CP1 = 1.45 CP - 0.315 - 0.0225 lcb from 0.3 to 0.95 (our bounds: at 1 it breaks).

    Source
    ------
    J. Holtrop & G. G. J. Mennen, Int. Shipb. Progress 29(335), 1982, 166-170.

    Examples
    --------
    >>> ship = dict(length_m=205, beam_m=32, draught_m=10, draught_aft_m=10, volume_m3=37500, wetted_m2=7431.45)
    >>> found = holtrop_wake(0.001963, **ship, diameter_m=8, midship_ratio=0.98, lcb_ratio=-0.0075, stern_number=10)
    >>> print(f"{found.wake_ratio:.3f} {found.deduction_ratio:.3f}")
    0.258 0.175
    """
    alike(**locals())
    cv, length, beam, draught, aft, volume, wetted, diameter, cm = hold_above_zero(
        viscous_factor=viscous_factor,
        length_m=length_m,
        beam_m=beam_m,
        draught_m=draught_m,
        draught_aft_m=draught_aft_m,
        volume_m3=volume_m3,
        wetted_m2=wetted_m2,
        diameter_m=diameter_m,
        midship_ratio=midship_ratio,
    )
    lcb = 100 * hold("lcb_ratio", lcb_ratio, "must lie from -0.05 to 0.05.", at_least=-0.05, at_most=0.05)
    stern = hold("stern_number", stern_number, "must lie from -25 to 10.", at_least=-25, at_most=10)
    cb = volume / (length * beam * draught)
    cp = cb / cm
    hold_proportion("volume_m3", volume, "the prismatic coefficient, for Holtrop & Mennen,", cp, 0.55, 0.85)
    cp1 = 1.45 * cp - 0.315 - 0.0225 * lcb
    hold_proportion("lcb_ratio", lcb / 100, "CP1, for Holtrop & Mennen,", cp1, 0.3, 0.95)
    c9, c11 = _c9(beam, wetted, length, diameter, aft), _c11(aft / diameter)
    wake = c9 * cv * length / aft * (0.0661875 + 1.21756 * c11 * cv / (1 - cp1))
    wake = wake + 0.24558 * np.sqrt(beam / (length * (1 - cp1))) - 0.09726 / (0.95 - cp) + 0.11434 / (0.95 - cb)
    wake = wake + 0.75 * stern * cv + 0.002 * stern
    deduction = 0.001979 * length / (beam * (1 - cp1)) + 1.0585 * _c10(beam / length) - 0.00524
    deduction = deduction - 0.1418 * diameter**2 / (beam * draught) + 0.0015 * stern
    return HoltropWake(wake, deduction, c9, c11, cp1)


def holtrop_open_stern_wake(viscous_factor: ArrayLike, block_ratio: ArrayLike) -> ScrewWake:
    """Single screw, open stern, slender and fast: w = 0.3 CB + 10 CV CB - 0.1, t = 0.10.

    Parameters
    ----------
    viscous_factor : array_like, shape S
        CV = (1+k) CF + CA, 1.
    block_ratio : array_like, shape S
        CB, 1.

    Returns
    -------
    wake : ScrewWake
        wake_ratio and deduction_ratio, each of shape S, 1; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        CV is not above zero, or CB lies outside 0.2 to 0.9 (our bounds; the source gives none).

    Validity
    --------
    CB 0.2 to 0.9 (our bounds). A regression of ships.

    Source
    ------
    J. Holtrop & G. G. J. Mennen 1982 (from memory, high confidence).

    Examples
    --------
    >>> float(holtrop_open_stern_wake(0.003, 0.45).wake_ratio)
    0.0485
    """
    alike(viscous_factor=viscous_factor, block_ratio=block_ratio)
    (cv,) = hold_above_zero(viscous_factor=viscous_factor)
    cb = hold("block_ratio", block_ratio, "must lie from 0.2 to 0.9.", at_least=0.2, at_most=0.9)
    wake = 0.3 * cb + 10 * cv * cb - 0.1
    return ScrewWake(wake, as_given(np.where(np.isnan(wake), np.nan, 0.10)))


def holtrop_twin_screw_wake(
    viscous_factor: ArrayLike, block_ratio: ArrayLike, beam_m: ArrayLike, draught_m: ArrayLike, diameter_m: ArrayLike
) -> ScrewWake:
    """Twin screws: w = 0.3095 CB + 10 CV CB - 0.23 D/sqrt(BT), t = 0.325 CB - 0.1885 D/sqrt(BT).

    Parameters
    ----------
    viscous_factor : array_like, shape S
        CV = (1+k) CF + CA, 1.
    block_ratio : array_like, shape S
        CB, 1.
    beam_m : array_like, shape S
        Moulded beam, m.
    draught_m : array_like, shape S
        Mean draught, m.
    diameter_m : array_like, shape S
        Diameter of the propeller, m.

    Returns
    -------
    wake : ScrewWake
        wake_ratio and deduction_ratio, each of shape S, 1; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        An argument is not above zero, or CB lies outside 0.2 to 0.9 (our bounds; the source gives none).

    Validity
    --------
    CB 0.2 to 0.9 (our bounds). A regression of ships.

    Source
    ------
    J. Holtrop & G. G. J. Mennen 1982 (from memory, high confidence; no example covers it).

    Examples
    --------
    >>> float(holtrop_twin_screw_wake(0.003, 0.45, 4.0, 1.0, 0.5).deduction_ratio)
    0.0991
    """
    cv, cb, beam, draught, diameter = hold_above_zero(
        viscous_factor=viscous_factor,
        block_ratio=block_ratio,
        beam_m=beam_m,
        draught_m=draught_m,
        diameter_m=diameter_m,
    )
    hold("block_ratio", cb, "must lie from 0.2 to 0.9.", at_least=0.2, at_most=0.9)
    size = diameter / np.sqrt(beam * draught)
    return ScrewWake(0.3095 * cb + 10 * cv * cb - 0.23 * size, 0.325 * cb - 0.1885 * size)


def holtrop_relative_rotative(area_ratio: ArrayLike, prismatic_ratio: ArrayLike, lcb_ratio: ArrayLike) -> Array:
    """Relative rotative efficiency of a single screw: 0.9922 - 0.05908 AE/A0 + 0.07424 (CP - 0.0225 lcb).

    Parameters
    ----------
    area_ratio : array_like, shape S
        AE/A0, 1.
    prismatic_ratio : array_like, shape S
        CP, 1.
    lcb_ratio : array_like, shape S
        Centre of buoyancy forward of half the length, over the length, 1.

    Returns
    -------
    efficiency : ndarray, shape S
        1; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        AE/A0 lies outside 0.30 to 1.05, CP outside 0.55 to 0.85, or lcb outside 5 % either way.

    Validity
    --------
    As `holtrop_wake`.

    Source
    ------
    J. Holtrop & G. G. J. Mennen 1982.

    Examples
    --------
    >>> float(holtrop_relative_rotative(0.7393, 0.5833, -0.0075))
    0.993
    """
    alike(**locals())
    area = hold("area_ratio", area_ratio, "must lie from 0.30 to 1.05.", at_least=0.30, at_most=1.05)
    cp = hold("prismatic_ratio", prismatic_ratio, "must lie from 0.55 to 0.85.", at_least=0.55, at_most=0.85)
    lcb = 100 * hold("lcb_ratio", lcb_ratio, "must lie from -0.05 to 0.05.", at_least=-0.05, at_most=0.05)
    return as_given(0.9922 - 0.05908 * area + 0.07424 * (cp - 0.0225 * lcb))


def _c9(beam: Array, wetted: Array, length: Array, diameter: Array, aft: Array) -> Array:
    full = beam / aft
    deep = np.maximum(full, 5)
    c8 = np.where(
        full > 5, wetted * (7 * full - 25) / (length * diameter * (deep - 3)), beam * wetted / (length * diameter * aft)
    )
    return as_given(np.where(c8 > 28, 32 - 16 / (np.maximum(c8, 28) - 24), c8))


def _c11(size: Array) -> Array:
    return as_given(np.where(size > 2, 0.0833333 * size**3 + 1.33333, size))


def _c10(slender: Array) -> Array:
    narrow = np.minimum(slender, 1 / 5.2)
    return as_given(
        np.where(slender < 1 / 5.2, narrow, 0.25 - 0.003328402 / (np.maximum(slender, 1 / 5.2) - 0.134615385))
    )
