"""Shaft alloys as published."""

from dataclasses import dataclass

from yardapp.formulas.imperial import INCH_M, POUND_KG, PSI_PA
from yardapp.formulas.tables import figure, table


@dataclass(frozen=True, kw_only=True)
class ShaftMaterial:
    """A shaft alloy in one condition, SI; NaN where not known. `status` speaks for the torsional yield."""

    alloy: str
    uns: str
    condition: str
    torsional_yield_pa: float
    modulus_pa: float
    density_kgpm3: float
    source: str
    status: str


def shaft_materials() -> tuple[ShaftMaterial, ...]:
    """Shaft alloys with their yield in torsion, modulus and density.

    Returns
    -------
    materials : tuple of ShaftMaterial
        Pa and kg/m3; NaN where not known.

    Raises
    ------
    FileNotFoundError
        The table is not installed.

    Source
    ------
    `tables/shaft_materials.csv`, with a source and a status for each row.

    Examples
    --------
    >>> shaft_materials()[0].uns
    'C46400'
    """
    return tuple(
        ShaftMaterial(
            alloy=row["alloy"],
            uns=row["uns"],
            condition=row["condition"],
            torsional_yield_pa=figure(row, "torsional_yield_psi") * PSI_PA,
            modulus_pa=figure(row, "modulus_psi") * PSI_PA,
            density_kgpm3=figure(row, "density_lb_in3") * POUND_KG / INCH_M**3,
            source=row["source"],
            status=row["status"],
        )
        for row in table("shaft_materials")
    )
