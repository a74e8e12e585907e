"""Which copies are kept: one a night, 7 daily, 8 weekly, 24 monthly; and when the next is due."""

import shutil
import threading
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path

from yardapp.backups.copies import Copy, copies_in, make_copy
from yardapp.config import Settings

DAILY, WEEKLY, MONTHLY = 7, 8, 24
HOUR = 2  # local time: nobody lifts a boat then
LOOK_AGAIN_S = 300.0


def is_due(copies: list[Copy], now: datetime) -> bool:
    """Whether the last two o'clock in the morning has passed without a copy."""
    local = now.astimezone()
    night = local.replace(hour=HOUR, minute=0, second=0, microsecond=0)
    if local < night:
        night -= timedelta(days=1)
    return not copies or copies[0].made < night


def kept(copies: list[Copy]) -> set[str]:
    """The names to keep: the newest of each of the last 7 days, 8 weeks and 24 months that have one, and the newest."""
    names: set[str] = {copies[0].name} if copies else set()
    for count, period in ((DAILY, "%Y-%m-%d"), (WEEKLY, "%G-%V"), (MONTHLY, "%Y-%m")):
        newest: dict[str, str] = {}
        for copy in copies:  # newest first
            newest.setdefault(copy.made.strftime(period), copy.name)
        names |= set(list(newest.values())[:count])
    return names


def thin_out(home: Path) -> list[str]:
    """Drop the copies that the rule does not keep, and say which. Photos stay: they are evidence."""
    copies = copies_in(home)
    gone = [copy for copy in copies if copy.name not in kept(copies)]
    for copy in gone:
        shutil.rmtree(copy.folder)
    return [copy.name for copy in gone]


def keep_copies(settings: Settings, *, now: datetime | None = None) -> Copy | None:
    """Make tonight's copy if it is due, and thin out the old ones; None when it was not due."""
    now = now or datetime.now(UTC)
    if not is_due(copies_in(settings.backups), now):
        return None
    made = make_copy(settings, settings.backups, at=now)
    thin_out(settings.backups)
    return made


def nightly(settings: Settings, tell: Callable[[str], None]) -> threading.Event:
    """Keep copies in the background until the event that comes back is set; a failure is told, and tried again."""
    stop = threading.Event()

    def watch() -> None:
        while not stop.is_set():
            try:
                made = keep_copies(settings)
            except Exception as fault:  # whatever it was, the yard must go on being served, and the next try be made
                tell(f"The nightly copy failed: {fault}")
            else:
                if made is not None:
                    tell(f"Copied the register: {made.name}.")
            stop.wait(LOOK_AGAIN_S)

    threading.Thread(target=watch, name="copies", daemon=True).start()
    return stop
