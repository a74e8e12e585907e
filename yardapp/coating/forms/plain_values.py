"""Between a system and the boxes in which it is typed: blank rows dropped, rates in the units of the boxes."""

from collections.abc import Mapping, Sequence
from typing import Any

from yardapp.coating.system import (
    Film,
    Limits,
    Part,
    Product,
    Remedies,
    Source,
    Step,
    System,
    TimeAt,
    Window,
    WindowAt,
)

# What one of a box's unit is in SI: films in µm, coverage in m² a litre, use in ml a m².
OF_FILM = {"wet_m": 1e-6, "dry_m": 1e-6, "coverage_m2pm3": 1000.0, "use_m3pm2": 1e-6}
Values = Mapping[str, Any]
Kept = dict[str, dict[int, int]]  # of each list: number in the system → number of its row on the page


def of_sheet(system: System) -> dict[str, Any]:
    """The values that stand in the boxes."""
    return {
        "name": system.name,
        "foul_release": system.foul_release,
        "life_s": system.life_s,
        "notes": system.notes,
        "not_on": "\n".join(system.not_on),
        "products": [_product(one) for one in system.products],
        "steps": [_step(one, place) for place, one in enumerate(system.steps, 1)],
        "remedies": vars(system.remedies),
        "source": vars(system.source),
    }


def _product(one: Product) -> dict[str, Any]:
    return {
        **vars(one),
        "hazards": "\n".join(one.hazards),
        "parts": [vars(part) for part in one.parts],
        "pot_life": [vars(row) for row in one.pot_life],
        "source": vars(one.source),
    }


def _step(one: Step, place: int) -> dict[str, Any]:
    return {
        **vars(one),
        "place": place,
        "by_touch": bool(one.window and one.window.by_touch),
        "window": [vars(row) for row in one.window.rows] if one.window else [],
        "film": {name: _times(getattr(one.film, name), 1 / unit) for name, unit in OF_FILM.items()},
        "limits": vars(one.limits) if one.limits else {},
        "cure": [vars(row) for row in one.cure],
        "not_on": "\n".join(one.not_on),
        "hazards": "\n".join(one.hazards),
        "remedies": vars(one.remedies),
        "source": vars(one.source),
    }


def _times(value: float | None, by: float) -> float | None:
    """Rounded to what a sheet can mean: 60.000000000000002 µm is 60."""
    return None if value is None else float(f"{value * by:.9g}")


def to_sheet(said: Values, version: int) -> tuple[System, Kept]:
    """The system that the boxes say, and where each of its rows stands on the page."""
    kept: Kept = {}
    products = _rows(said["products"], "products", kept, lambda one: bool(one["name"]))
    steps = _rows(said["steps"], "steps", kept, lambda one: bool(one["kind"]))
    steps.sort(key=lambda row: (row[1]["place"] is None, row[1]["place"]))
    kept["steps"] = {number: index for number, (index, _one) in enumerate(steps)}
    system = System(
        name=" ".join((said["name"] or "").split()),
        version=version,
        products=tuple(_as_product(one, f"products-{index}", kept) for index, one in products),
        steps=tuple(_as_step(one, f"steps-{index}", kept) for index, one in steps),
        foul_release=bool(said["foul_release"]),
        not_on=_lines(said["not_on"]),
        remedies=Remedies(**_words(said["remedies"])),
        life_s=said["life_s"],
        notes=(said["notes"] or "").strip(),
        source=Source(**_words(said["source"])),
    )
    return system, kept


def _rows(rows: Sequence[Values], name: str, kept: Kept, is_said: Any) -> list[tuple[int, Values]]:
    """The rows that say something, each with its number on the page."""
    found = [(index, row) for index, row in enumerate(rows) if is_said(row)]
    kept[name] = {number: index for number, (index, _row) in enumerate(found)}
    return found


def _figures(rows: Sequence[Values], name: str, kept: Kept) -> list[Values]:
    return [row for _index, row in _rows(rows, name, kept, lambda row: any(one is not None for one in row.values()))]


def _as_product(said: Values, at: str, kept: Kept) -> Product:
    parts = _rows(said["parts"], f"{at}-parts", kept, lambda one: bool(one["name"]))
    return Product(
        name=said["name"].strip(),
        parts=tuple(Part(**{**_known(one, ("kit_m3", "density_kgpm3")), **_part(one)}) for _index, one in parts),
        ratio_by=said["ratio_by"],
        stirring_s=said["stirring_s"] or 0.0,
        induction_s=said["induction_s"] or 0.0,
        pot_life=_times_at(said["pot_life"], f"{at}-pot_life", kept),
        solids_ratio=said["solids_ratio"],
        hazards=_lines(said["hazards"]),
        source=Source(**_words(said["source"])),
    )


def _part(said: Values) -> dict[str, Any]:
    return {"name": said["name"].strip(), "share": 1.0 if said["share"] is None else said["share"]}


def _known(said: Values, names: Sequence[str]) -> dict[str, Any]:
    return {name: said[name] for name in names}


def _as_step(said: Values, at: str, kept: Kept) -> Step:
    limits = said["limits"]
    return Step(
        kind=said["kind"],
        title=(said["title"] or "").strip(),
        product=(said["product"] or "").strip(),
        window=_window(said, at, kept),
        film=_film(said["film"]),
        limits=Limits(**_said(limits)) if _said(limits) else None,
        work_ratio=1.0 if said["work_ratio"] is None else said["work_ratio"],
        cure=_times_at(said["cure"], f"{at}-cure", kept),
        again_s=300.0 if said["again_s"] is None else said["again_s"],
        not_on=_lines(said["not_on"]),
        remedies=Remedies(**_words(said["remedies"])),
        hazards=_lines(said["hazards"]),
        source=Source(**_words(said["source"])),
    )


def _window(said: Values, at: str, kept: Kept) -> Window | None:
    rows = _figures(said["window"], f"{at}-window", kept)
    if not rows and not said["by_touch"]:
        return None
    made = (
        WindowAt(
            temperature_c=_number(row["temperature_c"]),
            earliest_s=0.0 if row["earliest_s"] is None else row["earliest_s"],
            latest_s=row["latest_s"],
        )
        for row in rows
    )
    return Window(rows=tuple(made), by_touch=bool(said["by_touch"]))


def _film(said: Values) -> Film:
    return Film(**{name: _times(said[name], unit) for name, unit in OF_FILM.items()})


def _times_at(rows: Sequence[Values], name: str, kept: Kept) -> tuple[TimeAt, ...]:
    said = _figures(rows, name, kept)
    return tuple(TimeAt(temperature_c=_number(row["temperature_c"]), time_s=_number(row["time_s"])) for row in said)


def _number(value: float | None) -> float:
    """A figure that is missing in a row is no number, and is refused as such beside its box."""
    return float("nan") if value is None else value


def _said(said: Values) -> dict[str, Any]:
    return {name: value for name, value in said.items() if value is not None}


def _words(said: Values) -> dict[str, str]:
    return {name: " ".join((text or "").split()) for name, text in said.items()}


def _lines(text: str | None) -> tuple[str, ...]:
    return tuple(" ".join(line.split()) for line in (text or "").splitlines() if line.strip())
