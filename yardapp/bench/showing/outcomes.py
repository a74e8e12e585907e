"""What came of a sheet, put into the words of a page. A look and a kept sheet read alike."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from markupsafe import Markup

from yardapp import quantities
from yardapp.bench.showing.faces import FACES
from yardapp.bench.showing.words import figure, in_order, is_named, label_of
from yardapp.bench.sums import Compared, Known, Near, Outcome, Sum
from yardapp.bench.tools import K
from yardapp.filters import kind_of
from yardapp.formulas.repeats import how_well_scatter_is_known
from yardapp.quantities import System

MANY = 10  # readings, from which on their scatter is known well enough to say no more of it
CHECK = "Check "  # how a remark begins that asks for a reading to be taken again
BASIS = {
    "measured": "Measured before",
    "stamped": "Stamped",
    "decoded": "Read from its mark",
    "paper": "On paper",
    "guessed": "Guessed",
}


@dataclass(frozen=True, kw_only=True)
class Shown:
    """One outcome as a page shows it."""

    lead: str
    read_with: str
    figures: list[dict[str, Any]]
    sums: list[dict[str, Any]]
    agreements: list[dict[str, str]]
    warnings: list[str]
    remarks: list[str]
    near: list[str]
    scatter: list[str]
    checks: list[dict[str, str]]
    tables: list[dict[str, Any]]
    drawing: Markup | None
    drawing_rows: list[tuple[str, str]]


def shown(method: str, outcome: Outcome, readings: Mapping[str, Any], known: Known, system: System) -> Shown:
    """Everything that the readings say."""
    drawing, rows = FACES[method].picture(outcome, readings, known, system)
    return Shown(
        lead=lead(method, outcome, readings, system),
        read_with=_read_with(readings, system),
        figures=_figures(method, outcome, readings),
        sums=[_sum(one, system) for one in outcome.sums],
        agreements=[_agreement(one, method, system) for one in outcome.compared],
        warnings=[remark for remark in outcome.remarks if remark.startswith(CHECK)],
        remarks=[remark for remark in outcome.remarks if not remark.startswith(CHECK)],
        near=_near(outcome.near, outcome.value),
        scatter=_scatter(outcome, readings, system),
        checks=FACES[method].checks(outcome, system),
        tables=FACES[method].tables(outcome, system),
        drawing=drawing,
        drawing_rows=rows,
    )


def lead(method: str, outcome: Outcome, readings: Mapping[str, Any], system: System) -> str:
    """The sheet in one line."""
    return FACES[method].lead(outcome, readings, system)


def _figures(method: str, outcome: Outcome, readings: Mapping[str, Any]) -> list[dict[str, Any]]:
    """The answer first, then what follows from it; of some methods also what was read."""
    rows = [_row(one.what, one.value, one.u) for one in sorted(outcome.sums, key=_answer_first(outcome))]
    if FACES[method].shows_readings:
        read = (name for name in in_order(readings) if f"u_{name}" in readings)
        rows += [_row(name, readings[name], readings[f"u_{name}"]) for name in read]
    return rows


def _answer_first(outcome: Outcome) -> Any:
    return lambda one: one.what != outcome.answer


def _row(name: str, value: float, u: float | None) -> dict[str, Any]:
    row: dict[str, Any] = {"label": label_of(name)}
    if kind_of(name) != "length":
        return row | {"first": figure(name, value, "mm", u)}
    first, second = (figure(name, value, system, u) for system in ("mm", "in"))
    return row | {"first": first.removesuffix(" mm"), "second": second.removesuffix(" in")}


def _read_with(readings: Mapping[str, Any], system: System) -> str:
    """`Height gauge ± 0.1 mm, degree ring ± 0.5°`: each tool once, with the ± that was reckoned with."""
    said = (
        f"{readings[f'{name}_tool']} ± {figure(name, K * readings[f'u_{name}'], system)}"
        for name in in_order(readings)
        if readings.get(f"{name}_tool") and readings.get(f"u_{name}")
    )
    tools = ", ".join(dict.fromkeys(said))
    return f"Read with {tools}." if tools else ""


def _scatter(outcome: Outcome, readings: Mapping[str, Any], system: System) -> list[str]:
    """Each figure that was read several times over; and what of the answer's ± averages out and what does not."""
    scattered = readings.get("scatter") or {}
    lines = [_repeated(name, one, system) for name, one in scattered.items() if is_named(name)]
    if outcome.u and outcome.u_common is not None and scattered:
        common, separate = (_half_width(outcome.answer, u, system) for u in (outcome.u_common, outcome.u_separate))
        lines.append(f"Of the ±, {common} is common to every reading with these tools and does not average out.")
        lines.append(f"{separate} is separate, the readings' own scatter, and shrinks as more are taken.")
    elif outcome.u:
        lines.append("One reading each: the ± is the tools' own, and reading again with them does not lessen it.")
    return [*lines, *_same_on_every_blade(outcome, readings, system)]


