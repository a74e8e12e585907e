"""However people write moves down, in any order and however late: one place a thing, one propeller a line."""

import random
from datetime import timedelta

import pytest
from sqlalchemy import select

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from tests.factories.vessels import make_drive, make_vessel
from yardapp.db import now, transaction
from yardapp.errors import Refused
from yardapp.gear import services as gear
from yardapp.gear.models import Event, Item
from yardapp.gear.services.settling import settle
from yardapp.gear.whereabouts import MOVES

ENDS = {kind for kind, (to, _froms) in MOVES.items() if to != "aboard"}
DAYS = 60


def replayed(lines):
    """Each line that stands with the drive it leaves its item on, told once more, and otherwise than the app does."""
    undone = {line.undoes_id for line in lines}
    told = []
    for item_id in {line.item_id for line in lines}:
        mine = sorted((line for line in lines if line.item_id == item_id), key=lambda line: line.id)
        first = mine[0]
        stands = [line for line in mine[1:] if line.id not in undone and line.kind in MOVES]
        for line in [first, *sorted(stands, key=lambda line: (line.at, line.id))]:
            told.append((line, line.drive_id if line.kind == "went on" else None))
    return told


def crowded(lines, drives):
    """Drives on which two things were at one moment."""
    spells = {drive: [] for drive in drives}
    told = replayed(lines)
    for item_id in {line.item_id for line, _drive in told}:
        mine = [(line.at, drive) for line, drive in told if line.item_id == item_id]
        for place, (at, drive) in enumerate(mine):
            if drive is not None:
                spells[drive].append((at, mine[place + 1][0] if place + 1 < len(mine) else now() + timedelta(days=1)))
    return [
        drive
        for drive, on in spells.items()
        for one in range(len(on))
        for other in range(one)
        if max(on[one][0], on[other][0]) < min(on[one][1], on[other][1])
    ]


def any_move(session, who, dice, items, drives):
    """Something that somebody may write down, right or wrong."""
    if dice.random() < 0.2:
        event = dice.choice(session.scalars(select(Event)).all())
        gear.undo_move(session, who, event.id, why="by the dice")
        return
    kind = dice.choice(list(MOVES))
    gear.move_item(
        session,
        who,
        dice.choice(items).tag,
        kind,
        place=dice.choice(["Rack A", "Rack B", "a shop"]),
        drive_id=dice.choice(drives) if kind == "went on" else None,
        at=now() - timedelta(days=dice.randrange(1, DAYS)) if dice.random() < 0.5 else None,
    )


@pytest.mark.parametrize("seed", range(12))
def test_no_order_of_moves_and_undoings_puts_one_thing_in_two_places_or_two_on_one_line(register, seed):
    dice, kept = random.Random(seed), 0
    with transaction() as session:
        who = make_who(session)
        items = [make_propeller(session) for _ in range(3)]
        drives = [make_drive(session, make_vessel(session, name=name)).id for name in ("Kittiwake", "Sea Otter")]
        for _ in range(40):
            try:
                with session.begin_nested():
                    any_move(session, who, dice, items, drives)
            except Refused:
                continue
            kept += 1
            lines = session.scalars(select(Event)).all()
            assert crowded(lines, drives) == []
            last = {line.item_id: drive for line, drive in replayed(lines)}
            assert {item.id: item.aboard_id for item in session.scalars(select(Item))} == last
        before = [(item.standing, item.aboard_id, item.place, item.came_off_id) for item in items]
        settle(session, items)

        assert [(item.standing, item.aboard_id, item.place, item.came_off_id) for item in items] == before
    assert kept >= 5
