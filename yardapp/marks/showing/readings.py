"""Readings by the yard's tables put into the words of a page. No database, no request."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from yardapp import quantities
from yardapp.filters import day
from yardapp.marks.services import Asked, MarkRow, Taken, becomes_evidence, which
from yardapp.quantities import System
from yardapp.stamps.tables import Conflict, Reading, Readings, Together

LABELS = {
    "diameter_m": "Diameter",
    "pitch_m": "Pitch",
    "hand": "Hand",
    "blades": "Blades",
    "bore_m": "Bore",
    "area_ratio": "Blade area ratio",
    "material": "Metal",
    "series": "Series",
    "year": "Year",
    "serial": "Serial",
}
STRUCK = {"first": "struck first", "later": "struck later"}
MOST_SHOWN = 12  # the rest can be asked for by writing more of the mark


@dataclass(frozen=True)
class ReadingShown:
    """One reading: who reads it so, what it says, why, and what speaks against it."""

    which: str
    table: str
    mark: str
    figures: str
    rows: Sequence[tuple[str, str]]
    words: Sequence[str]
    confused: str
    why: Sequence[str]
    stays: str
    against: str
    is_out: bool


@dataclass(frozen=True)
class ReadingsShown:
    """All readings of a mark, best first, with the sentence about them all."""

    seen: str
    said: str
    readings: Sequence[ReadingShown]
    more: str
    is_too_little: bool
    together: "TogetherShown | None" = None


@dataclass(frozen=True)
class TogetherShown:
    """The marks of one hub read together, each with who reads it; in `unread` those that no table reads."""

    marks: Sequence[tuple[str, str]]
    rows: Sequence[tuple[str, str]]
    conflicts: Sequence[str]
    unread: Sequence[str]


def asked(found: Asked, system: System) -> ReadingsShown:
    """What a mark says by the tables, with the hub's other marks where there are any."""
    shown = readings(found.readings, system)
    best = next(iter(found.together), None)
    return shown if best is None else replace(shown, together=_together(found, best, system))


def readings(found: Readings, system: System) -> ReadingsShown:
    """The readings of one mark."""
    shown = [reading(one, system) for one in found.found[:MOST_SHOWN]]
    left = found.count - len(shown)
    more = f"{left} more, less likely. Write more of the mark to see fewer." if left > 0 else ""
    return ReadingsShown(found.seen, f"{_upper(found.said)}.", shown, more, found.too_little)


def reading(one: Reading, system: System) -> ReadingShown:
    """One reading."""
    seen_otherwise = [name for name in one.ruled_out if name in ("hand", "blades")]
    taped = [_label(name) for name in one.ruled_out if name not in seen_otherwise]
    against = [f"the tape rules out its {_listed(taped)}"] if taped else []
    against += [f"its {_label(name)} {'is' if name == 'hand' else 'are'} not as seen" for name in seen_otherwise]
    against += [f"the tape makes its {_label(name)} doubtful" for name in one.doubted]
    rows = figure_rows(one.figures, system)
    return ReadingShown(
        which=which(one),
        table=f"{one.table.name}, version {one.table.version}",
        mark=one.mark,
        figures=", ".join(_brief(name, value, system) for name, value in one.figures.items() if name in LABELS),
        rows=rows,
        words=[f"{LABELS.get(tells, _upper(tells))}: {words}" for tells, words in one.words.items()],
        confused="; ".join(one.confused),
        why=[f"{_upper(said)}." for said in one.why],
        stays=_stays(one),
        against=_upper("; ".join(against)),
        is_out=bool(one.ruled_out),
    )


def _stays(one: Reading) -> str:
    """What is told of which the register keeps no figure."""
    names = [
        _label(name) for name, value in one.figures.items() if not becomes_evidence(name, value) and name in LABELS
    ]
    if not names:
        return ""
    stay = "stays" if len(names) == 1 else "stay"
    return f"Taken, the {_listed(names)} {stay} with the reading; the rest becomes evidence."


def _listed(names: Sequence[str]) -> str:
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))


def figure_rows(figures: Mapping[str, object], system: System) -> list[tuple[str, str]]:
    """Each figure with its label, in the person's units with the other beside them."""
    return [(label, _figure(name, figures[name], system)) for name, label in LABELS.items() if name in figures]


def _figure(name: str, value: object, system: System) -> str:
    if name.endswith("_m") and isinstance(value, int | float):
        return quantities.both(float(value), "length", system)
    if name == "hand":
        return f"{value} hand"
    return f"{value:g}" if isinstance(value, float) else f"{value}"


def _brief(name: str, value: object, system: System) -> str:
    """As people say it in a row of figures."""
    said = _figure(name, value, system)
    return {"hand": said, "blades": f"{said} blades"}.get(name, f"{LABELS[name].lower()} {said}")


def _together(found: Asked, best: Together, system: System) -> TogetherShown:
    read = [one for one in (found.readings, *found.others) if one.found]
    return TogetherShown(
        marks=[(one.seen, chosen.table.name) for one, chosen in zip(read, best.readings, strict=True)],
        rows=figure_rows(best.figures, system),
        conflicts=[_conflict(one, system) for one in best.conflicts],
        unread=[one.seen for one in found.others if not one.found],
    )


def _conflict(one: Conflict, system: System) -> str:
    first, second = (_figure(one.figure, value, system) for value in (one.first_value, one.second_value))
    newer = f"{one.newer} is newer: {one.since}" if one.newer else "which of the two is newer is not known"
    return f"{one.first} says {_label(one.figure)} {first}, {one.second} says {second}; {newer}."


def history(marks: Sequence[MarkRow]) -> list[dict[str, str]]:
    """The marks seen so far, newest first, with where each stands, when it was struck, its photo and what was taken."""
    return [
        {
            "when": day(one.mark.at),
            "who": one.mark.said_by,
            "what": one.mark.seen,
            "photo": one.mark.photo_sha256,
            "note": "; ".join(filter(None, (one.mark.spot, STRUCK.get(one.mark.struck, ""), *_taken(one)))),
        }
        for one in marks
    ]


def _taken(one: MarkRow) -> list[str]:
    """Each reading that was taken, with what the register has no figure for."""
    return [
        ", ".join((f"taken as {taken.mark} by {taken.said_by}", *(_beside(name, taken) for name in _names(taken))))
        for taken in one.taken
    ]


def _names(taken: Taken) -> list[str]:
    return [name for name in LABELS if name in taken.figures and not becomes_evidence(name, taken.figures[name])]


def _beside(name: str, taken: Taken) -> str:
    return f"{_label(name)} {taken.figures[name]}"


def _label(name: str) -> str:
    return LABELS[name].lower()


def _upper(said: str) -> str:
    return f"{said[:1].upper()}{said[1:]}"
