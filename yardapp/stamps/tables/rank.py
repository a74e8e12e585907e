"""How well a reading agrees with what was measured, as a log-likelihood; and when the tape rules it out.

A stamped size is as good as its own rounding: u = step / sqrt(12). With the measurement's u it makes u_c, and the
likelihood is the normal density at their difference, relative to that of a perfect agreement with the measurement
alone: -z^2/2 - ln(u_c / u_measured). Beyond 2 u_c a reading is doubted, beyond 3 u_c the tape rules it out.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from yardapp.stamps.tables.told import Option, Told

DOUBTED_BEYOND, RULED_OUT_BEYOND = 2.0, 3.0
# What a reading that says nothing of a figure is worth: as if it had said "about anything". Judgements.
BROAD_U = {"diameter_m": 0.2, "pitch_m": 0.2, "bore_m": 0.02, "area_ratio": 0.15}
LEAST_U = {"diameter_m": 1e-5, "pitch_m": 1e-5, "bore_m": 1e-5, "area_ratio": 1e-3}
SILENT = {"hand": math.log(1 / 2), "blades": math.log(1 / 3)}
DIFFERS = math.log(0.01)  # eyes can be wrong about a hand or a number of blades, hardly ever
CONFUSION, FILLED, OUTSIDE = -3.0, -0.5, -3.0  # a confusion; a character in an unknown run; outside years or serials


@dataclass(frozen=True)
class Measured:
    """A measured figure in SI with its standard uncertainty, k = 1."""

    value: float
    u: float = 0.0


Known = Mapping[str, Measured | str | int]


@dataclass(frozen=True)
class Agreement:
    """What the measurements say of one code: log-likelihood against saying nothing, and the parts of it."""

    gain: float = 0.0
    parts: tuple[tuple[str, float], ...] = ()
    ruled_out: tuple[str, ...] = ()
    doubted: tuple[str, ...] = ()


NO_WORD = Agreement()


class Judge:
    """All that was measured of one hub, ready to be held against readings."""

    def __init__(self, measured: Known | None) -> None:
        self.measured = {name: known for name, known in (measured or {}).items() if _is_known(name, known)}
        self.silent = {name: _silent(name, known) for name, known in self.measured.items()}
        self.silences = tuple(self.silent.items())
        self.silence = sum(self.silent.values())
        self.year = _whole((measured or {}).get("year"))
        self._found: dict[tuple[str, object, float], Agreement] = {}

    def of(self, option: Option) -> Agreement:
        """The agreement of all that one code tells."""
        if not self.measured:
            return NO_WORD
        found = [self._one(told) for told in option if told.value is not None and told.figure in self.measured]
        return found[0] if len(found) == 1 else together(found)

    def _one(self, told: Told) -> Agreement:
        key = (told.figure, told.value, told.u)
        if key not in self._found:
            known = self.measured[told.figure]
            log, z = _size(told, known) if isinstance(known, Measured) else _word(told, known)
            self._found[key] = Agreement(
                log - self.silent[told.figure],
                ((told.figure, log),),
                (told.figure,) if z > RULED_OUT_BEYOND else (),
                (told.figure,) if DOUBTED_BEYOND < z <= RULED_OUT_BEYOND else (),
            )
        return self._found[key]


def together(found: list[Agreement]) -> Agreement:
    """Several agreements as one."""
    if not found:
        return NO_WORD
    return Agreement(
        sum(one.gain for one in found),
        tuple(part for one in found for part in one.parts),
        tuple(name for one in found for name in one.ruled_out),
        tuple(name for one in found for name in one.doubted),
    )


def apart(told: Told, known: Measured) -> tuple[float, float]:
    """How many combined standard uncertainties lie between them, and the combined uncertainty."""
    least = LEAST_U.get(told.figure, 1e-9)
    u = math.hypot(max(known.u, least), told.u)
    return abs(float(told.value or 0) - known.value) / u, u


def _size(told: Told, known: Measured) -> tuple[float, float]:
    z, u = apart(told, known)
    return -z * z / 2 - math.log(u / max(known.u, LEAST_U[told.figure])), z


def _word(told: Told, known: str | int) -> tuple[float, float]:
    return (0.0, 0.0) if told.value == known else (DIFFERS, math.inf)


def _silent(name: str, known: Measured | str | int) -> float:
    if isinstance(known, Measured):
        return -math.log(max(BROAD_U[name] / max(known.u, LEAST_U[name]), 1.0))
    return SILENT[name]


def _is_known(name: str, known: object) -> bool:
    if name in BROAD_U:
        return isinstance(known, Measured) and math.isfinite(known.value) and 0 <= known.u < math.inf
    return name in SILENT and isinstance(known, str | int)


def _whole(known: object) -> int | None:
    return known if isinstance(known, int) else None
