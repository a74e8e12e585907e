"""Propeller alloys as published, and a rough mass."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from yardapp.formulas.imperial import INCH_M, POUND_KG
from yardapp.formulas.ranges import alike, as_given, hold, hold_whole
from yardapp.formulas.tables import figure, table

BRONZE_KGPM3 = 8300.0


@dataclass(frozen=True, kw_only=True)
class PropellerMaterial:
    """A propeller alloy, SI; NaN where not known."""

    alloy: str
    designation: str
    proof_pa: float
    tensile_pa: float
    density_kgpm3: float
    modulus_pa: float
    source: str
    status: str


def propeller_materials() -> tuple[PropellerMaterial, ...]:
    """Propeller alloys with strength, density and modulus.

    Returns
    -------
    materials : tuple of PropellerMaterial
        Pa and kg/m3; NaN where not known.

    Raises
    ------
    FileNotFoundError
        The table is not installed.

    Source
    ------
    `tables/propeller_materials.csv`, with a source and a status for each row.

    Examples
    --------
    >>> propeller_materials()[4].designation
    'UNS C86500 continuous cast'
    """
    return tuple(
        PropellerMaterial(
            alloy=row["alloy"],
            designation=row["designation"],
            proof_pa=figure(row, "proof_MPa") * 1e6,
            tensile_pa=figure(row, "tensile_MPa") * 1e6,
            density_kgpm3=figure(row, "density_g_cm3") * 1e3,
            modulus_pa=figure(row, "modulus_GPa") * 1e9,
            source=row["source"].strip(),
            status=row["status"],
        )
        for row in table("propeller_materials")
    )


def propeller_mass(
    diameter_m: ArrayLike, blades: ArrayLike, density_kgpm3: ArrayLike = BRONZE_KGPM3
) -> NDArray[np.float64]:
    """Rough mass of a propeller: 0.00241 D^3.05 lb with three blades, 0.00323 with four, D in inches; by density.

    Only to catch a scale misread: half to double of it is plausible.

    Parameters
    ----------
    diameter_m : array_like, shape S
        Diameter of the propeller, m.
    blades : array_like, shape S
        Number of blades, 3 or 4.
    density_kgpm3 : array_like, shape S
        Density of the alloy, kg/m3; bronze where nothing is said.

    Returns
    -------
    mass_kg : ndarray, shape S
        kg; NaN where not known.

    Raises
    ------
    OutsideRange
        A figure is not above zero; the blades are not 3 or 4.

    Validity
    --------
    Mean width ratio about 0.33.

    Source
    ------
    D. Gerr, Propeller Handbook (from memory, medium); another alloy by density (derived).

    Examples
    --------
    >>> float(propeller_mass(24 * 0.0254, 3)) / 0.45359237
    39.
    """
    alike(diameter_m=diameter_m, blades=blades, density_kgpm3=density_kgpm3)
    diameter_m = hold("diameter_m", diameter_m, "must be above zero.", above=0)
    density_kgpm3 = hold("density_kgpm3", density_kgpm3, "must be above zero.", above=0)
    blades = hold_whole("blades", blades, "must be 3 or 4.", at_least=3, at_most=4)
    lead = np.select([blades == 3, blades == 4], [0.00241, 0.00323], np.nan)
    return as_given(lead * (diameter_m / INCH_M) ** 3.05 * POUND_KG * density_kgpm3 / BRONZE_KGPM3)
