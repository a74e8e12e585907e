"""Try a size: typed figures are judged, nothing is saved, and one tap logs what was typed."""

import pytest
from sqlalchemy import func, select

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from tests.factories.vessels import make_drive
from yardapp.db import snapshot, transaction
from yardapp.errors import Refused
from yardapp.fit import services
from yardapp.gear.models import Event, Evidence, Item
from yardapp.people.models import Audit

# tests/fit/pairings.py, the good pair, as somebody with a calliper types it.
HUB = {
    "hand": "right",
    "diameter_m": "560 mm",
    "pitch_m": "400 mm",
    "blades": "3",
    "bore_kind": "taper",
    "bore_large_m": "38 mm",
    "bore_small_m": "30.856 mm",
    "bore_length_m": "114.3 mm",
    "keyway_width_m": "9.53 mm",
    "keyway_depth_m": "4.85 mm",
    "hub_length_m": "114.3 mm",
    "hub_diameter_m": "76 mm",
    "way": "caliper",
}
SHAFT = {
    "shaft_hand": "right",
    "shaft_diameter_m": "38.1 mm",
    "shaft_taper": "1:16",
    "taper_length_m": "107.95 mm",
    "shaft_keyway_width_m": "9.51 mm",
    "shaft_keyway_depth_m": "4.85 mm",
    "hub_space_m": "20 mm",
    "hull_clearance_m": "375 mm",
    "shaft_way": "caliper",
    "rule": "15 %",
}


def rows_kept():
    with snapshot() as session:
        return [session.scalar(select(func.count()).select_from(table)) for table in (Item, Evidence, Event, Audit)]


def test_a_pair_that_fits_goes_on_and_nothing_is_saved(client):
    before = rows_kept()

    answer = client.send("/fit/try", **HUB, **SHAFT)

    assert answer.status_code == 200
    # tests/fit/pairings.py: the good pair goes on; its tip room of 17 % is too near 15 % for a tape of ± 5 mm.
    assert "<b>Taper</b>: goes on" in answer.text
    assert "<b>Large end</b>: goes on" in answer.text
    assert "<b>Keyway width</b>: goes on" in answer.text
    assert rows_kept() == before


def test_the_wrong_hand_is_refused(client):
    html = client.send("/fit/try", **{**HUB, "hand": "left"}, **SHAFT).text

    assert "Does not go on" in html
    assert "Another propeller" in html


def test_what_is_not_typed_is_asked_for_and_never_passes(client):
    html = client.send("/fit/try", hand="right", way="caliper", shaft_way="caliper", rule="15 %").text

    assert "Cannot tell" in html
    assert "To settle it" in html


def test_what_somebody_was_only_told_settles_nothing(client):
    html = client.send("/fit/try", **{**HUB, "way": "told"}, **SHAFT).text

    assert "Cannot tell" in html
    assert "only guessed" in html


def test_a_stamp_gives_the_sizes_that_nobody_measured_but_its_hand_was_not_seen(client):
    typed = {**HUB, "diameter_m": "", "hand": "", "stamp": "22 x 18 RH"}

    html = client.send("/fit/try", **typed, **SHAFT).text

    # 22 in are 558.8 mm: half of that under 375 mm leaves 95.6 mm.
    assert "95.6" in html
    assert "stamped right hand, but nobody has looked" in html


def test_a_boat_of_the_register_lends_its_shaft(client):
    with transaction() as session:
        drive = make_drive(session)

    html = client.send("/fit/try", **HUB, drive_id=str(drive.id), shaft_way="caliper", rule="15 %").text

    assert "Kittiwake, centre" in html
    assert "<b>Taper</b>: goes on" in html


def test_a_shaft_is_chosen_or_typed_not_both(client):
    with transaction() as session:
        drive = make_drive(session)

    answer = client.send("/fit/try", **HUB, **SHAFT, drive_id=str(drive.id))

    assert answer.status_code == 422
    assert "not both" in answer.text


def test_a_tag_and_a_boat_of_the_register_lead_to_their_own_verdict(client):
    with transaction() as session:
        tag, drive = make_propeller(session).tag, make_drive(session).id

    answer = client.send(
        "/fit/try", tag=tag.lower(), drive_id=str(drive), way="caliper", shaft_way="caliper", rule="10 %"
    )

    assert (answer.status_code, answer.headers["Location"]) == (303, f"/fit/{tag}/on/{drive}?rule=10+%25")


