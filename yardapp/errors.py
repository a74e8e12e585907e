"""Every "no" that a person may hear. No HTTP here: `web.py` maps them."""

from collections.abc import Mapping

from yardapp.formulas.ranges import OutsideRange


class YardError(Exception):
    """A "no" with a sentence for the person."""


class NotFound(YardError):
    """Nothing carries that name, tag or number."""


class NotAllowed(YardError):
    """This person's role does not reach so far."""


class Superseded(YardError):
    """Somebody saved the same record first; `theirs` is what stands there now."""

    def __init__(self, version: int, theirs: Mapping[str, str], by: str) -> None:
        super().__init__(f"{by} saved this record while you were writing.")
        self.version = version
        self.theirs = theirs
        self.by = by


class Refused(YardError):
    """What was typed can't stand; `argument` is the box that must change."""

    def __init__(self, said: str, argument: str = "") -> None:
        super().__init__(said)
        self.said = said
        self.argument = argument


REFUSALS = (Refused, OutsideRange)

__all__ = ["REFUSALS", "NotAllowed", "NotFound", "OutsideRange", "Refused", "Superseded", "YardError"]
