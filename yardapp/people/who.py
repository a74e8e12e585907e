"""The person who acts, from which device, and how far their role reaches."""

from dataclasses import dataclass
from typing import Literal

from yardapp.errors import NotAllowed

REACH = {
    "office": frozenset({"see", "record", "change", "people", "propose"}),
    "hand": frozenset({"see", "record", "change", "propose"}),
    "owner": frozenset({"propose"}),
}
SAID = {
    "see": "Owners see their own boats and what is on them.",
    "record": "Only yard hands and the office record work.",
    "change": "Only yard hands and the office change records.",
    "people": "Only the office looks after people.",
}


@dataclass(frozen=True, kw_only=True)
class Who:
    """One person at one device."""

    person_id: int | None
    name: str
    role: str
    units: Literal["mm", "in"] = "mm"
    device_id: int | None = None
    device: str = "this machine"

    def may(self, what: str) -> bool:
        """Whether this person's role reaches to `what`."""
        return what in REACH[self.role]

    def must(self, what: str) -> None:
        """Raise NotAllowed unless this person's role reaches to `what`."""
        if not self.may(what):
            raise NotAllowed(SAID[what])


TERMINAL = Who(person_id=None, name="the server's terminal", role="office")
