"""What is on a thing and how long coats last, in the words of a page."""

from collections.abc import Callable, Sequence
from datetime import UTC, datetime
from typing import Any

from yardapp.coating.history import RATINGS, Due, Lives, life_so_far_s, lives, next_due_s, worst
from yardapp.coating.services import CoatRow
from yardapp.drawings.plot import Axis, Dot, plot
from yardapp.filters import day

DAY_S, MONTH_S = 86400.0, 30.44 * 86400.0
MET = {True: "every window met or put right", False: "a window missed", None: "nobody can vouch for the windows"}


def coat(row: CoatRow, now_s: float, href: Callable[[int], str | None]) -> dict[str, Any]:
    """One coating: on what system, when, how, how it looks; `href` leads to the correction of a rating."""
    piece = row.piece
    return {
        "title": f"{row.system_name}, version {row.version}",
        "label": row.piece.label,
        "job": row.job,
        "piece_id": piece.id,
        "perhaps_of": row.perhaps_of,
        "state": _state(row, now_s),
        "how": _how(row),
        "looks": _looks(row, href),
        "crossed_out": _crossed_out(row),
        "due": _due(row),
        "may_be_rated": piece.finished is not None,
        "foul_release": piece.foul_release and piece.finished is not None,
    }


def _state(row: CoatRow, now_s: float) -> str:
    coated = row.coated
    if coated is None:
        return "being coated" if row.is_open else "not finished"
    finished = f"finished {day(row.piece.finished)}"
    water = f", in the water {day(row.piece.immersed)}" if row.piece.immersed else ""
    so_far = _age(life_so_far_s(coated, now_s))
    life = f", ended after {so_far}" if row.ended else f", {so_far} so far"
    return f"{finished}{water}{life if so_far else ''}"


def _how(row: CoatRow) -> str:
    piece = row.piece
    warm = ""
    if piece.metal_low_c is not None and piece.metal_high_c is not None:
        low, high = f"{piece.metal_low_c:.0f}", f"{piece.metal_high_c:.0f}"
        warm = f"metal {low} °C" if low == high else f"metal {low} to {high} °C"
    met = MET[piece.windows_met] if piece.finished is not None else ""
    return ", ".join(part for part in (f"by {row.way}", warm, met) if part)


def _looks(row: CoatRow, href: Callable[[int], str | None]) -> list[dict[str, Any]]:
    """How it looked, newest first, blade by blade."""
    by_day: dict[tuple[str, str], list[Any]] = {}
    for one in row.ratings:
        by_day.setdefault((day(one.at), one.said_by), []).append(one)
    return [
        {
            "when": when,
            "who": who,
            "what": [(_of_blade(one), href(one.id)) for one in sorted(found, key=lambda one: one.blade or 0)],
            "note": "; ".join(dict.fromkeys(note for one in found for note in _notes(one))),
            "photo": next((one.photo for one in found if one.photo), ""),
        }
        for (when, who), found in by_day.items()
    ]


def _notes(one: Any) -> list[str]:
    return [note for note in (one.note, f"put right: {one.why}" if one.why else "") if note]


def _crossed_out(row: CoatRow) -> list[dict[str, Any]]:
    """What was put right, and by whom."""
    return [
        {
            "when": day(wrong.at),
            "who": wrong.said_by,
            "what": _of_blade(wrong),
            "replaced": True,
            "note": f"by {_of_blade(right)}, {right.said_by}: {right.why}",
        }
        for wrong, right in row.crossed_out
    ]


def _of_blade(one: Any) -> str:
    return f"blade {one.blade} {one.word}" if one.blade else str(one.word)


def _due(row: CoatRow) -> str:
    """When the next one is due, and what that rests on."""
    coated = row.coated
    if coated is None or row.ended is not None:
        return ""
    due = next_due_s(coated, row.system.life_s)
    if due.at_s is None:
        return due.rests_on
    return f"{day(datetime.fromtimestamp(due.at_s, UTC))}, {due.rests_on}"


