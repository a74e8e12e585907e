"""A system that can't be right is refused, in words, each beside the place that must change."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields

from yardapp.coating.system import (
    RATIO_BY,
    STEP_KINDS,
    Film,
    Limits,
    Part,
    Product,
    Step,
    System,
    TimeAt,
    Window,
    WindowAt,
)

COLDEST_C, WARMEST_C = -45.0, 60.0
CAN_T = "a figure that no sheet can give: it must be a number, and finite."


@dataclass(frozen=True, kw_only=True)
class Problem:
    """What can't be right, and where: `steps[3].window.rows[0].latest_s`."""

    said: str
    path: str


class SystemRefused(ValueError):
    """Everything that can't be right about a system."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__(" ".join(problem.said for problem in problems))
        self.problems = problems


def must_be_right(system: System) -> None:
    """Raise SystemRefused with every problem, if there is one."""
    if problems := check(system):
        raise SystemRefused(problems)


def check(system: System) -> tuple[Problem, ...]:
    """Everything that can't be right, in the order of the sheet; () when it may stand."""
    return tuple(Problem(said=said, path=path) for path, said in _all(system))


Found = Iterator[tuple[str, str]]


def _all(system: System) -> Found:
    if not system.name.strip():
        yield "name", "Give the system a name."
    if system.version < 1:
        yield "version", "Versions count from 1."
    if system.life_s is not None:
        yield from _above_zero("life_s", system.life_s, "The life that the sheet gives")
    for number, product in enumerate(system.products):
        yield from _product(f"products[{number}]", product)
    names = [product.name for product in system.products]
    for name in sorted({name for name in names if names.count(name) > 1}):
        yield "products", f"Two products are called {name}."
    for number, step in enumerate(system.steps):
        yield from _step(f"steps[{number}]", step, system, number)
    yield from _order(system)


def _order(system: System) -> Found:
    if not system.coats:
        yield "steps", "A system has one coat or more."
        return
    first = system.coats[0]
    for number in system.chain:
        if number > first and not system.steps[number].is_coat:
            yield (
                f"steps[{number}].kind",
                f"{system.steps[number].name} comes after a coat: it would take it off again.",
            )
    for number, step in enumerate(system.steps):
        if step.kind == "leave alone" and number < system.coats[-1]:
            yield f"steps[{number}].kind", "A coat comes after it was to be left alone."
    if sum(bool(step.cure) for step in system.steps) > 1:
        yield "steps", "The wait before immersion is given twice."


def _product(path: str, product: Product) -> Found:
    if not product.name.strip():
        yield f"{path}.name", "Give the product a name."
    if product.ratio_by not in RATIO_BY:
        yield f"{path}.ratio_by", "The ratio is by volume or by weight."
    if not product.parts:
        yield f"{path}.parts", f"{product.name} has no part: name at least the tin that it comes in."
    for number, part in enumerate(product.parts):
        yield from _part(f"{path}.parts[{number}]", part)
    for name in ("stirring_s", "induction_s"):
        yield from _not_below_zero(f"{path}.{name}", getattr(product, name), name[:-2].capitalize())
    yield from _rows(f"{path}.pot_life", product.pot_life)
    for number, row in enumerate(product.pot_life):
        yield from _pot_row(f"{path}.pot_life[{number}].time_s", row, product)
    if product.solids_ratio is not None and not 0 < product.solids_ratio <= 1:
        yield f"{path}.solids_ratio", "Solids by volume are above zero and at most 1: 71 % is 0.71."


def _pot_row(path: str, row: TimeAt, product: Product) -> Found:
    yield from _above_zero(path, row.time_s, "A pot life")
    if row.time_s <= product.induction_s:
        yield path, f"At {row.temperature_c:g} °C the mix is past its pot life before its induction is over."


def _part(path: str, part: Part) -> Found:
    if not part.name.strip():
        yield f"{path}.name", "Give the part a name."
    yield from _above_zero(f"{path}.share", part.share, f"{part.name}'s share in the mix")
    for name, called in (("density_kgpm3", "density"), ("kit_m3", "amount in a kit")):
        figure = getattr(part, name)
        if figure is not None:
            yield from _above_zero(f"{path}.{name}", figure, f"{part.name}'s {called}")


def _step(path: str, step: Step, system: System, number: int) -> Found:
    if step.kind not in STEP_KINDS:
        yield f"{path}.kind", f"{step.kind!r} is no step. There are: {', '.join(STEP_KINDS)}."
    product = system.product(step.product)
    if step.product and product is None:
        yield f"{path}.product", f"{step.product} is not among the system's products."
    if not step.product and (step.is_coat or step.kind in ("mix", "stir")):
        yield f"{path}.product", f"Say which product {step.name} uses."
    if step.kind == "mix" and product is not None and not product.is_mixed:
        yield f"{path}.product", f"{step.product} has one part: there is nothing to mix."
    yield from _above_zero(f"{path}.work_ratio", step.work_ratio, "The time against one coat")
    yield from _above_zero(f"{path}.again_s", step.again_s, "The time to the next touch test")
    yield from _film(f"{path}.film", step.film)
    yield from _limits(f"{path}.limits", step.limits)
    yield from _rows(f"{path}.cure", step.cure)
    for row_number, row in enumerate(step.cure):
        yield from _not_below_zero(f"{path}.cure[{row_number}].time_s", row.time_s, "A cure")
    yield from _window(f"{path}.window", step, system, number)


