"""A coating system as people read it: products, steps, and what differs between two versions."""

from collections.abc import Iterator, Sequence
from difflib import SequenceMatcher
from typing import Any

from yardapp.coating.exchange import to_json
from yardapp.coating.system import Film, Limits, Product, Source, Step, System, TimeAt, Window
from yardapp.formulas.film import spreading_rate, wet_film
from yardapp.quantities import show

SILENT = "the sheet is silent"


def duration(seconds: float | None) -> str:
    """25 min, 1 h 10 min."""
    return show(seconds, "duration")


def product_rows(system: System) -> list[tuple[str, str, str, str]]:
    """Name, mix, standing, pot life of each product."""
    return [(one.name, mix_of(one), _standing(one), times_of(one.pot_life)) for one in system.products]


def mix_of(product: Product) -> str:
    """Primer base 4 : Primer hardener 1 by volume."""
    if not product.is_mixed:
        return "one part"
    return f"{' : '.join(f'{part.name} {part.share:g}' for part in product.parts)} by {product.ratio_by}"


def _standing(product: Product) -> str:
    stir = f"stir {duration(product.stirring_s)}" if product.stirring_s else ""
    stand = f"let stand {duration(product.induction_s)}" if product.induction_s else ""
    return ", ".join(part for part in (stir, stand) if part)


def times_of(rows: Sequence[TimeAt]) -> str:
    """A table of times in a line: 10 °C 4 h; 20 °C 2 h."""
    return "; ".join(f"{row.temperature_c:g} °C {duration(row.time_s)}" for row in rows)


def step_rows(system: System) -> list[tuple[str, str, str, str]]:
    """Place and name, product and film, window to the next, limits of each step."""
    return [
        (f"{place}. {step.name}", _put_on(step), _then(step), limits_of(step.limits))
        for place, step in enumerate(system.steps, 1)
    ]


def film_rows(system: System) -> list[tuple[str, str, str, str, str]]:
    """Of each coat: dry and wet as the sheet gives them; wet by the sum of dry film and solids; what a litre covers."""
    coats = [system.steps[number] for number in system.coats]
    return [row for step in coats if (row := _film_row(step, system.product(step.product))) is not None]


def _film_row(step: Step, product: Product | None) -> tuple[str, str, str, str, str] | None:
    film, solids = step.film, product.solids_ratio if product else None
    if film.dry_m is None or solids is None:
        return None
    wet_um = 1e6 * float(wet_film(film.dry_m, solids))
    litre_m2 = float(spreading_rate(film.dry_m, solids)) / 1000
    given = f"{film.wet_m * 1e6:g} µm" if film.wet_m else SILENT
    return (step.name, f"{film.dry_m * 1e6:g} µm", given, f"{wet_um:.0f} µm", f"{litre_m2:.3g} m²")


def _put_on(step: Step) -> str:
    return ", ".join(part for part in (step.product, film_of(step.film)) if part)


def film_of(film: Film) -> str:
    """What the sheet gives of thickness and coverage."""
    parts = (
        f"{film.wet_m * 1e6:g} µm wet" if film.wet_m else "",
        f"{film.dry_m * 1e6:g} µm dry" if film.dry_m else "",
        f"{film.coverage_m2pm3 / 1000:g} m² a litre" if film.coverage_m2pm3 else "",
        f"{film.use_m3pm2 * 1e6:g} ml a m²" if film.use_m3pm2 else "",
    )
    return ", ".join(part for part in parts if part)


def _then(step: Step) -> str:
    if step.cure:
        return f"into the water after: {times_of(step.cure)}"
    return window_of(step.window)


def window_of(window: Window | None) -> str:
    """A window in a line: 20 °C 25 min to 1 h 10 min, and by touch."""
    if window is None:
        return ""
    rows = [f"{row.temperature_c:g} °C {_from_to(row.earliest_s, row.latest_s)}" for row in window.rows]
    return "; ".join([*rows, *(["by touch"] if window.by_touch else [])])


def _from_to(earliest_s: float, latest_s: float | None) -> str:
    if latest_s is None:
        return f"after {duration(earliest_s)}" if earliest_s else "at any time"
    return f"{duration(earliest_s)} to {duration(latest_s)}" if earliest_s else f"within {duration(latest_s)}"


