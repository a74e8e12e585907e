"""What can be done about people: one door to accounts, devices and the trail."""

from sqlalchemy.orm import Session

from yardapp.people.services.accounts import (
    PersonRow,
    add_person,
    change_password,
    claim_yard,
    give_role,
    is_claimed,
    make_claim_code,
    make_token,
    people,
    person_by_id,
    person_named,
    reset_password,
    set_pin,
    set_units,
    token_owner,
    tokens_of,
    withdraw_token,
)
from yardapp.people.services.devices import Entered, change_person, enter, known_here, leave, who_is_at
from yardapp.people.services.story import NAMED, person_timeline
from yardapp.people.services.trail import already_answered, answered, audit_of, note, sweep_answers
from yardapp.people.who import TERMINAL, Who

__all__ = [
    "NAMED",
    "TERMINAL",
    "Entered",
    "PersonRow",
    "Session",
    "Who",
    "add_person",
    "already_answered",
    "answered",
    "audit_of",
    "change_password",
    "change_person",
    "claim_yard",
    "enter",
    "give_role",
    "is_claimed",
    "known_here",
    "leave",
    "make_claim_code",
    "make_token",
    "note",
    "people",
    "person_by_id",
    "person_named",
    "person_timeline",
    "reset_password",
    "set_pin",
    "set_units",
    "sweep_answers",
    "token_owner",
    "tokens_of",
    "who_is_at",
    "withdraw_token",
]
