"""A survey in the words of a page: its means, classes, map and shop list. A look and a kept sheet read alike."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from yardapp import quantities
from yardapp.bench.showing.outcomes import Shown, shown
from yardapp.bench.sums import Known, Outcome
from yardapp.bench.survey.words import QUANTITIES, class_note, error_note, fault_said
from yardapp.drawings.pitch_map import PitchCell, pitch_map
from yardapp.quantities import System

Kept = Mapping[str, Any]
INCH_M = 0.0254
ROOM = "_" * 16  # to write on
NONE_TOLD, BEYOND = "none", "beyond III"
UP = {True: "up", False: "down"}


@dataclass(frozen=True, kw_only=True)
class Grid:
    """A table: its heads, its rows, which columns hold figures."""

    heads: Sequence[str]
    rows: Sequence[Sequence[str]]

    @property
    def numbers(self) -> range:
        """All columns but the first."""
        return range(1, len(self.heads))


@dataclass(frozen=True, kw_only=True)
class SurveyShown:
    """One survey as a page shows it."""

    off: str
    errors: str
    warnings: list[str]
    blades: Grid
    sections: Grid
    local: Grid
    classes: Grid
    overall: str
    scope: str
    map: Markup
    shop: list[tuple[str, str, str]]
    shop_said: str


@dataclass(frozen=True, kw_only=True)
class SurveyPage:
    """A survey as a page shows it, with what every sheet says: its sums, and what others said of the same figure."""

    sheet: Shown
    said: SurveyShown


def of_survey(outcome: Outcome, system: System) -> SurveyPage:
    """Everything that a survey's outcome says."""
    sheet = shown("survey", outcome, {}, Known(), system)
    return SurveyPage(sheet=sheet, said=survey_shown(outcome.more["survey"], system))


def survey_shown(said: Kept, system: System) -> SurveyShown:
    """Everything that a survey says, from what a sheet keeps of it."""
    return SurveyShown(
        off=_off(said["propeller"], said["design_m"], system),
        errors=error_note(said, system),
        warnings=[fault_said(fault, system) for fault in said["faults"]],
        blades=_blades(said, system),
        sections=_sections(said, system),
        local=_local(said, system),
        classes=_classes(said, system),
        overall=_overall(said),
        scope=said["scope"],
        map=_map(said, system),
        shop=[_move(move, system) for move in (said["shop"] or {}).get("moves", ())],
        shop_said=_shop_said(said["shop"], system),
    )


def _figure(figure: Sequence[float | None] | None, system: System) -> str:
    """A pitch with its ±; nothing where it was not read."""
    return "" if figure is None else quantities.show(figure[0], "length", system, u=figure[1])


def _off(figure: Sequence[Any] | None, design_m: float | None, system: System) -> str:
    """How far a pitch is from what it should be, and which way."""
    if figure is None or not design_m:
        return ""
    off_m = figure[0] - design_m
    share = f"{abs(off_m) / design_m:.1%}"
    return f"{quantities.show(abs(off_m), 'length', system)} ({share}) {'more' if off_m > 0 else 'less'}"


def _blades(said: Kept, system: System) -> Grid:
    rows = [
        (f"{number}", _figure(figure, system), _off(figure, said["design_m"], system))
        for number, figure in enumerate(said["blade"], 1)
    ]
    whole = ("All", _figure(said["propeller"], system), _off(said["propeller"], said["design_m"], system))
    design = quantities.show(said["design_m"], "length", system) if said["design_m"] else "not known"
    return Grid(heads=("Blade", "Mean pitch", f"Off {design}"), rows=[*rows, whole])


def _sections(said: Kept, system: System) -> Grid:
    """Radius by radius, a column a blade."""
    heads = ("Radius", *(f"Blade {number}" for number in range(1, said["blades"] + 1)))
    rows = [
        (f"{radius:g} R", *(_figure(blade[ring], system) for blade in said["section"]))
        for ring, radius in enumerate(said["radii"])
    ]
    return Grid(heads=heads, rows=rows)


def _local(said: Kept, system: System) -> Grid:
    """Blade by blade and radius by radius, a column a step."""
    steps = [f"{number} to {number + 1}" for number in range(1, said["stations"])]
    rows = [
        (f"{blade}, {radius:g} R", *(_figure(step, system) for step in section))
        for blade, sections in enumerate(said["local"], 1)
        for radius, section in zip(said["radii"], sections, strict=True)
    ]
    return Grid(heads=("Blade, radius", *steps), rows=rows)


