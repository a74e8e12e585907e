"""Boats that are about to go in: one ready, one held back, one afloat since this morning with more to look at."""

from datetime import datetime, timedelta

from yardapp.db import now
from yardapp.example.yard import Yard
from yardapp.relaunch import services as relaunch
from yardapp.relaunch.services import Answer, FaultSaid, LineNow

READY, HELD, AFLOAT = "Humble Cannon", "Custard Pilot", "Sunday Wheelbarrow"
GOES_BY = {
    "verdict": "Fitted dry, went to its mark; she has run on it for years.",
    "pair": "Both held against the same template.",
    "mark": "At the mark of the dry fit.",
    "lock": "Split pin new, both ends bent.",
    "anode": "New this week, bright under it.",
    "coating": "Not coated this year: polished bright.",
    "fittings": "Walked round with the list.",
    "bearing": "Lifted by hand: no more than last year.",
    "shaft": "Turned by hand beside a stick: runs true.",
}
FIGURES = {"contact": (0.8, "80 %"), "torque": (240.0, "240 N m"), "gap": (0.009, "9 mm"), "bonding": (0.3, "0.3 ohm")}
FACES = (0.00005, "0.05 mm")


def policies_are_settled(yard: Yard) -> None:
    """What this yard goes by."""
    ada = yard.who("Ada")
    relaunch.set_policy(yard.session, ada, "nut order", "thin nut first", "As the shop marks its nuts.")
    relaunch.set_policy(yard.session, ada, "bearing wear", "6 % limit", "Until the class says otherwise.")


def boats_are_to_go_in(yard: Yard) -> None:
    """Three boats of the board."""
    _one_is_ready(yard)
    _one_is_held_back(yard)
    _one_is_afloat(yard)


def _planned(days: int, hour: int) -> datetime:
    """That hour of the yard's own clock, so many days from today."""
    there = now().astimezone() + timedelta(days=days)
    return there.replace(hour=hour, minute=0, second=0, microsecond=0)


def _begun(yard: Yard, boat: str, planned: datetime) -> int:
    return relaunch.plan_launch(yard.session, yard.who("Ada"), yard.vessels[boat], planned).id


def _one_is_ready(yard: Yard) -> None:
    """Nothing is in the way; the office has only to let her go."""
    launch_id = _begun(yard, READY, _planned(2, 10))
    _settle(yard, launch_id, "to launch")


def _one_is_held_back(yard: Yard) -> None:
    """A crack in one of a pair, and half the lines still open; the walk round has been given to somebody."""
    starboard = yard.aboard(f"{HELD}, starboard")
    crack = FaultSaid(
        severity="stop",
        what="Crack at the root of blade 3",
        tag=starboard,
        evidence="Dye shows 14 mm on the face.",
        found="haul-out",
        decides="Nowhere Harbour",
    )
    relaunch.raise_fault(yard.session, yard.who("Finn"), crack)
    stain = FaultSaid(
        severity="watch", what="Weeps at the rudder stock", vessel_id=yard.vessels[HELD], found="haul-out"
    )
    relaunch.raise_fault(yard.session, yard.who("Ivy"), stain)
    launch_id = _begun(yard, HELD, _planned(5, 14))
    _settle(yard, launch_id, "to launch", but=("lock", "torque", "fittings", "anode"))
    relaunch.give_line(yard.session, yard.who("Ada"), launch_id, line="fittings", drive_id=None, name="Ivy Plank")


def _one_is_afloat(yard: Yard) -> None:
    """All three releases are given; gland, coupling, nuts and first trial are due."""
    launch_id = _begun(yard, AFLOAT, _planned(0, 9))
    for release in relaunch.RELEASES:
        _settle(yard, launch_id, release)
        relaunch.release(yard.session, yard.who("Ada"), launch_id, release)


def _settle(yard: Yard, launch_id: int, release: str, but: tuple[str, ...] = ()) -> None:
    """Finn answers what is in the way, Ivy looks where a second person must."""
    sheet = relaunch.launch_sheet(yard.session, yard.who("Finn"), launch_id)
    tags = {drive.id: (drive.tag, drive.hand or "right") for drive in sheet.drives}
    for one in sheet.in_the_way(release):
        if one.line.by == "faults" or one.line.key in but:
            continue
        _answer(yard, launch_id, one, tags)
        if one.line.signs > 1:
            said = Answer(line=one.line.key, drive_id=one.place.drive_id, answer="yes")
            relaunch.answer_line(yard.session, yard.who("Ivy"), launch_id, said)


def _answer(yard: Yard, launch_id: int, one: LineNow, tags: dict[int, tuple[str, str]]) -> None:
    finn, key, drive_id = yard.who("Finn"), one.line.key, one.place.drive_id
    if one.line.by == "scan" and drive_id is not None:
        tag, hand = tags[drive_id]
        relaunch.scan_tag(yard.session, finn, launch_id, line=key, drive_id=drive_id, tag=tag, hand=hand)
        return
    figure, typed = FIGURES.get(key, FACES) if one.line.by == "figure" else (None, "")
    said = Answer(
        line=key,
        drive_id=drive_id,
        answer="yes",
        figure=figure,
        figure_typed=typed,
        note="" if typed else GOES_BY.get(key, ""),
    )
    relaunch.answer_line(yard.session, finn, launch_id, said)
