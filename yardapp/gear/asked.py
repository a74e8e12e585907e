"""What a search line asks for: sizes, hand, bore, blades, and the words that are left. No database here."""

import re
from dataclasses import dataclass, field

from yardapp import quantities, stamps

# A stamp is a size in whole units, a working figure is a measurement: look this far round what was typed.
REACH = 0.035
BORE_REACH = 0.012

_NUMBER = r"[\d?]+(?:[.,][\d?]+)?(?:[ -]\d+/\d+)?(?:/\d+)?[½¼¾]?"
_UNIT = r"(?:\s*(?:mm|cm|in\b|\"|″))?"
_PAIR = re.compile(rf"(?<![\w?])({_NUMBER}{_UNIT}\s*[x×]\s*{_NUMBER}{_UNIT})(?![\d?])(?:([rl])(?!\w))?", re.IGNORECASE)
_BORE = re.compile(rf"\bbore\s+({_NUMBER}{_UNIT})", re.IGNORECASE)
_BLADES = re.compile(r"\b([2-7])\s*(?:blades?|bl?)\b", re.IGNORECASE)
_HAND = re.compile(r"(?<![a-z])(?:(r)\.?h\.?|(l)\.?h\.?|(right)|(left))(?:\s*hand(?:ed)?)?(?=\W|$)", re.IGNORECASE)


@dataclass(frozen=True)
class Asked:
    """A search line, understood. Ranges are (least, most) in metres."""

    words: tuple[str, ...] = ()
    hand: str | None = None
    blades: int | None = None
    ranges: dict[str, tuple[float, float]] = field(default_factory=dict)

    @property
    def is_empty(self) -> bool:
        """Whether nothing was asked for."""
        return not (self.words or self.hand or self.blades or self.ranges)

    @property
    def is_words(self) -> bool:
        """Whether only words were typed, which a boat may answer too."""
        return bool(self.words) and not (self.hand or self.blades or self.ranges)


def understand(line: str) -> Asked:
    """Take a search line apart. Whatever is no size, hand, bore or blade count is a word to be found."""
    line = " ".join(line[:80].split())
    line, bore = _take(_BORE, line)
    ranges = _bore(bore[1]) if bore else {}
    line, pair = _take(_PAIR, line)
    line, blades = _take(_BLADES, line)
    line, said = _take(_HAND, line)
    worn = []
    if pair:
        sizes = _sizes(pair[1])
        ranges |= sizes
        # A worn pair is looked for as it stands on the hub.
        worn = [] if sizes else [stamps.normalise(pair[1])]
    words = tuple(dict.fromkeys([*worn, *re.split(r"[\s,]+", line.strip())])) if line.strip() or worn else ()
    return Asked(
        words=tuple(word for word in words if word)[:6],
        hand=_hand(said, pair),
        blades=int(blades[1]) if blades else None,
        ranges=ranges,
    )


def _take(pattern: re.Pattern[str], line: str) -> tuple[str, re.Match[str] | None]:
    found = pattern.search(line)
    return (line, None) if found is None else (f"{line[: found.start()]} {line[found.end() :]}", found)


def _hand(said: re.Match[str] | None, pair: re.Match[str] | None) -> str | None:
    """`RH`, `left hand`, or the letter that a stamp carries right behind its sizes: `22X18R`."""
    if said is not None:
        return "right" if said[1] or said[3] else "left"
    if pair is not None and pair[2]:
        return "right" if pair[2].upper() == "R" else "left"
    return None


def _around(value_m: float, reach: float) -> tuple[float, float]:
    return value_m * (1 - reach), value_m * (1 + reach)


def _bore(text: str) -> dict[str, tuple[float, float]]:
    try:
        return {"bore_large_m": _around(quantities.read(text, "length").value, BORE_REACH)}
    except quantities.Unreadable:
        return {}


def _sizes(text: str) -> dict[str, tuple[float, float]]:
    """Diameter and pitch, read as the same pair on a hub would be; nothing where a character is unknown."""
    if "?" in text:
        return {}
    reading = stamps.decode(text)
    sizes = {"diameter_m": reading.diameter_m, "pitch_m": reading.pitch_m}
    return {name: _around(size, REACH) for name, size in sizes.items() if size is not None}
