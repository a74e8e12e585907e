"""Resistance of a sailing yacht's bare hull, upright: the Delft systematic series."""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.hull_range import hold_proportion
from yardapp.formulas.ranges import alike, hold_above_zero
from yardapp.formulas.tables import figure, table

Array = NDArray[np.float64]

GRAVITY_MPS2 = 9.81
VISCOSITY_M2PS = 1.19e-6
LEAST_FROUDE, GREATEST_FROUDE = 0.15, 0.75
TERMS = ("a0", "a1", "a2", "a3", "a4", "a5", "a6", "a7")


class DelftResistance(NamedTuple):
    """Residuary part, friction and their sum, N, and the Froude number on the waterline."""

    residuary_n: Array
    friction_n: Array
    total_n: Array
    froude_number: Array


def delft_resistance(
    speed_mps: ArrayLike,
    waterline_m: ArrayLike,
    beam_m: ArrayLike,
    draught_m: ArrayLike,
    volume_m3: ArrayLike,
    wetted_m2: ArrayLike,
    waterplane_m2: ArrayLike,
    prismatic_ratio: ArrayLike,
    midship_ratio: ArrayLike,
    lcb_m: ArrayLike,
    lcf_m: ArrayLike,
    density_kgpm3: ArrayLike = 1025.0,
) -> DelftResistance:
    """Upright resistance of the canoe body: eight-term residuary regression and ITTC-57 friction on 0.7 LWL.

    Rr/(volume rho g) = a0 + [a1 LCB/LWL + a2 CP + a3 volume^(2/3)/AW + a4 BWL/LWL] volume^(1/3)/LWL
    + [a5 LCB/LCF + a6 BWL/Tc + a7 CM] volume^(1/3)/LWL, the coefficients linear in Froude number between the table's.

    Parameters
    ----------
    speed_mps : array_like, shape S
        Speed through the water, m/s.
    waterline_m : array_like, shape S
        Length of the waterline, m.
    beam_m : array_like, shape S
        Beam of the waterline, m.
    draught_m : array_like, shape S
        Draught of the canoe body, m.
    volume_m3 : array_like, shape S
        Displaced by the canoe body, m3.
    wetted_m2 : array_like, shape S
        Wetted surface of the canoe body, m2.
    waterplane_m2 : array_like, shape S
        Area of the waterplane, m2.
    prismatic_ratio : array_like, shape S
        CP, 1.
    midship_ratio : array_like, shape S
        CM, 1.
    lcb_m : array_like, shape S
        Centre of buoyancy, aft of the waterline's fore end, m.
    lcf_m : array_like, shape S
        Centre of the waterplane, aft of the waterline's fore end, m.
    density_kgpm3 : array_like, shape S
        Of the water, kg/m3.

    Returns
    -------
    resistance : DelftResistance
        residuary_n, friction_n, total_n (N) and froude_number, each of shape S; NaN where an argument is not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero; the Froude number or the form lies outside the series.

    Validity
    --------
    Fn 0.15-0.75, LWL/BWL 2.73-5.00, BWL/Tc 2.46-19.38, LWL/volume^(1/3) 4.34-8.50, LCB 0 to 8.2 % and LCF 1.8 to
    9.5 % of LWL aft of the middle, CP 0.52-0.60, CM 0.65-0.78, AW/volume^(2/3) 3.78-12.67. Keel, rudder and heel extra.

    Source
    ------
    J. A. Keuning & M. Katgert, Innov'Sail, Lorient 2008; L. Larsson, R. Eliasson & M. Orych, Principles of Yacht
    Design, 5th ed., 2022, Fig. 5.18.

    Examples
    --------
    >>> form = dict(waterline_m=10, beam_m=2.5, draught_m=0.464, volume_m3=4.6225, wetted_m2=16.775)
    >>> form |= dict(waterplane_m2=16.818, prismatic_ratio=0.548, midship_ratio=0.727, lcb_m=5.20, lcf_m=5.556)
    >>> print(f"{delft_resistance(3.467, **form).total_n:.0f} N")
    545 N
    """
    figures = hold_above_zero(
        waterline_m=waterline_m,
        beam_m=beam_m,
        draught_m=draught_m,
        volume_m3=volume_m3,
        wetted_m2=wetted_m2,
        waterplane_m2=waterplane_m2,
        prismatic_ratio=prismatic_ratio,
        midship_ratio=midship_ratio,
        lcb_m=lcb_m,
        lcf_m=lcf_m,
    )
    alike(waterline_m=sum(figures), speed_mps=speed_mps, density_kgpm3=density_kgpm3)
    speed, density = hold_above_zero(speed_mps=speed_mps, density_kgpm3=density_kgpm3)
    form = _Form(*figures)
    _hold_envelope(form)
    froude = speed / np.sqrt(GRAVITY_MPS2 * form.waterline)
    hold_proportion(
        "speed_mps", speed, "the Froude number, for the Delft series,", froude, LEAST_FROUDE, GREATEST_FROUDE
    )
    residuary = _residuary_ratio(froude, form) * form.volume * density * GRAVITY_MPS2
    friction = 0.5 * density * speed**2 * form.wetted * _ittc_1957(speed * 0.7 * form.waterline / VISCOSITY_M2PS)
    return DelftResistance(residuary, friction, residuary + friction, froude)


class _Form(NamedTuple):
    waterline: Array
    beam: Array
    draught: Array
    volume: Array
    wetted: Array
    waterplane: Array
    prismatic: Array
    midship: Array
    lcb: Array
    lcf: Array


def _hold_envelope(form: _Form) -> None:
    """Refuse a form that none of the series' models was near."""
    side = np.cbrt(form.volume)
    for argument, given, what, proportion, low, high in (
        ("beam_m", form.beam, "length over beam", form.waterline / form.beam, 2.73, 5.00),
        ("draught_m", form.draught, "beam over draught", form.beam / form.draught, 2.46, 19.38),
        ("volume_m3", form.volume, "length over the cube root of volume", form.waterline / side, 4.34, 8.50),
        ("lcb_m", form.lcb, "the centre over length", form.lcb / form.waterline, 0.5, 0.582),
        ("lcf_m", form.lcf, "the centre over length", form.lcf / form.waterline, 0.518, 0.595),
        ("prismatic_ratio", form.prismatic, "the ratio", form.prismatic, 0.52, 0.60),
        ("midship_ratio", form.midship, "the ratio", form.midship, 0.65, 0.78),
        ("waterplane_m2", form.waterplane, "the area over volume^(2/3)", form.waterplane / side**2, 3.78, 12.67),
    ):
        hold_proportion(argument, given, f"{what}, for the Delft series,", proportion, low, high)


def _residuary_ratio(froude: Array, form: _Form) -> Array:
    """Rr over weight."""
    rows = table("delft_residuary")
    nodes = [figure(row, "Fn") for row in rows]
    a = [np.interp(froude, nodes, [figure(row, term) for row in rows]) for term in TERMS]
    side = np.cbrt(form.volume)
    slender = side / form.waterline
    fullness = a[1] * form.lcb / form.waterline + a[2] * form.prismatic + a[3] * side**2 / form.waterplane
    section = a[5] * form.lcb / form.lcf + a[6] * form.beam / form.draught + a[7] * form.midship
    ratio: Array = a[0] + (fullness + a[4] * form.beam / form.waterline + section) * slender
    return ratio


def _ittc_1957(reynolds: Array) -> Array:
    friction: Array = 0.075 / (np.log10(reynolds) - 2) ** 2
    return friction