def _same_on_every_blade(outcome: Outcome, readings: Mapping[str, Any], system: System) -> list[str]:
    """What a template or gauge gets wrong on every blade alike, where one was used."""
    u_same, names = outcome.more.get("u_same_m"), readings.get("common") or ()
    if not u_same or not names:
        return []
    tools = " and ".join(dict.fromkeys(str(readings.get(f"{name}_tool") or label_of(name).lower()) for name in names))
    said = _half_width(outcome.answer, u_same, system)
    return [f"Of it, {said} is the {tools}'s: the same on every blade, so a mean of blades keeps it."]


def _repeated(name: str, one: Mapping[str, Any], system: System) -> str:
    read = "; ".join(figure(name, value, system) for value in one["readings"])
    doubt = f", itself known to {how_well_scatter_is_known(one['count']):.0%}" if one["count"] < MANY else ""
    scatter = _half_width(name, one["u_scatter"], system)
    return f"{label_of(name)}, {one['count']} readings: {read}. The mean scatters by {scatter}{doubt}."


def _half_width(name: str, u: float | None, system: System) -> str:
    return "± nothing" if not u else f"± {figure(name, 0.0, system, u).partition('± ')[2]}"


def _sum(one: Sum, system: System) -> dict[str, Any]:
    """A sum, opened: what went in, the formula by name, and where it comes from."""
    return {
        "label": label_of(one.what),
        "said": figure(one.what, one.value, system, one.u),
        "formula": one.formula,
        "source": one.source,
        "inputs": [(label_of(put.name), figure(put.name, put.value, system, put.u)) for put in one.inputs],
    }


def _agreement(one: Compared, method: str, system: System) -> dict[str, str]:
    """Whether another statement and this reading can both be true, in a sentence."""
    kind = kind_of(one.what)
    of = "" if method != "bore" else f", {label_of(one.what).lower()}"
    theirs = quantities.both(one.value, kind, system)
    apart = quantities.show(abs(one.apart), kind, system)
    allowed = quantities.plus_minus(one.allowed, one.allowed / K, kind, system).partition("± ")[2]
    more = "more" if one.apart > 0 else "less"
    row = {"label": f"{BASIS[one.basis]}{of}:"}
    if one.agrees:
        return row | {"verdict": "yes", "said": f"{theirs}. It agrees, within what the readings allow."}
    if not one.is_sure:
        return row | {"verdict": "ask", "said": f"{theirs}. Neither says how well it was read."}
    asks = " Re-pitched since?" if one.what == "pitch_m" and one.basis == "stamped" else ""
    if kind == "taper":
        return row | {"verdict": "no", "said": f"{theirs}. The readings do not allow that."}
    said = f"{theirs}, {apart} {more} than read here; the readings allow {allowed}.{asks}"
    return row | {"verdict": "no", "said": said}


def _near(near: Near | None, taper: float | None) -> list[str]:
    """Which standard it is, or that it is none."""
    if near is None:
        return []
    said = []
    if taper is not None:
        ratio = quantities.show(near.taper, "taper") if near.taper else ""
        said.append(f"Nearest standard taper: {ratio}." if ratio else "Nearest standard taper: none of them.")
    if near.end:
        said.append(f"Standard shaft end: {near.end}.")
    elif near.nearest:
        said.append(f"Standard shaft end: none of them; {near.nearest} comes nearest.")
    return said
