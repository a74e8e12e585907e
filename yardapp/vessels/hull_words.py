"""The words by which a hull, what stands behind its propeller and a shaft's metal are known."""

from yardapp.formulas.shafting import shaft_materials
from yardapp.formulas.tables import table

HULL_KINDS = {
    row["hull"]: f"{row['hull_type'][:1].upper()}{row['hull_type'][1:]}: {row['arrangement']}"
    for row in table("wake_thrust")
}
PLANING_KINDS = {row["kind"]: row["meaning"][:1].upper() + row["meaning"][1:] for row in table("crouch")}
BEHIND = {
    "streamlined": "A streamlined rudder",
    "double_plate": "A rudder of two plates",
    "single_plate": "A rudder of one plate",
    "bossings": "Beside two screws: bossings",
    "struts": "Beside two screws: struts",
}
POWER_TAKEN = {
    "shaft": "At the shaft of one propeller",
    "effective": "On a tow rope: the whole boat's",
}
SHAFT_ALLOYS = tuple(f"{one.alloy}, {one.condition}" for one in shaft_materials())
