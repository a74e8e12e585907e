"""Many propellers, or many drives, as columns of figures: values and standard uncertainties, NaN where not known."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, TypeVar

import numpy as np
from numpy.typing import NDArray

from yardapp.fit.checks.case import HANDS
from yardapp.fit.figures import DriveFigures, Figure, PropellerFigures

Array = NDArray[np.float64]
Codes = NDArray[np.int8]
Marks = NDArray[np.bool_]
Bits = NDArray[np.int64]

UNKNOWN, RIGHT, LEFT = 0, 1, 2
HAND_CODES = {"right": RIGHT, "left": LEFT}
TAPER, PARALLEL, PILOT = 1, 2, 3
BORE_CODES = {"taper": TAPER, "parallel": PARALLEL, "pilot": PILOT}
ONE_SCREW, TWIN_SCREW = 1, 2
SCREW_CODES = {False: ONE_SCREW, True: TWIN_SCREW}
PROPELLER_FIGURES = (
    "diameter_m",
    "bore_large_m",
    "bore_small_m",
    "bore_length_m",
    "taper",
    "keyway_width_m",
    "keyway_depth_m",
    "hub_length_m",
    "hub_diameter_m",
)
DRIVE_FIGURES = (
    "shaft_diameter_m",
    "taper",
    "taper_length_m",
    "keyway_width_m",
    "keyway_depth_m",
    "hub_space_m",
    "hull_clearance_m",
    "vessel_length_m",
    "block_ratio",
    "rated_power_w",
)
A_FAULT = "a fault that bars it (its own page names it)"
_NEVER: Marks = np.zeros(1, bool)
_NOT_COUNTED: Array = np.full(1, np.nan)
_NOT_SAID: Codes = np.zeros(1, np.int8)


@dataclass(frozen=True, kw_only=True)
class Columns:
    """Figures by name, all of one length; words as codes; `doubts` marks figures that are guessed or contradicted."""

    values: Mapping[str, Array]
    u: Mapping[str, Array]
    hand: Codes
    hand_stamped: Codes
    bore_kind: Codes
    doubts: Mapping[str, Marks] = field(default_factory=dict)
    blades: Array = field(default_factory=lambda: _NOT_COUNTED)
    screws: Codes = field(default_factory=lambda: _NOT_SAID)
    barred: Marks = field(default_factory=lambda: _NEVER)  # an open fault bars it; one mark for all, or one a row

    @property
    def count(self) -> int:
        """How many there are."""
        return int(self.hand.size)

    def doubt(self, name: str) -> Marks:
        """Where what is known of a figure settles nothing."""
        return self.doubts.get(name, _NEVER)

    def is_doubted(self, name: str, row: int) -> bool:
        """Whether that is so in one row."""
        return name in self.doubts and bool(self.doubts[name][row])

    def part(self, rows: Any) -> "Columns":
        """Some of them, in that order."""
        return Columns(
            values={name: column[rows] for name, column in self.values.items()},
            u={name: column[rows] for name, column in self.u.items()},
            hand=self.hand[rows],
            hand_stamped=self.hand_stamped[rows],
            bore_kind=self.bore_kind[rows],
            doubts={name: marks[rows] for name, marks in self.doubts.items()},
            blades=np.broadcast_to(self.blades, self.count)[rows],
            screws=np.broadcast_to(self.screws, self.count)[rows],
            barred=np.broadcast_to(self.barred, self.count)[rows],
        )


def codes(words: Sequence[str | None], of: Mapping[str, int]) -> Codes:
    """Words as codes; what is none of them is not known."""
    return np.fromiter((of.get(word or "", UNKNOWN) for word in words), np.int8, len(words))


_Side = TypeVar("_Side", PropellerFigures, DriveFigures)


def propeller_columns(propellers: Sequence[PropellerFigures]) -> Columns:
    """Propellers one by one, put into columns."""
    return Columns(
        **_figures(propellers, PROPELLER_FIGURES),
        hand=_hands([one.hand for one in propellers]),
        hand_stamped=_hands([one.hand_stamped for one in propellers]),
        bore_kind=codes([one.bore_kind for one in propellers], BORE_CODES),
        doubts=_doubts(propellers, (*PROPELLER_FIGURES, "hand", "hand_stamped", "bore_kind", "blades")),
        blades=np.array([np.nan if one.blades is None else one.blades for one in propellers], float),
        barred=np.array([bool(one.open_faults) for one in propellers], bool),
    )


def drive_columns(drives: Sequence[DriveFigures]) -> Columns:
    """Drives one by one, put into columns."""
    nothing = np.zeros(len(drives), np.int8)
    return Columns(
        **_figures(drives, DRIVE_FIGURES),
        hand=_hands([one.hand for one in drives]),
        hand_stamped=nothing,
        bore_kind=nothing,
        doubts=_doubts(drives, (*DRIVE_FIGURES, "hand", "is_twin")),
        screws=np.array([UNKNOWN if one.is_twin is None else SCREW_CODES[one.is_twin] for one in drives], np.int8),
    )


def _hands(said: Sequence[str | None]) -> Codes:
    return codes([HANDS.get(str(one or "").strip().lower()) for one in said], HAND_CODES)


def _figures(sides: Sequence[_Side], names: Sequence[str]) -> dict[str, Any]:
    read: dict[str, list[Figure | None]] = {name: [getattr(one, name) for one in sides] for name in names}
    values = {name: np.array([np.nan if one is None else one.value for one in column]) for name, column in read.items()}
    u = {
        name: np.array([np.nan if one is None or one.u is None else one.u for one in column])
        for name, column in read.items()
    }
    return {"values": values, "u": u}


def _doubts(sides: Sequence[_Side], names: Sequence[str]) -> dict[str, Marks]:
    marked = {name: np.array([_is_doubted(one, name) for one in sides], bool) for name in names}
    return {name: marks for name, marks in marked.items() if marks.any()}


def _is_doubted(side: PropellerFigures | DriveFigures, name: str) -> bool:
    return name in side.contradictions or getattr(getattr(side, name), "basis", None) == "guessed"


def propeller_at(columns: Columns, row: int, **words: Any) -> PropellerFigures:
    """One row as the judge takes it; what is doubted he is told is guessed."""
    doubted = tuple(name for name in ("hand", "hand_stamped", "bore_kind", "blades") if columns.is_doubted(name, row))
    figures: dict[str, Any] = {name: figure_at(columns, name, row) for name in PROPELLER_FIGURES}
    return PropellerFigures(
        hand=_word(columns.hand[row], HAND_CODES),
        hand_stamped=_word(columns.hand_stamped[row], HAND_CODES),
        bore_kind=_word(columns.bore_kind[row], BORE_CODES),
        contradictions=doubted,
        open_faults=(A_FAULT,) if np.broadcast_to(columns.barred, columns.count)[row] else None,
        **figures,
        **words,
    )


def drive_at(columns: Columns, row: int) -> DriveFigures:
    """One row as the judge takes it: the shaft end and the room, nothing of engine or hull."""
    figures: dict[str, Any] = {name: figure_at(columns, name, row) for name in DRIVE_FIGURES}
    screws = int(np.broadcast_to(columns.screws, columns.count)[row])
    is_twin = None if screws == UNKNOWN else screws == TWIN_SCREW
    return DriveFigures(hand=_word(columns.hand[row], HAND_CODES), is_twin=is_twin, **figures)


def figure_at(columns: Columns, name: str, row: int) -> Figure | None:
    """One figure of one row; None where it is not known."""
    value, u = float(columns.values[name][row]), float(columns.u[name][row])
    if np.isnan(value):
        return None
    basis = "guessed" if columns.is_doubted(name, row) else "measured"
    return Figure(value=value, u=None if np.isnan(u) else u, basis=basis)


def _word(code: int, of: Mapping[str, int]) -> str | None:
    return next((word for word, number in of.items() if number == code), None)