def _classes(said: Kept, system: System) -> Grid:
    rows = [
        (QUANTITIES[row["quantity"]], _class_said(row["iso_class"]), class_note(row, system)) for row in said["classes"]
    ]
    return Grid(heads=("ISO 484", "Class", "Why"), rows=rows)


def _class_said(iso_class: str) -> str:
    return {"": NONE_TOLD, "none": BEYOND}.get(iso_class, iso_class)


def _overall(said: Kept) -> str:
    """The whole propeller in a sentence, in pitch alone."""
    if not said["classes"]:
        return ""
    if not said["overall"]:
        return "No class as a whole: the readings can't tell one of them."
    if said["overall"] == "none":
        return "Beyond class III as a whole: it takes the worst of them."
    return f"Class {said['overall']} in pitch as a whole: it takes the worst of them."


def _map(said: Kept, system: System) -> Markup:
    shop = said["shop"] or {"moves": (), "wanted_m": None}
    moved = {(move["blade"], move["radius_ratio"]): move["leading_m"] < 0 for move in shop["moves"]}
    cells = [
        [_cell(figure, moved.get((blade, radius)), system) for figure, radius in zip(row, said["radii"], strict=True)]
        for blade, row in enumerate(said["section"], 1)
    ]
    asked = quantities.show(shop["wanted_m"], "length", system) if shop["wanted_m"] else ""
    return pitch_map(
        cells,
        [f"{radius:g} R" for radius in said["radii"]],
        mean_label=_short(said["propeller"][0], system),
        asked_label=f"{asked}, class {shop['class']}" if asked else "",
    )


def _cell(figure: Sequence[Any] | None, is_high: bool | None, system: System) -> PitchCell | None:
    if figure is None:
        return None
    side = "" if is_high is None else ("high" if is_high else "low")
    return PitchCell(label=_short(figure[0], system), side=side)


def _short(pitch_m: float, system: System) -> str:
    """Millimetres or hundredths of an inch, without a unit."""
    return f"{pitch_m / INCH_M:.2f}" if system == "in" else f"{1000 * pitch_m:.0f}"


def _move(move: Kept, system: System) -> tuple[str, str, str]:
    """One line for the shop: where, what to do at which edge, and how sure that is."""
    half, whole = (quantities.show(times * abs(move["leading_m"]), "length", system) for times in (1, 2))
    leading = UP[move["leading_m"] > 0]
    trailing = UP[move["trailing_m"] > 0]
    doubt = " Less than the readings can tell." if move["is_within_readings"] else ""
    return (
        f"Blade {move['blade']}, {move['radius_ratio']:g} R",
        f"Leading edge {half} {leading}, trailing edge {half} {trailing}",
        f"or {whole} {leading} at the leading edge alone.{doubt}",
    )


def _shop_said(shop: Kept | None, system: System) -> str:
    """What the list is for, or that there is nothing to do."""
    if shop is None:
        return ""
    wanted = quantities.show(shop["wanted_m"], "length", system)
    aim = f"its own mean, {wanted}, so that the blades are alike" if shop["is_own_mean"] else wanted
    if not shop["moves"]:
        return f"Nothing to move: sections, blades and propeller are within class {shop['class']} of {aim}."
    return (
        f"To bring it to {aim} and class {shop['class']}. Face down on the table: up is off the table, forward; "
        "at the outermost stations of each radius."
    )


def letter_rows(tag: str, known: Known, said: Kept, system: System) -> list[tuple[str, str]]:
    """The block of the letter to the shop: which propeller it is, and what it has instead of what it should have."""
    sizes = (("Diameter", said["diameter_m"] or known.diameter_m), ("Pitch it should have", said["design_m"]))
    return [
        ("Tag", tag),
        *((label, quantities.both(value, "length", system) if value else ROOM) for label, value in sizes),
        ("Mean pitch, measured", _figure(said["propeller"], system)),
        ("Blades", str(said["blades"])),
        ("Hand", known.hand or said["hand"] or ROOM),
        ("Sent", ROOM),
        ("Promised", ROOM),
        ("Returned", ROOM),
    ]
