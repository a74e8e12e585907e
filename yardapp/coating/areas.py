"""How much there is to coat: a propeller from its own figures, and the pieces beside it."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from yardapp.errors import Refused
from yardapp.formulas.area import expanded_area
from yardapp.formulas.coated_area import bracket_area, disc_area, frustum_area, root_area
from yardapp.formulas.coating import shaft_area


@dataclass(frozen=True, kw_only=True)
class PropellerSize:
    """What is known of a propeller; None is "not known".

    Either `area_ratio` (expanded area of all blades over the disc) or widths across the blade at radii tell the blades.
    """

    diameter_m: float | None = None
    blades: int | None = None
    area_ratio: float | None = None
    radii_m: tuple[float, ...] = ()
    widths_m: tuple[float, ...] = ()
    hub_length_m: float | None = None
    hub_diameter_m: float | None = None
    hub_diameter_aft_m: float | None = None
    root_width_m: float | None = None
    root_thickness_m: float | None = None


@dataclass(frozen=True, kw_only=True)
class AreaOf:
    """Both sides of the blades and the side of the hub; None where a figure is missing, and then which."""

    area_m2: float | None
    blades_m2: float | None
    hub_m2: float | None
    rests_on: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()


def propeller_area_of(size: PropellerSize) -> AreaOf:
    """Area of a propeller to be coated: blades on both sides, hub outside, less what the roots cover if that is known.

    Raises
    ------
    OutsideRange
        A figure can't be right.
    """
    needs = tuple(_needs(size))
    blades_m2 = _blades(size)
    hub_m2 = _hub(size)
    whole = None if blades_m2 is None or hub_m2 is None else blades_m2 + hub_m2
    return AreaOf(area_m2=whole, blades_m2=blades_m2, hub_m2=hub_m2, rests_on=tuple(_rests_on(size)), needs=needs)


def shaft_area_of(length_m: float, diameter_m: float, bearings_m: float = 0.0) -> float:
    """Side of a shaft, less the length that runs in bearings.

    Raises
    ------
    Refused
        The bearings leave nothing of it.
    OutsideRange
        A figure can't be right.
    """
    if not 0 <= bearings_m < length_m:
        raise Refused("The bearings are as long as the shaft, or longer: nothing is left to coat.", "bearings_m")
    return float(shaft_area(length_m - bearings_m, diameter_m))


def cutter_area_of(diameter_m: float, bore_m: float = 0.0) -> float:
    """Line cutter, taken as a ring coated on both sides: more than its own teeth, never less.

    Raises
    ------
    OutsideRange
        A figure can't be right.
    """
    return 2 * float(disc_area(diameter_m, bore_m))


def bracket_area_of(
    barrel_length_m: float, barrel_diameter_m: float, arm_length_m: float, arm_width_m: float, arms: int = 1
) -> float:
    """Shaft bracket: barrel outside, arms on both sides.

    Raises
    ------
    OutsideRange
        A figure can't be right.
    """
    return float(bracket_area(barrel_length_m, barrel_diameter_m, arm_length_m, arm_width_m, arms))


def disc_area_of(diameter_m: float, count: int = 1) -> float:
    """Faces of small round pieces.

    Raises
    ------
    OutsideRange
        The diameter is not above zero.
    """
    return count * float(disc_area(diameter_m))


def _blades(size: PropellerSize) -> float | None:
    """Both sides; measured widths speak before the ratio."""
    if size.widths_m and size.hub_diameter_m is not None and size.blades is not None:
        one_side = expanded_area(size.radii_m, size.widths_m, size.hub_diameter_m / 2, size.blades)
        return 2 * float(one_side)
    if size.area_ratio is not None and size.diameter_m is not None:
        return 2 * size.area_ratio * math.pi / 4 * size.diameter_m**2
    return None


def _hub(size: PropellerSize) -> float | None:
    if size.hub_length_m is None or size.hub_diameter_m is None:
        return None
    aft_m = size.hub_diameter_m if size.hub_diameter_aft_m is None else size.hub_diameter_aft_m
    side_m2 = float(frustum_area(size.hub_length_m, size.hub_diameter_m, aft_m))
    if size.blades is None or size.root_width_m is None or size.root_thickness_m is None:
        return side_m2
    return max(0.0, side_m2 - float(root_area(size.blades, size.root_width_m, size.root_thickness_m)))


def _needs(size: PropellerSize) -> Iterator[str]:
    by_widths = bool(size.widths_m) and size.blades is not None
    by_ratio = size.area_ratio is not None and size.diameter_m is not None
    if not (by_widths or by_ratio):
        if size.diameter_m is None:
            yield "diameter"
        yield "blade area ratio, or widths across one blade"
    if size.hub_length_m is None:
        yield "hub length"
    if size.hub_diameter_m is None:
        yield "hub diameter"


def _rests_on(size: PropellerSize) -> Iterator[str]:
    if size.widths_m:
        yield "widths measured across a blade"
    elif size.area_ratio is not None:
        yield "blade area ratio"
    if size.hub_length_m is not None and size.hub_diameter_m is not None:
        roots = size.root_width_m is not None and size.root_thickness_m is not None and size.blades is not None
        yield "hub, less what the roots cover" if roots else "hub, with what the roots cover"
