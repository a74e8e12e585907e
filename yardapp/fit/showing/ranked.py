"""Ranked lists in the words of a page: how many of each verdict, and each row with its work and how long it takes."""

from typing import Any

from yardapp import quantities
from yardapp.fit.effort import in_words
from yardapp.fit.services import RankedDrive, RankedPropeller, StockPair
from yardapp.fit.verdict import AFTER_WORK, BADNESS, CANNOT_TELL, GOES_ON, Verdict
from yardapp.quantities import System

COUNTED = {
    GOES_ON: "go on as they are",
    AFTER_WORK: "go on after work",
    CANNOT_TELL: "can't be told yet",
    "does not go on": "do not go on",
}
PAIR = {
    GOES_ON: "A pair",
    AFTER_WORK: "A pair after work",
    CANNOT_TELL: "Cannot tell",
    "does not go on": "No pair",
}
FAR = 1.5  # beyond 1.6 of its rating an engine is not followed
SUITS = 3  # per cent of the rated speed: 100 rpm in 3 000 are usually accepted


def counted(counts: dict[str, int]) -> str:
    """`3 go on as they are; 12 go on after work`."""
    return "; ".join(f"{counts[word]:,} {COUNTED[word]}" for word in BADNESS if counts[word]).replace(",", " ")


def propeller_row(row: RankedPropeller, system: System, href: str, rated_speed_rps: float | None) -> dict[str, Any]:
    """One propeller of the list; how it loads the engine where that can be told."""
    sizes = [_length(size, system) for size in (row.diameter_m, row.pitch_m)]
    pair = " × ".join(size or "?" for size in sizes) if any(sizes) else ""
    words = (pair, f"{row.blades} blades" if row.blades else "", f"{row.hand} hand" if row.hand else "hand not known")
    return {
        "tag": row.tag,
        "href": href,
        "size": ", ".join(word for word in words if word),
        "where": row.where,
        "load": _load(row.load_ratio, rated_speed_rps),
        "flag": "For sale" if row.is_for_sale else "",
        **_judged(row.verdict),
    }


def drive_row(row: RankedDrive, system: System, href: str) -> dict[str, Any]:
    """One drive of the list, and whose it is."""
    shaft = _length(row.shaft_diameter_m, system)
    taper = quantities.show(row.taper, "taper", system) if row.taper else ""
    words = (f"{shaft} shaft" if shaft else "shaft not measured", taper, f"wants {row.hand} hand" if row.hand else "")
    return {
        "tag": row.drive,
        "href": href,
        "size": ", ".join(word for word in words if word),
        "where": f"Owner: {row.owner}" if row.owner else "",
        "flag": "it came off this one" if row.came_off else "",
        **_judged(row.verdict),
    }


def pair_row(row: StockPair, system: System, href: str) -> dict[str, Any]:
    """One pair of the list."""
    sizes = [_length(size, system) for size in (row.diameter_m, row.pitch_m)]
    return {
        "tag": f"{row.right} and {row.left}",
        "href": href,
        "size": f"{' × '.join(sizes)}, {row.blades} blades, right and left hand",
        "where": "; ".join(dict.fromkeys(row.where)),
        **_judged(row.verdict),
        "verdict_said": PAIR[row.verdict.verdict],
    }


def _load(ratio: float | None, rated_speed_rps: float | None) -> str:
    """`about 2 650 of 2 800 rpm at full throttle: 5 % over-propped`."""
    if ratio is None or rated_speed_rps is None:
        return ""
    if ratio > FAR:
        return "Full throttle would run the engine far past its governor: far under-propped"
    share = round(100 * abs(1 - ratio))
    what = f"{share} % {'over' if ratio < 1 else 'under'}-propped" if share > SUITS else "it suits the engine"
    turns = f"{10 * round(6 * ratio * rated_speed_rps):,}".replace(",", " ")
    rated = f"{10 * round(6 * rated_speed_rps):,}".replace(",", " ")
    return f"About {turns} of {rated} rpm at full throttle: {what}"


def _length(size: float | None, system: System) -> str:
    return "" if size is None else quantities.show(size, "length", system)


def _judged(verdict: Verdict) -> dict[str, Any]:
    return {"verdict": verdict.verdict, "said": _said(verdict), "work": _work(verdict)}


def _said(verdict: Verdict) -> str:
    """Which checks stand in the way; the verdict's own page says why."""
    if verdict.verdict in (GOES_ON, AFTER_WORK):
        return ""
    names = ", ".join(check.name for check in verdict.checks if check.verdict == verdict.verdict)
    return f"Not settled: {names}." if verdict.verdict == CANNOT_TELL else f"Refused by: {names}."


def _work(verdict: Verdict) -> str:
    """`Re-bore: about 3 to 5 hours`; works that are only needed if a reading turns out so are not counted."""
    if verdict.verdict != AFTER_WORK or not verdict.works:
        return ""
    named = ", ".join(verdict.works)
    return f"{named[0].upper()}{named[1:]}: {in_words(verdict.works)}"
