"""What was kept while two tags hung crossed says through the second door, too, whose it may be."""

from tests.bench.test_crossed_tags import make_crossed
from tests.factories.people import make_person, make_who
from tests.factories.vessels import make_drive
from tests.fit.test_stock import SHAFT, good_propeller
from yardapp import db
from yardapp.db import now
from yardapp.fit import services as fit
from yardapp.gear import services as gear
from yardapp.gear.crossed import Seen


def test_a_sheet_of_crossed_tags_names_the_thing_that_was_perhaps_read(ada):
    with db.transaction() as session:
        _first, second, between, after = make_crossed(session)
        other = second.tag

    assert ada.get(f"/sheets/{between[0]}").get_json()["perhaps_of"] == other
    assert ada.get(f"/sheets/{after}").get_json()["perhaps_of"] is None


def test_a_verdict_of_crossed_tags_names_the_thing_that_was_perhaps_judged(ada):
    with db.transaction() as session:
        who, drive = make_who(session), make_drive(session, **SHAFT).id
        first, second = good_propeller(session), good_propeller(session, hand="left")
        began, finn = now(), make_person(session, name="Finn Marsh", role="hand").id
        kept = fit.keep_verdict(session, who, first.tag, drive).id
        looks = {"seen": Seen(hand="left"), "seen_at_other": Seen(hand="right")}
        gear.swap_tags(session, who, first.tag, second.tag, second_id=finn, since=began, **looks)
        other = second.tag

    assert ada.get(f"/fit/kept/{kept}").get_json()["perhaps_of"] == other
