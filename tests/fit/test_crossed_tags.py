"""A verdict that was kept while two tags hung crossed is marked as possibly the other's."""

from tests.factories.people import make_person, make_who
from tests.factories.vessels import make_drive
from tests.fit.test_stock import SHAFT, good_propeller
from yardapp.db import now, transaction
from yardapp.fit import services
from yardapp.gear import services as gear
from yardapp.gear.crossed import Seen


def test_a_verdict_of_crossed_tags_says_whose_it_may_be_and_a_later_one_does_not(client, fetch):
    with transaction() as session:
        who, drive = make_who(session), make_drive(session, **SHAFT).id
        first, second = good_propeller(session), good_propeller(session, hand="left")
        began, finn = now(), make_person(session, name="Finn Marsh", role="hand").id
        between = services.keep_verdict(session, who, first.tag, drive).id
        looks = {"seen": Seen(hand="left"), "seen_at_other": Seen(hand="right")}
        gear.swap_tags(session, who, first.tag, second.tag, second_id=finn, since=began, **looks)
        after = services.keep_verdict(session, who, first.tag, drive).id
        tag, other = first.tag, second.tag

    assert f"This verdict is possibly {other}’s" in fetch(f"/fit/kept/{between}")
    assert "possibly" not in fetch(f"/fit/kept/{after}")
    assert fetch(f"/fit/{tag}/kept").count(f"possibly {other}’s") == 1
