"""The invented people. Their passwords are printed at every start: nothing here is worth guarding."""

from dataclasses import dataclass

from sqlalchemy.orm import Session

from yardapp.people import services as people
from yardapp.people.services import TERMINAL, Who

EXAMPLE_YARD = "Nowhere Creek (invented)"


@dataclass(frozen=True)
class ExamplePerson:
    """Somebody who never was."""

    name: str
    role: str
    password: str
    pin: str
    units: str = "mm"


EXAMPLE_PEOPLE = (
    ExamplePerson("Ada Brook", "office", "bucket lemon anchor", "2468"),
    ExamplePerson("Finn Marsh", "hand", "rope kettle walnut", "1357", "in"),
    ExamplePerson("R. Thorne", "owner", "teapot ladder moss", "8642"),
)
OTHERS = (
    ExamplePerson("Ivy Plank", "hand", "cork wheel thistle", "9753"),
    ExamplePerson("Tam Puddle", "hand", "spoon harbour flint", "7531", "in"),
)


def hire(session: Session) -> dict[str, Who]:
    """Let everybody in; each by first name (of the owner, the family name)."""
    crew = {}
    for person in (*EXAMPLE_PEOPLE, *OTHERS):
        person_id = people.add_person(
            session, TERMINAL, name=person.name, role=person.role, password=person.password, units=person.units
        )
        who = Who(person_id=person_id, name=person.name, role=person.role, device="the example")
        people.set_pin(session, who, person.pin)
        crew[person.name.split()[-1 if person.role == "owner" else 0]] = who
    return crew


def say_goodbye(session: Session, crew: dict[str, Who]) -> None:
    """Tam has left; what Tam wrote keeps the name."""
    gone = crew["Tam"]
    people.give_role(session, crew["Ada"], gone.person_id or 0, gone.role, is_here=False)
