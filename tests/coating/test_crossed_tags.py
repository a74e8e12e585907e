"""A coating that went on while two tags hung crossed is marked as possibly the other's."""

from tests.factories.coating import coat_whole, make_job, stopped_clock
from tests.factories.gear import make_propeller
from tests.factories.people import make_person, make_who
from yardapp.coating import services as coating
from yardapp.db import transaction
from yardapp.gear import services as gear
from yardapp.gear.crossed import Seen


def coat(session, tag, system, clock):
    job = make_job(session, tag=tag, system=system)
    coat_whole(
        session, job, clock, tuple(unit.key for unit in coating.story_of(session, make_who(session), job.id).units)
    )
    clock.later(hours=1)


def test_a_coating_of_crossed_tags_says_whose_it_may_be_and_others_do_not(client, fetch):
    with stopped_clock() as clock, transaction() as session:
        first, second = make_propeller(session), make_propeller(session, hand="left")
        tag, other = first.tag, second.tag
        finn = make_person(session, name="Finn Marsh", role="hand").id
        clock.later(hours=1)
        coat(session, tag, "Before", clock)
        began = clock.at
        clock.later(hours=1)
        coat(session, tag, "Between", clock)
        looks = {"seen": Seen(hand="left"), "seen_at_other": Seen(hand="right")}
        gear.swap_tags(session, make_who(session), tag, other, second_id=finn, since=began, **looks)
        clock.later(hours=1)
        coat(session, tag, "After", clock)
        rows = coating.history_of(session, make_who(session), tag).rows

    marked = [(row.system_name, row.perhaps_of) for row in rows]
    assert marked == [("After", None), ("Between", other), ("Before", None)]
    assert fetch(f"/coating/items/{tag}", queries=4).count(f"possibly {other}’s") == 1
