"""What is to be coated, what never is, and the blades and small pieces that each run on a clock of their own."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from yardapp.coating.system import System

PIECE_KINDS = ("propeller", "shaft", "cutter", "bracket", "transducer", "other")
NEVER = {
    "anode": "An anode works bare: coated, it protects nothing.",
    "bearing face": "A bearing runs on bare metal.",
    "bore": "The bore seats on the shaft, metal on metal.",
    "taper": "The taper seats in the bore, metal on metal.",
    "thread": "A thread is set by its nut, metal on metal.",
    "keyway": "The key is fitted to bare metal.",
}
YES, WAITS, NO = "yes", "waits", "no"
LATER_PAINT = "There is foul-release coat on it: later paint will not hold unless all of it comes off first."
WARN_THE_NEXT = "Paint and glue will not hold on it, or near it, later: keep the spray off, and tell the next person."


@dataclass(frozen=True, kw_only=True)
class Piece:
    """One thing of a job. `work_s`: time for one coat of all of it, where it is not reckoned from a blade's.

    `allowed_by`, `allowed_on`: who said that a transducer's maker allows it, and when.
    """

    key: str
    label: str
    kind: str
    area_m2: float
    blades: int = 0
    work_s: float | None = None
    allowed_by: str = ""
    allowed_on: str = ""
    last_foul_release: bool = False


@dataclass(frozen=True, kw_only=True)
class Unit:
    """What has a clock of its own: one blade with its share of the hub, or one other piece."""

    key: str
    label: str
    work_s: float
    area_m2: float | None = None
    piece: str = ""


@dataclass(frozen=True, kw_only=True)
class Allowed:
    """Whether a thing may be coated: "yes", "waits" for somebody's word, or "no"; and what to mind."""

    verdict: str
    why: str = ""
    cautions: tuple[str, ...] = ()


def allowed(piece: Piece, system: System) -> Allowed:
    """Whether a piece may be coated with a system."""
    if why := NEVER.get(piece.kind, ""):
        return Allowed(verdict=NO, why=f"{why} It is never coated.")
    banned = {*system.not_on, *(place for step in system.steps for place in step.not_on)}
    if piece.kind in banned:
        return Allowed(verdict=NO, why=f"The sheet of {system.name} keeps it off: {piece.kind}.")
    if piece.kind == "transducer" and not (piece.allowed_by.strip() and piece.allowed_on.strip()):
        why = "Coat a transducer only as its maker says: write who said that its maker allows it, and when."
        return Allowed(verdict=WAITS, why=why)
    return Allowed(verdict=YES, cautions=tuple(_cautions(piece, system)))


def _cautions(piece: Piece, system: System) -> Iterator[str]:
    if piece.last_foul_release:
        yield LATER_PAINT
    if system.foul_release:
        yield WARN_THE_NEXT


def units_of(pieces: Sequence[Piece], blade_s: float) -> tuple[Unit, ...]:
    """Each blade and each other piece, in the order given; `blade_s` is the time for one coat of one blade.

    Another piece takes the time that was said for it, else a blade's by area, else as long as a blade.
    """
    propellers = [piece for piece in pieces if piece.blades]
    blade_m2 = propellers[0].area_m2 / propellers[0].blades if propellers else None
    return tuple(unit for piece in pieces for unit in _units(piece, blade_s, blade_m2, len(propellers) == 1))


def _units(piece: Piece, blade_s: float, blade_m2: float | None, is_only: bool) -> Iterator[Unit]:
    if not piece.blades:
        by_area_s = blade_s * piece.area_m2 / blade_m2 if blade_m2 else blade_s
        work_s = by_area_s if piece.work_s is None else piece.work_s
        yield Unit(key=piece.key, label=piece.label, work_s=work_s, area_m2=piece.area_m2, piece=piece.key)
        return
    for number in range(1, piece.blades + 1):
        label = f"Blade {number}" if is_only else f"{piece.label}, blade {number}"
        work_s = blade_s if piece.work_s is None else piece.work_s / piece.blades
        area_m2 = piece.area_m2 / piece.blades
        yield Unit(key=f"{piece.key}.{number}", label=label, work_s=work_s, area_m2=area_m2, piece=piece.key)
