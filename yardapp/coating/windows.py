"""When the next coat may go on one blade, over every reading since the last one: the strictest of them holds."""

from dataclasses import dataclass

from yardapp.coating.acts import TACKY, TOO_DRY, WET
from yardapp.coating.system import Step, Window
from yardapp.coating.timing import span_said, window_s
from yardapp.errors import OutsideRange

UNREAD = "Nobody has read the metal since that coat began: measure it, or its window can't be told."


@dataclass(frozen=True, kw_only=True)
class Finger:
    """What the gloved finger said, and when."""

    kind: str
    at_s: float


@dataclass(frozen=True, kw_only=True)
class Opening:
    """A window in time. `opens_s` None: only the finger can open it; `why`: it can't be told, and why not.

    `test_s`: from when the finger may try; None where no touch test decides.
    """

    opens_s: float | None = None
    shuts_s: float | None = None
    test_s: float | None = None
    why: str = ""


@dataclass(frozen=True, kw_only=True)
class Strict:
    """The longest wait and the shortest latest that any reading since the coat asks for."""

    earliest_s: float = 0.0
    latest_s: float | None = None
    is_read: bool = False
    off_sheet: str = ""
    lowest_c: float | None = None
    highest_c: float | None = None

    def seen(self, step: Step, metal_c: float) -> "Strict":
        """The same after one more reading of the metal."""
        low = metal_c if self.lowest_c is None else min(self.lowest_c, metal_c)
        high = metal_c if self.highest_c is None else max(self.highest_c, metal_c)
        try:
            times = window_s(step, metal_c)
        except OutsideRange:
            rows = step.window.rows if step.window else ()
            said = f"The metal was at {metal_c:.1f} °C; {span_said(rows)}. Ask the supplier."
            return Strict(
                earliest_s=self.earliest_s,
                latest_s=self.latest_s,
                is_read=True,
                off_sheet=self.off_sheet or said,
                lowest_c=low,
                highest_c=high,
            )
        latest = [one for one in (self.latest_s, times.latest_s if times else None) if one is not None]
        return Strict(
            earliest_s=max(self.earliest_s, times.earliest_s if times else 0.0),
            latest_s=min(latest, default=None),
            is_read=True,
            off_sheet=self.off_sheet,
            lowest_c=low,
            highest_c=high,
        )


def opening(
    window: Window | None, strict: Strict, started_s: float, done_s: float, finger: Finger | None, again_s: float
) -> Opening:
    """When the next step may start, as far as the readings and the finger tell.

    It opens after the last stroke and shuts after the first, so that no spot is younger or older than the sheet allows.
    """
    if window is None:
        return Opening()
    why = ""
    if window.rows and not strict.is_read:
        why = UNREAD
    elif strict.off_sheet:
        why = strict.off_sheet
    ready_s = done_s + strict.earliest_s
    shuts_s = None if strict.latest_s is None else started_s + strict.latest_s
    if not window.by_touch:
        return Opening(opens_s=ready_s, shuts_s=shuts_s, why=why)
    if finger is not None and finger.kind == TOO_DRY:
        return Opening(shuts_s=finger.at_s if shuts_s is None else min(finger.at_s, shuts_s), test_s=ready_s, why=why)
    if finger is not None and finger.kind == WET:
        return Opening(shuts_s=shuts_s, test_s=max(ready_s, finger.at_s + again_s), why=why)
    tacky_s = finger.at_s if finger is not None and finger.kind == TACKY else None
    opens_s = None if tacky_s is None else max(ready_s, tacky_s)
    return Opening(opens_s=opens_s, shuts_s=shuts_s, test_s=ready_s, why=why)