def _age(seconds: float | None) -> str:
    """11 days, 7 months, 2 1/2 years: as people speak of a coat."""
    if seconds is None:
        return ""
    months = seconds / MONTH_S
    if months < 2:
        days = int(seconds // DAY_S)
        return f"{days} day{'' if days == 1 else 's'}"
    return f"{months:.0f} months" if months < 24 else f"{months / 12:.1f} years"


MOST_DUE = 40


def due_rows(
    rows: Sequence[CoatRow], now_s: float, href: Callable[[int], str]
) -> list[tuple[tuple[str, str], str, str, str]]:
    """What is still on, what is due first first: by its sheet, else by what the yard's own coats of its kind last."""
    every = [coated for row in rows if (coated := row.coated) is not None]
    kinds = {one.group: one for one in lives(every, now_s)}
    found = []
    for row in rows:
        coated = row.coated
        if coated is None or coated.immersed_s is None or row.ended is not None:
            continue
        kind = kinds.get((coated.system, coated.way))
        due = next_due_s(coated, row.system.life_s if row.system.life_s is not None else kind)
        found.append((due.at_s is None, due.at_s or 0.0, row, due))
    found.sort(key=lambda one: one[:2])
    return [_due_row(row, due, now_s, href) for _silent, _at_s, row, due in found[:MOST_DUE]]


def _due_row(row: CoatRow, due: Due, now_s: float, href: Callable[[int], str]) -> tuple[tuple[str, str], str, str, str]:
    seen = worst(row.told_ratings)
    looked = f"{seen}, {day(row.ratings[0].at)}" if seen else "nobody looked"
    at = "not known" if due.at_s is None else day(datetime.fromtimestamp(due.at_s, UTC))
    late = ": past it" if due.at_s is not None and due.at_s < now_s else ""
    return ((f"{row.piece.label}, {row.job}", href(row.piece.id)), looked, f"{at}{late}", due.rests_on)


def lives_shown(
    rows: Sequence[CoatRow],
    now_s: float,
    by: Sequence[str] = ("system", "way"),
    href: Callable[[int], str] | None = None,
) -> dict[str, Any]:
    """Lives by system and by how it was applied: a plot of every one of them, and a table with counts."""
    coated = [one for row in rows if (one := row.coated) is not None]
    groups = lives(coated, now_s, by)
    return {
        "due": due_rows(rows, now_s, href) if href else [],
        "count": len(coated),
        "drawing": _drawing(groups) if groups else None,
        "rows": [_group(one) for one in groups],
        "looks": _looks_by_system(rows),
    }


def _group(one: Lives) -> tuple[str, str, str, str, str]:
    spread = f"{_age(one.shortest_s)} to {_age(one.longest_s)}" if one.n_ended else ""
    return (_named(one), str(one.n_ended), str(one.n_on), _age(one.median_s) or "not known yet", spread or one.said)


def _named(one: Lives) -> str:
    return ", ".join(str(part) for part in one.group) if isinstance(one.group, tuple) else str(one.group)


def _drawing(groups: Sequence[Lives]) -> Any:
    """Each group a line of dots: filled when it ended, open while it is on."""
    longest = max((point_s for one in groups for point_s, _ended in one.points), default=MONTH_S) / MONTH_S
    high = max(12.0, 6 * (int(longest // 6) + 1))
    dots = [
        Dot(x=point_s / MONTH_S, y=float(len(groups) - number), is_chosen=ended)
        for number, one in enumerate(groups)
        for point_s, ended in one.points
    ]
    months = [high * part / 4 for part in range(5)]
    lines = [(float(len(groups) - number), str(number + 1)) for number in range(len(groups))]
    return plot(
        Axis(label="months", low=0.0, high=high, ticks=[(month, f"{month:.0f}") for month in months]),
        Axis(label="line of the table", low=0.0, high=len(groups) + 1.0, ticks=lines),
        title="Lives of coats: filled, ended; open, still on",
        dots=dots,
        key="lives",
    )


def _looks_by_system(rows: Sequence[CoatRow]) -> list[tuple[str, ...]]:
    """How many coats looked how, at their worst."""
    counts: dict[str, dict[str, int]] = {}
    for row in rows:
        if (word := worst(row.told_ratings)) is not None:
            named = counts.setdefault(row.system_name, dict.fromkeys(RATINGS, 0))
            named[word] += 1
    return [(name, *(str(found[word] or "") for word in RATINGS)) for name, found in sorted(counts.items())]