def _window(path: str, step: Step, system: System, number: int) -> Found:
    tested = step.is_on_each and system.test_after(number) is not None
    if step.window is None:
        if tested:
            yield path, f"A touch test follows {step.name}, but its window is not by touch: what would it decide?"
        return
    if not step.is_on_each or system.step_after(number) is None:
        yield path, f"Nothing follows {step.name} on the same blade: it has no window."
        return
    if step.window.by_touch != tested:
        yield (
            f"{path}.by_touch",
            (
                f"The window after {step.name} opens by touch, but no touch test stands before the next step."
                if step.window.by_touch
                else f"A touch test follows {step.name}, but its window is not by touch: what would it decide?"
            ),
        )
    yield from _window_rows(path, step.window)


def _window_rows(path: str, window: Window) -> Found:
    if not window.rows and not window.by_touch:
        yield f"{path}.rows", "A window needs a row of temperature and times, or a touch test that opens it."
    yield from _rows(f"{path}.rows", window.rows)
    for number, row in enumerate(window.rows):
        yield from _window_row(f"{path}.rows[{number}]", row)
    if len({row.latest_s is None for row in window.rows}) > 1:
        yield f"{path}.rows", "Either every row has a latest, or none has."


def _window_row(path: str, row: WindowAt) -> Found:
    yield from _not_below_zero(f"{path}.earliest_s", row.earliest_s, "The earliest")
    if row.latest_s is not None and not row.latest_s > row.earliest_s:
        yield f"{path}.latest_s", f"At {row.temperature_c:g} °C the latest is not after the earliest."
    if row.latest_s is not None and not math.isfinite(row.latest_s):
        yield f"{path}.latest_s", f"The latest is {CAN_T}"


def _rows(path: str, rows: Sequence[TimeAt] | Sequence[WindowAt]) -> Found:
    at_c = [row.temperature_c for row in rows]
    for number, temperature_c in enumerate(at_c):
        if not COLDEST_C <= temperature_c <= WARMEST_C:
            said = f"A row's temperature lies from {COLDEST_C:g} to {WARMEST_C:g} °C; this is {temperature_c:g}."
            yield f"{path}[{number}].temperature_c", said
        if number and not temperature_c > at_c[number - 1]:
            said = f"Rows go from cold to warm, each once: {temperature_c:g} °C stands after {at_c[number - 1]:g} °C."
            yield f"{path}[{number}].temperature_c", said


def _film(path: str, film: Film) -> Found:
    for one in fields(film):
        figure = getattr(film, one.name)
        if figure is not None:
            yield from _above_zero(f"{path}.{one.name}", figure, _FILM[one.name])
    if film.wet_m is not None and film.dry_m is not None and film.dry_m > film.wet_m:
        yield f"{path}.dry_m", "A film is no thicker dry than wet."


_FILM = {
    "wet_m": "The wet film",
    "dry_m": "The dry film",
    "coverage_m2pm3": "The coverage",
    "use_m3pm2": "The amount for an area",
}


def _limits(path: str, limits: Limits | None) -> Found:
    if limits is None:
        return
    for low, high, called in (
        ("metal_low_c", "metal_high_c", "metal"),
        ("air_low_c", "air_high_c", "air"),
        ("relative_humidity_least", "relative_humidity_most", "humidity"),
    ):
        least, most = getattr(limits, low), getattr(limits, high)
        for name, figure in ((low, least), (high, most)):
            if called != "humidity" and figure is not None and not COLDEST_C <= figure <= WARMEST_C:
                yield f"{path}.{name}", f"A limit lies from {COLDEST_C:g} to {WARMEST_C:g} °C; this is {figure:g}."
        if least is not None and most is not None and not least < most:
            yield f"{path}.{high}", f"The highest {called} is not above the lowest."
    for name in ("relative_humidity_least", "relative_humidity_most"):
        share = getattr(limits, name)
        if share is not None and not 0 < share <= 1:
            yield f"{path}.{name}", "Humidity is above zero and at most 1: 85 % is 0.85."
    yield from _not_below_zero(f"{path}.margin_c", limits.margin_c, "The margin to the dew point")


def _above_zero(path: str, figure: float, called: str) -> Found:
    if not (math.isfinite(figure) and figure > 0):
        yield path, f"{called} must be above zero; this is {figure:g}."


def _not_below_zero(path: str, figure: float, called: str) -> Found:
    if not (math.isfinite(figure) and figure >= 0):
        yield path, f"{called} must be zero or more; this is {figure:g}."
