"""What a search line asks for: sizes, hand, bore, blades, and the words that are left. No database here."""

import re
from dataclasses import dataclass, field

INCH = 0.0254
# A stamp is a size in whole units, a working figure is a measurement: look this far round what was typed.
REACH = 0.035

_NUMBER = r"\d+(?:[.,]\d+)?(?:[ -]\d+/\d+)?(?:/\d+)?"
_PAIR = re.compile(rf"(?<![\w?])({_NUMBER})\s*(mm|cm|in|\"|″)?\s*[x×]\s*({_NUMBER})\s*(mm|cm|in|\"|″)?(?![\w?])", re.IGNORECASE)
_BORE = re.compile(rf"\bbore\s+({_NUMBER})\s*(mm|cm|in|\"|″)?", re.IGNORECASE)
_BLADES = re.compile(r"\b([2-7])\s*(?:blades?|bl?)\b", re.IGNORECASE)
_HAND = re.compile(r"\b(?:(r)\.?h\.?|(l)\.?h\.?|(right)|(left))(?:\s*hand(?:ed)?)?(?=\W|$)", re.IGNORECASE)


@dataclass(frozen=True)
class Asked:
    """A search line, understood. Ranges are (least, most) in metres."""

    words: tuple[str, ...] = ()
    hand: str | None = None
    blades: int | None = None
    ranges: dict[str, tuple[float, float]] = field(default_factory=dict)
    stamp: str | None = None

    @property
    def is_empty(self) -> bool:
        """Whether nothing was asked for."""
        return not (self.words or self.hand or self.blades or self.ranges)


def understand(line: str) -> Asked:
    """Take a search line apart. Whatever is no size, hand, bore or blade count is a word to be found."""
    line = " ".join(line[:80].split())
    ranges: dict[str, tuple[float, float]] = {}
    line, bore = _take(_BORE, line)
    if bore:
        ranges["bore_large_m"] = _around(_metres(bore[1], bore[2]), 0.012)
    line, pair = _take(_PAIR, line)
    if pair:
        unit = pair[4] or pair[2]
        ranges["diameter_m"] = _around(_metres(pair[1], unit), REACH)
        ranges["pitch_m"] = _around(_metres(pair[3], unit, like=pair[1]), REACH)
    line, blades = _take(_BLADES, line)
    line, hand = _take(_HAND, line)
    words = tuple(dict.fromkeys(re.split(r"[\s,]+", line.strip()))) if line.strip() else ()
    return Asked(
        words=words[:6],
        hand=None if hand is None else "right" if hand[1] or hand[3] else "left",
        blades=int(blades[1]) if blades else None,
        ranges=ranges,
    )


def _take(pattern: re.Pattern[str], line: str) -> tuple[str, re.Match[str] | None]:
    found = pattern.search(line)
    return (line, None) if found is None else (f"{line[: found.start()]} {line[found.end() :]}", found)


def _around(value_m: float, reach: float) -> tuple[float, float]:
    return value_m * (1 - reach), value_m * (1 + reach)


def _number(text: str) -> float:
    """`1-3/4`, `7/8`, `22.5` or `22,5`, as a number; the pattern has let nothing else through."""
    total = 0.0
    for part in re.split(r"[ -]", text.replace(",", ".")):
        over, _, under = part.partition("/")
        total += float(over) / (float(under) or 1.0) if under else float(over)
    return total


def _metres(text: str, unit: str | None, like: str | None = None) -> float:
    """A bare number above 60 is millimetres, up to 60 inches: no yard has a propeller of five feet in its head."""
    unit = (unit or "").lower()
    if not unit:
        unit = "mm" if _number(like or text) > 60 and "/" not in text else "in"
    return _number(text) * {"mm": 0.001, "cm": 0.01}.get(unit, INCH)
