"""Who may do what in this room."""

from yardapp.errors import NotAllowed
from yardapp.people.services import Who


def must_be_office(who: Who, does: str) -> None:
    """Raise NotAllowed unless this person is of the office: `must_be_office(who, "releases a boat")`."""
    if not who.may("people"):
        raise NotAllowed(f"Only the office {does}.")