def test_a_tag_that_nothing_carries_is_told_beside_its_box(client):
    answer = client.send("/fit/try", tag="P-9999", **SHAFT, way="caliper")

    assert answer.status_code == 422
    assert 'id="tag-said"' in answer.text


def test_an_unreadable_size_is_told_beside_its_box_and_the_rest_stays(client):
    answer = client.send("/fit/try", **{**HUB, "bore_large_m": "38..1"}, **SHAFT)

    assert answer.status_code == 422
    assert 'id="bore_large_m-said"' in answer.text
    assert 'value="30.856 mm"' in answer.text


def test_the_page_comes_prefilled_for_a_drive(fetch):
    with transaction() as session:
        drive = make_drive(session)

    html = fetch(f"/fit/try?drive={drive.id}")

    assert f'<option selected value="{drive.id}"' in html


def test_one_tap_makes_a_logged_propeller_of_it_with_every_box_as_evidence(client):
    answer = client.send("/fit/try/log", **HUB, **SHAFT, stamp="22 x 16 RH", place="Bilge's yard, heap 3")

    assert answer.status_code == 303
    with snapshot() as session:
        item = session.scalars(select(Item)).one()
        assert answer.headers["Location"] == f"/propellers/{item.tag}"
        assert (item.place, item.hand, item.bore_kind, item.blades) == ("Bilge's yard, heap 3", "right", "taper", 3)
        assert (round(item.bore_large_m, 6), item.known["bore_large_m"]) == (0.038, "measured")
        # A calliper's 0.05 mm at k = 2 is half of that at k = 1.
        assert item.u_bore_large_m == pytest.approx(0.000025)
        typed = session.scalars(select(Evidence.typed).where(Evidence.what == "bore_small_m")).one()
        assert typed == "30.856 mm"
        assert item.stamp == "22 x 16 RH"


def test_a_retry_on_a_weak_network_logs_it_once(client):
    for _ in range(2):
        client.send("/fit/try/log", once="the same", **HUB, **SHAFT)

    assert rows_kept()[0] == 1


def test_logged_without_a_place_it_is_seen_and_not_fetched(client):
    client.send("/fit/try/log", **HUB, **SHAFT)

    with snapshot() as session:
        assert session.scalars(select(Item.place)).one() == "Seen, not fetched yet"


def test_what_has_a_tag_is_not_logged_again(register):
    with transaction() as session:
        who, tag = make_who(session), make_propeller(session).tag
        with pytest.raises(Refused, match="tag already"):
            services.log_tried(session, who, services.Tried(said={}, tag=tag))


def test_nothing_typed_is_nothing_to_log(client):
    answer = client.send("/fit/try/log", way="caliper", shaft_way="caliper", rule="15 %")

    assert answer.status_code == 422
    assert rows_kept()[0] == 0


def test_an_owner_s_find_is_a_proposal_and_sees_only_own_boats(client_as):
    with transaction() as session:
        drive = make_drive(session)
    owner = client_as("R. Thorne", "owner")

    assert "Kittiwake" not in owner.get("/fit/try").text
    refused = owner.send("/fit/try", **HUB, drive_id=str(drive.id), shaft_way="caliper", rule="15 %")
    owner.send("/fit/try/log", **HUB, **SHAFT)

    assert refused.status_code == 422
    with snapshot() as session:
        assert session.scalars(select(Item.is_proposed)).one() is True


@pytest.mark.parametrize(("way", "plus_minus_m"), [("caliper", 0.00005), ("tape", 0.001)])
def test_each_way_of_reading_has_its_own_plus_minus(way, plus_minus_m):
    from yardapp.fit.typed import propeller_typed

    # The table of ways, k = 2: common practice, no source.
    figure = propeller_typed({"bore_large_m": 0.038}, way).bore_large_m

    assert 2 * figure.u == pytest.approx(plus_minus_m)


def test_looked_and_no_keyway_is_exact():
    from yardapp.fit.typed import propeller_typed

    assert propeller_typed({"keyway_width_m": 0.0}, "tape").keyway_width_m.u == 0.0