def limits_of(limits: Limits | None) -> str:
    """The weather that a step wants."""
    if limits is None:
        return ""
    metal = _span(limits.metal_low_c, limits.metal_high_c, "metal", " °C", 1)
    air = _span(limits.air_low_c, limits.air_high_c, "air", " °C", 1)
    humid = _span(limits.relative_humidity_least, limits.relative_humidity_most, "humidity", " %", 100)
    return ", ".join(part for part in (metal, air, humid, f"{limits.margin_c:g} degrees above the dew point") if part)


def _span(low: float | None, high: float | None, what: str, unit: str, times: float) -> str:
    if low is not None and high is not None:
        return f"{what} {low * times:g} to {high * times:g}{unit}"
    if low is not None:
        return f"{what} from {low * times:g}{unit}"
    return f"{what} up to {high * times:g}{unit}" if high is not None else ""


def source_of(source: Source) -> str:
    """Where a thing is known from."""
    return ", ".join(part for part in (source.said_by, source.said_on, source.document, source.words) if part)


def hazards_of(system: System) -> list[str]:
    """Every hazard that the sheet names, once."""
    lists = [*(one.hazards for one in system.products), *(one.hazards for one in system.steps)]
    named = [hazard for hazards in lists for hazard in hazards]
    return list(dict.fromkeys(named))


def differences(before: System, after: System) -> list[tuple[str, str, str]]:
    """Where, before, after: of each line that is not the same in two versions."""
    old, new = to_json(before), to_json(after)
    for only_a_number in (old, new):
        only_a_number.pop("version", None)
    lists = [row for name in ("products", "steps") for row in _of_list(name, old.pop(name, []), new.pop(name, []))]
    return [*_of_one("", old, new), *lists]


def _of_list(name: str, old: list[Any], new: list[Any]) -> Iterator[tuple[str, str, str]]:
    """Rows are held against those of the same name; what stands on one side alone is new, or gone."""
    keys = [[_called(one) for one in rows] for rows in (old, new)]
    what = name.removesuffix("s").capitalize()
    for tag, a, b, c, d in SequenceMatcher(None, keys[0], keys[1], autojunk=False).get_opcodes():
        paired = min(b - a, d - c) if tag in ("equal", "replace") else 0
        for step in range(paired):
            yield from _of_one(f"{what} {c + step + 1}, {keys[1][c + step]}", old[a + step], new[c + step])
        yield from ((f"{what} {at + 1}, {keys[0][at]}", "there", "gone") for at in range(a + paired, b))
        yield from ((f"{what} {at + 1}, {keys[1][at]}", "", "new") for at in range(c + paired, d))


def _called(one: dict[str, Any]) -> str:
    return str(one.get("title") or one.get("name") or f"{one.get('kind', '')} {one.get('product', '')}".strip())


def _of_one(where: str, old: dict[str, Any], new: dict[str, Any]) -> Iterator[tuple[str, str, str]]:
    for name in dict.fromkeys([*old, *new]):
        if old.get(name) != new.get(name):
            yield f"{where}: {words_of(name)}".removeprefix(": "), _said(old.get(name)), _said(new.get(name))


def words_of(name: str) -> str:
    """`pot_life` → pot life; the unit's ending goes, for the value says it."""
    return name.rpartition("_")[0].replace("_", " ") if name.endswith(("_s", "_c", "_m3")) else name.replace("_", " ")


def _said(value: Any, name: str = "") -> str:
    if value is None:
        return ""
    if isinstance(value, dict):
        return "; ".join(f"{words_of(key)} {_said(one, key)}" for key, one in value.items())
    if isinstance(value, list):
        return "; ".join(_said(one) for one in value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return _figure(value, name) if isinstance(value, int | float) else str(value)


def _figure(value: float, name: str) -> str:
    if name.endswith("_s"):
        return duration(value) if value else "0"
    if name.endswith("_c"):
        return f"{value:g} °C"
    if name in ("wet_m", "dry_m"):
        return f"{value * 1e6:g} µm"
    return f"{value * 1000:g} l" if name.endswith("_m3") else f"{value:g}"
