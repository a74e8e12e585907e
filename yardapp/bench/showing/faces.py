"""How each method shows itself: its name, what it is a sheet of, its line in a list, its picture."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from yardapp.bench.showing import alike, area, blades, pictures, shaft
from yardapp.bench.showing.pictures import Picture
from yardapp.bench.showing.words import figure
from yardapp.bench.sums import Known, Outcome
from yardapp.quantities import System

Lead = Callable[[Outcome, Mapping[str, Any], System], str]
Draw = Callable[[Outcome, Mapping[str, Any], Known, System], Picture]


Checks = Callable[[Outcome, System], list[dict[str, str]]]
Tables = Callable[[Outcome, System], list[dict[str, Any]]]
ROLLS = "Heavy and long: two carry it. Lay it on supports that can't roll, and chock it."


def nothing(outcome: Outcome, system: System) -> list[Any]:
    """No checks, or no tables."""
    return []


def no_picture(outcome: Outcome, readings: Mapping[str, Any], known: Known, system: System) -> Picture:
    """Nothing to draw."""
    return None, []


@dataclass(frozen=True, kw_only=True)
class Face:
    """One method on a page; `about` is a few words where no form has them.

    `page` is the endpoint, called with `sheet_id`, where a kept sheet has a page of its own.
    """

    name: str
    label: str
    heading: str
    lead: Lead
    caution: str
    picture: Draw = no_picture
    of: str = "propeller"
    about: str = ""
    checks: Checks = nothing
    tables: Tables = nothing
    shows_readings: bool = False  # whether what was read stands among the figures
    page: str = ""


def answer(label: str) -> Lead:
    """The sheet in one line: `Pitch 582 ± 4 mm`."""
    return lambda outcome, readings, system: f"{label} {figure(outcome.answer, outcome.value, system, outcome.u)}"


def bore(outcome: Outcome, readings: Mapping[str, Any], system: System) -> str:
    """`Bore 38.1 mm, 1:16 ± 0.2`, as far as it was read."""
    taper = [figure("taper", outcome.value, system, outcome.u)] if outcome.value is not None else []
    large = [figure("bore_large_m", readings["bore_large_m"], system)] if "bore_large_m" in readings else []
    kind = str(readings.get("bore_kind") or "")
    said = [*large, *taper, kind if kind and not taper else ""]
    return f"Bore {', '.join(part for part in said if part)}" if any(said) else "Keyway and hub"


FACES = {
    face.name: face
    for face in (
        Face(
            name="diameter",
            label="Diameter",
            heading="Diameter",
            lead=answer("Diameter"),
            caution="Blades cut: gloves on. Lay it face down on a flat table and chock it.",
            picture=pictures.of_diameter,
        ),
        Face(
            name="pitch",
            label="Pitch",
            heading="Pitch",
            lead=answer("Pitch"),
            caution="Blades cut: gloves on. Lay it face down on a flat table, chock it; both points at one radius.",
            picture=pictures.of_pitch,
            tables=blades.tables,
        ),
        Face(
            name="survey",
            label="Pitch survey",
            heading="Pitch survey",
            lead=answer("Pitch survey"),
            caution="Blades cut: gloves on. Lay it face down on a flat table and chock it; read up from the table.",
            about="Every blade, radius and station; classes, map and shop list",
            page="bench.survey_kept",
        ),
        Face(
            name="alike",
            label="Blades alike",
            heading="Blades alike",
            lead=alike.lead,
            caution="Blades cut: gloves on. Face down on a flat table, chocked: heights are read up from the table.",
            picture=alike.picture,
        ),
        Face(
            name="area",
            label="Blade area",
            heading="Blade area",
            lead=area.lead,
            caution="Blades cut: gloves on. Lay it face up on a flat table and chock it: paper goes on the face.",
            picture=area.picture,
        ),
        Face(
            name="bore",
            label="Bore",
            heading="Bore, keyway and hub",
            lead=bore,
            caution="Heavy, and its edges cut: lay it flat and chock it before reaching into the bore.",
            picture=pictures.of_bore,
            shows_readings=True,
            tables=shaft.standards,
        ),
        Face(
            name="wear",
            label="Wear",
            heading="Wear",
            of="shaft",
            lead=shaft.wear_lead,
            caution=ROLLS,
            picture=shaft.wear_picture,
        ),
        Face(
            name="run_out",
            label="Straightness",
            heading="Straightness",
            of="shaft",
            lead=shaft.bow_lead,
            caution=f"{ROLLS} Turn it by hand, fingers clear of the supports.",
            picture=shaft.bow_picture,
        ),
        Face(
            name="shaft_end",
            label="End",
            heading="End",
            of="shaft",
            lead=shaft.end_lead,
            caution=ROLLS,
            picture=shaft.end_picture,
            shows_readings=True,
            tables=shaft.standards,
        ),
        Face(
            name="bearing",
            label="Bearing",
            heading="Play in a bearing",
            of="shaft",
            lead=shaft.play_lead,
            caution="Engine stopped, key out, locked and tagged, before hands go near the shaft.",
            picture=shaft.play_picture,
            checks=shaft.play_checks,
        ),
    )
}
