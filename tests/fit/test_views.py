"""The pages of the verdict, on the register."""

import pytest

from tests.factories.gear import make_propeller
from tests.factories.vessels import make_drive, make_vessel
from yardapp.db import transaction
from yardapp.gear import services as gear

HUB = {
    "bore_small_m": (0.0333375, 0.00003),
    "bore_length_m": (0.0762, 0.0003),
    "taper": (0.0625, 0.0005),
    "keyway_width_m": (0.0095, 0.00003),
    "keyway_depth_m": (0.0048, 0.00005),
    "hub_length_m": (0.0762, 0.0003),
    "hub_diameter_m": (0.08, 0.0003),
}
SHAFT = {
    "taper_length_m": 0.07,
    "u_taper_length_m": 0.0005,
    "keyway_width_m": 0.0095,
    "u_keyway_width_m": 0.00003,
    "keyway_depth_m": 0.0048,
    "u_keyway_depth_m": 0.00005,
    "hub_space_m": 0.03,
    "u_hub_space_m": 0.0005,
    "hull_clearance_m": 0.38,
    "u_hull_clearance_m": 0.0025,
}


def pair(hand="right", hub=HUB, **shaft):
    with transaction() as session:
        item = make_propeller(session, hand=hand, **hub)
        kind = gear.Said(what="bore_kind", basis="measured", word="taper")
        gear.add_evidence(session, session_who(session), item, kind)
        drive = make_drive(session, **{**SHAFT, **shaft})
        return item.tag, drive.id


def session_who(session):
    from tests.factories.people import make_who

    return make_who(session)


def test_the_verdict_names_its_checks_with_both_figures_and_their_source(fetch, client):
    tag, drive = pair()

    html = fetch(f"/fit/{tag}/on/{drive}")

    for said in ("Hand", "Taper", "Large end", "Keyway width", "Hub length", "Tip room", "Source:", "1:16"):
        assert said in html
    assert html.count("<svg") >= 2
    assert "/how/taper.set_up" in html


def test_the_wrong_hand_is_refused_and_nothing_else_is_offered(fetch, client):
    tag, drive = pair(hand="left")

    html = fetch(f"/fit/{tag}/on/{drive}")

    assert "<h1" in html
    assert "Does not go on" in html
    assert "Another propeller" in html
    for offer in ("re-bore", "Re-bore", "lap", "bored", "Tip room"):
        assert offer not in html.split("<main")[1].split("Before hands go near")[0]


def test_a_1_16_hub_on_a_1_12_shaft_does_not_go_on(fetch, client):
    tag, drive = pair(taper=1 / 12, taper_typed="1:12")

    html = fetch(f"/fit/{tag}/on/{drive}")

    assert "Does not go on" in html
    assert "large end only" in html


@pytest.mark.parametrize(("height", "start", "said"), [(0.38, "centre", "100.5"), (0.38, "surface", "119.5")])
def test_the_way_to_the_hull_is_counted_from_the_shafts_centre(fetch, client, height, start, said):
    # 380 mm from the centre leaves 380 - 559 / 2 = 100.5 mm at the tips; from the surface, half a shaft (19 mm) more.
    tag, drive = pair(hull_clearance_m=height, hull_clearance_from=start)

    html = fetch(f"/fit/{tag}/on/{drive}")

    assert f"{said}" in html.split("Tip room")[1][:400]


def test_a_missing_reading_is_asked_for_and_never_passes(fetch, client):
    tag, drive = pair(hull_clearance_m=None)

    html = fetch(f"/fit/{tag}/on/{drive}")

    assert "Cannot tell" in html
    assert "shaft centre" in html or "shaft&#39;s centre" in html


def test_the_rule_for_the_tips_is_chosen_on_the_page(fetch, client):
    tag, drive = pair(hull_clearance_m=0.35)  # 70.5 mm: 12.6 % of 559 mm

    strict = fetch(f"/fit/{tag}/on/{drive}?rule=15+%25")
    loose = fetch(f"/fit/{tag}/on/{drive}?rule=10+%25")

    assert "Goes on after work" in strict
    assert "Goes on after work" not in loose
    assert client.get(f"/fit/{tag}/on/{drive}?rule=nonsense").status_code == 200


def test_the_drive_it_came_off_is_offered_first(fetch, client):
    with transaction() as session:
        who = session_who(session)
        first, second = make_drive(session), make_drive(session, make_vessel(session, name="Sea Otter"))
        item = make_propeller(session)
        gear.move_item(session, who, item.tag, "went on", drive_id=second.id)
        gear.move_item(session, who, item.tag, "came off", place="Rack A")
        tag, numbers = item.tag, (first.id, second.id)

    html = fetch(f"/fit/{tag}")

    assert html.index(f"/fit/{tag}/on/{numbers[1]}") < html.index(f"/fit/{tag}/on/{numbers[0]}")


def test_for_a_drive_propellers_of_its_hand_are_offered_nearest_in_bore_first(fetch, client):
    with transaction() as session:
        far = make_propeller(session, bore_large_m=(0.042, 0.001)).tag
        near = make_propeller(session, bore_large_m=(0.038, 0.001)).tag
        wrong = make_propeller(session, hand="left").tag
        drive = make_drive(session).id

    html = fetch(f"/fit/on/{drive}")

    assert html.index(near) < html.index(far)
    assert wrong not in html
    assert client.get(f"/fit/on/{drive}?tag={near.lower()}").headers["Location"] == f"/fit/{near}/on/{drive}"


@pytest.mark.parametrize("address", ["/fit/P-9999", "/fit/P-9999/on/1", "/fit/P-0001/on/99", "/fit/on/99"])
def test_what_is_not_there_is_not_found(client, address):
    pair()

    assert client.get(address).status_code == 404


def test_a_hand_known_from_the_stamp_alone_is_not_taken_for_seen(fetch, client):
    with transaction() as session:
        who = session_who(session)
        item = gear.log_propeller(session, who, place="Rack A", stamp="22 x 18 RH")
        drive = make_drive(session)
        tag, number = item.tag, drive.id

    html = fetch(f"/fit/{tag}/on/{number}")

    assert "Cannot tell" in html


def test_what_nobody_gave_a_figure_for_is_said_not_to_be_judged_and_how_it_would_be(fetch, client):
    tag, drive = pair()

    html = fetch(f"/fit/{tag}/on/{drive}")

    open_part = html.split("Not judged yet")[1]
    for part in ("On the engine", "Blades", "Condition", "The shaft itself"):
        assert f"<b>{part}</b>: cannot tell" in open_part
    assert "Hand and room at the tips" not in open_part
    assert "What would settle it" in open_part
