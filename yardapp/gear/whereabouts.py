"""Where a thing is, derived from its moves; and which move may follow which. No database here."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Protocol

STANDINGS = ("here", "aboard", "shop", "lent", "sold", "scrapped", "lost", "stolen", "merged")
# Each move: what holds afterwards, and from where it can be made.
_ASHORE = ("here", "shop", "lent")
MOVES: dict[str, tuple[str, tuple[str, ...]]] = {
    "moved": ("here", ("here",)),
    "went on": ("aboard", ("here",)),
    "came off": ("here", ("aboard",)),
    "to shop": ("shop", ("here",)),
    "back from shop": ("here", ("shop",)),
    "lent": ("lent", ("here",)),
    "back from loan": ("here", ("lent",)),
    "sold": ("sold", _ASHORE),
    "scrapped": ("scrapped", _ASHORE),
    "lost": ("lost", (*_ASHORE, "aboard")),
    "stolen": ("stolen", (*_ASHORE, "aboard")),
    "found": ("here", ("lost", "stolen")),
    "came back": ("here", ("sold", "scrapped")),
}
CAN_BE_UNDONE = frozenset({*MOVES, "tags swapped"})
PLACE_NEEDED = frozenset({"moved", "came off", "back from shop", "back from loan", "found", "came back"})
NAME_NEEDED = {"to shop": "Which shop?", "lent": "Lent to whom?"}
DUE_MAY_BE_SAID = frozenset({"to shop", "lent"})
# How the register says where it believes a thing to be, and what would settle it.
SETTLES = {
    "aboard": "Take it off first, with “Came off a boat”",
    "shop": "Write down first that it came back from the shop",
    "lent": "Write down first that it came back from the loan",
    "sold": "If the yard has it again, write “Came back to the yard” first",
    "scrapped": "If the yard has it again, write “Came back to the yard” first",
    "lost": "Write down first that it was found",
    "stolen": "Write down first that it was found",
    "merged": "Use the tag that was kept",
    "here": "Write down first how it got there",
}


class Move(Protocol):
    """What the rule asks of a line of an item's history."""

    id: int
    kind: str
    at: datetime
    standing: str | None
    drive_id: int | None
    drive: str
    place: str
    due_on: date | None
    undoes_id: int | None


@dataclass(frozen=True, kw_only=True)
class Whereabouts:
    """Where a thing is since `since`."""

    standing: str
    drive_id: int | None = None
    drive: str = ""
    place: str = ""
    due_on: date | None = None
    since: datetime | None = None

    @property
    def said(self) -> str:
        """Where the register believes it to be, after "it is"."""
        return {
            "aboard": f"on {self.drive}",
            "here": f"here: {self.place}",
            "merged": self.place,
        }.get(self.standing, self.place)


def standing_after(move: Move) -> str | None:
    """What holds after a line of history; lines from before the register said so itself tell by their kind."""
    if move.standing:
        return move.standing
    if move.kind == "logged":
        return "here"
    return MOVES[move.kind][0] if move.kind in MOVES else None


def in_order(lines: Iterable[Move]) -> list[Move]:
    """The moves that still stand, as they happened; the first line written is where the register begins."""
    lines = sorted(lines, key=lambda line: line.id)
    undone = {line.undoes_id for line in lines if line.undoes_id is not None}
    first = lines[0].id if lines else 0
    moves = [line for line in lines if line.id not in undone and standing_after(line) is not None]
    return sorted(moves, key=lambda line: (line.id != first, line.at, line.id))


def after(move: Move) -> Whereabouts:
    """Where a thing is once this move is made."""
    standing = standing_after(move) or "here"
    is_aboard = standing == "aboard"
    return Whereabouts(
        standing=standing,
        drive_id=move.drive_id if is_aboard else None,
        drive=move.drive if is_aboard else "",
        place="" if is_aboard else move.place,
        due_on=move.due_on,
        since=move.at,
    )


def now_of(lines: Iterable[Move]) -> Whereabouts | None:
    """Where the moves leave the thing; None where there are none."""
    lines = list(lines)
    moves = in_order(lines)
    if not moves:
        return None
    there = after(moves[-1])
    promised = [line for line in lines if line.kind == "chased" and line.due_on and line.at >= moves[-1].at]
    return replace(there, due_on=max(promised, key=lambda line: line.id).due_on) if promised else there


def around(lines: Iterable[Move], at: datetime) -> tuple[Move | None, Move | None]:
    """The last move up to a moment, and the next one after it; a move at that very moment came before."""
    moves = in_order(lines)
    before = [move for place, move in enumerate(moves) if place == 0 or move.at <= at]
    return (before[-1] if before else None), next(iter(moves[len(before) :]), None)


def may_follow(kind: str, before: Whereabouts | None) -> bool:
    """Whether a move of this kind can be made from there; what only sets a place can always."""
    return before is None or kind not in MOVES or before.standing in MOVES[kind][1]


def moves_from(standing: str) -> list[str]:
    """The moves that can be made from there, as a page offers them."""
    return [kind for kind, (_to, froms) in MOVES.items() if standing in froms]


def spells(lines: Sequence[Move], drive_id: int) -> list[tuple[datetime, datetime | None]]:
    """From when to when a thing was on that drive; None: it still is."""
    moves = in_order(lines)
    ends = [move.at for move in moves[1:]] + [None]
    return [
        (move.at, end)
        for move, end in zip(moves, ends, strict=True)
        if standing_after(move) == "aboard" and move.drive_id == drive_id
    ]
