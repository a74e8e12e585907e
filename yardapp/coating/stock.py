"""Which tins a job takes: what is open first, then what expires first; what has expired is never counted."""

from collections.abc import Sequence
from dataclasses import dataclass

HAIR = 1e-12


@dataclass(frozen=True, kw_only=True)
class Tin:
    """One tin, or the rest of one. `expires_s` None: nobody read a date on it."""

    key: str
    product: str
    part: str
    volume_m3: float
    batch: str = ""
    opened: bool = False
    expires_s: float | None = None


@dataclass(frozen=True, kw_only=True)
class Draw:
    """What is taken from which tin, what is short, and which tins have expired."""

    takes: tuple[tuple[str, float], ...]
    short_m3: float
    expired: tuple[str, ...]
    undated: tuple[str, ...] = ()


def draw(stock: Sequence[Tin], product: str, part: str, volume_m3: float, at_s: float) -> Draw:
    """Take `volume_m3` of one part at a moment; a tin without a date comes after all that have one."""
    own = [tin for tin in stock if (tin.product, tin.part) == (product, part) and tin.volume_m3 > 0]
    expired = tuple(tin.key for tin in own if tin.expires_s is not None and tin.expires_s < at_s)
    good = sorted((tin for tin in own if tin.key not in expired), key=_turn)
    takes: list[tuple[str, float]] = []
    short_m3 = volume_m3
    for tin in good:
        if short_m3 <= HAIR:
            break
        taken_m3 = min(tin.volume_m3, short_m3)
        takes.append((tin.key, taken_m3))
        short_m3 -= taken_m3
    taken = {key for key, _ in takes}
    undated = tuple(tin.key for tin in good if tin.expires_s is None and tin.key in taken)
    return Draw(takes=tuple(takes), short_m3=short_m3 if short_m3 > HAIR else 0.0, expired=expired, undated=undated)


def _turn(tin: Tin) -> tuple[bool, bool, float]:
    return tin.expires_s is None, not tin.opened, tin.expires_s or 0.0
