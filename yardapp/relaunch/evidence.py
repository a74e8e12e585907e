"""What scans, sheets, verdicts, coating and faults say about a line: yes, no, or that they cannot tell. No database."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from yardapp.relaunch.lines import SHEETS, Line
from yardapp.relaunch.settling import ASK, NO, YES, Act, Found, Place


@dataclass(frozen=True, kw_only=True)
class PartOn:
    """A nut, key, anode or other tagged part on a drive."""

    kind: str
    tag: str


@dataclass(frozen=True, kw_only=True)
class DriveNow:
    """One drive of the boat with the propeller and the other tagged things that the register has on it."""

    id: int
    label: str
    hand: str | None
    tag: str = ""
    propeller_hand: str | None = None
    parts: tuple[PartOn, ...] = ()

    @property
    def place(self) -> Place:
        """The drive as lines are asked of it."""
        return Place(drive_id=self.id, label=self.label)


# Which tagged part each line speaks of.
PART_OF = {
    "key": "key",
    "nuts": "nut",
    "torque": "nut",
    "lock": "lock",
    "cutter": "cutter",
    "anode": "anode",
    "gland": "gland",
    "coupling": "coupling",
    "bracket": "bracket",
    "bearing": "bearing",
}


def scan_says(line: Line, drive: DriveNow, scan: Act, elsewhere: Mapping[str, str]) -> Found | None:
    """Why a scan can't stand: another propeller than the register's, or the wrong hand; None where nothing is wrong.

    `elsewhere` says of each tag where the register has that propeller.
    """
    wrong = _wrong_tag(drive, scan, elsewhere) or _wrong_hand(drive, scan)
    if not wrong:
        return None
    verdict = ASK if wrong.startswith("Cannot tell") else NO
    return Found(line=line.key, drive_id=drive.id, verdict=verdict, said=wrong, at=scan.at, room="scan", ref=scan.tag)


def _wrong_tag(drive: DriveNow, scan: Act, elsewhere: Mapping[str, str]) -> str:
    if scan.tag == drive.tag:
        return ""
    there = elsewhere.get(scan.tag, "")
    has = f"the register has {drive.tag} there" if drive.tag else "the register has nothing there"
    said = f"{scan.tag} was scanned on this shaft; {has}."
    if there:
        said += f" {scan.tag} belongs on {there}: the two may be swapped, or their tags. Look at the other one too."
    return said


def _wrong_hand(drive: DriveNow, scan: Act) -> str:
    if drive.hand and scan.hand != drive.hand:
        return f"A {scan.hand}-hand propeller was seen; this shaft wants {drive.hand} hand."
    if drive.propeller_hand and scan.hand != drive.propeller_hand:
        return f"A {scan.hand}-hand propeller was seen; the register has {drive.tag} as {drive.propeller_hand} hand."
    return "" if drive.hand else "Cannot tell: nobody has entered which hand this shaft wants."


def sheet_says(line: Line, drive_id: int, sheet: Any, tag: str, bearing_policy: str) -> Found:
    """What a bench sheet says: a bearing against the yard's own limit; of the rest, that it was read."""
    name, verdict = f"{SHEETS[line.sheet]} of {tag}, sheet {sheet.id}", YES
    if line.sheet == "bearing":
        verdict, said = _bearing(sheet.results, bearing_policy)
        name = f"{name}: {said}"
    return Found(
        line=line.key,
        drive_id=drive_id,
        verdict=verdict,
        said=name,
        by=sheet.said_by,
        at=sheet.at,
        room="sheet",
        ref=str(sheet.id),
    )


def _bearing(results: Mapping[str, Any], policy: str) -> tuple[str, str]:
    """Within the limit that the yard goes by, beyond it, or too near to tell."""
    rows = results.get("more", {}).get("policies", ())
    row = next((one for one in rows if one["policy"] == policy), None)
    if row is None:
        verdicts = {one["verdict"] for one in rows}
        if len(verdicts) == 1:
            return verdicts.pop(), "all the rival limits say the same"
        return ASK, "the rival limits differ, and the yard has not settled which one it goes by"
    words = {YES: "within", NO: "beyond", ASK: "too near to tell to"}[row["verdict"]]
    return row["verdict"], f"{words} the yard's limit, {policy}"


def verdict_says(line: Line, drive_id: int, kept: Any) -> Found:
    """What a kept verdict says: only one that still holds, and that says "goes on", settles anything."""
    verdict = {"goes on": YES, "does not go on": NO}.get(kept.kept.verdict, ASK)
    said = f"{kept.kept.tag}: {kept.kept.verdict}"
    if not kept.holds:
        verdict = ASK
        changed = ", ".join(premise.label for premise in kept.changed[:3])
        said = f"The verdict of {kept.kept.tag} no longer holds: {changed} changed since. Judge again"
    return Found(
        line=line.key,
        drive_id=drive_id,
        verdict=verdict,
        said=said,
        by=kept.kept.said_by,
        at=kept.kept.at,
        room="verdict",
        ref=str(kept.kept.id),
    )


def pair_says(line: Line, tags: Sequence[str], verdict: Any) -> Found:
    """Whether two propellers are a pair, in the judge's words."""
    word = {"goes on": YES, "does not go on": NO}.get(verdict.verdict, ASK)
    said = f"{' and '.join(tags)}: {verdict.lede}"
    return Found(line=line.key, drive_id=None, verdict=word, said=said, room="pair", ref=" ".join(tags))


def coating_says(line: Line, drive_id: int, told: Any, at: datetime) -> Found:
    """What a coating job says about a launch at that moment."""
    verdict, said = _coating(told, at)
    return Found(line=line.key, drive_id=drive_id, verdict=verdict, said=said, room="coating", ref=str(told.job_id))


def _coating(told: Any, at: datetime) -> tuple[str, str]:
    name = f"{told.label}, {told.title}"
    if told.is_cured is False:
        return NO, f"{name}: {_short_of(told, at)}"
    if told.windows_met is False:
        return NO, f"{name}: a window was missed. {' '.join(told.missed)}".strip()
    if told.is_cured is None or told.windows_met is None:
        return ASK, f"{name}: cannot tell. {told.why or ' '.join(told.missed)}".strip()
    return YES, f"{name}: cured, every window met"


def _short_of(told: Any, at: datetime) -> str:
    if told.water_from is None or told.finished is None or told.water_from <= at:
        return told.why or "not finished"
    local, then = told.water_from.astimezone(), at.astimezone()
    short = _span(told.water_from - at)
    return f"{short} short of cure at {then:%H:%M}; good for water from {local.day} {local:%b %H:%M}"


def _span(short: timedelta) -> str:
    minutes = max(1, round(short.total_seconds() / 60))
    hours, left = divmod(minutes, 60)
    if not hours:
        return f"{left} min"
    return f"{hours} h {left} min" if left else f"{hours} h"


def faults_say(line: Line, stops: Iterable[Any]) -> Found:
    """Whether a fault stands that stops her."""
    names = [f"{fault.on}: {fault.what}" for fault in stops]
    said = "; ".join(names) if names else "none open"
    return Found(line=line.key, drive_id=None, verdict=NO if names else YES, said=said, room="faults")
