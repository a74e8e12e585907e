"""The pages of the drives."""

import re

import pytest

from tests.factories.gear import make_propeller
from tests.factories.people import make_person, make_who
from tests.factories.vessels import make_drive, make_vessel
from yardapp.db import transaction
from yardapp.gear import services as gear
from yardapp.vessels import services as vessels

FULL = {
    "position": "centre",
    "hand": "right",
    "engine": "Fulmar 38, three cylinders",
    "rated_power_w": "38 PS",
    "rated_speed_rps": "2800",
    "reduction_ratio": "2.03:1",
    "shaft_diameter_m": "1 1/2 in",
    "plus_minus_shaft_diameter_m": "0.02 mm",
    "taper": "3/4 in per foot",
    "taper_length_m": "90",
    "keyway_width_m": "3/8 in",
    "keyway_depth_m": "4.8",
    "hub_space_m": "45 mm",
    "hull_clearance_m": "1 ft 1 in",
    "hull_clearance_from": "surface",
    "note": "Aligned last spring.",
}
WITHOUT_PLUS_MINUS = ("taper_length_m", "keyway_width_m", "keyway_depth_m", "hub_space_m", "hull_clearance_m")
STARTED = {"version": 1, "hand": "right", "position": "centre", "shaft_diameter_m": "38.1 mm", "taper": "1:16"}


def kept(make, **said):
    with transaction() as session:
        return make(session, **said)


def drive_now(drive_id=1):
    with transaction() as session:
        return vessels.drive_by_id(session, make_who(session), drive_id)[0]


def test_a_drive_is_entered_by_its_position_alone(client, fetch):
    boat = kept(make_vessel)
    fetch(f"/boats/{boat.id}/drives/new")

    answer = client.send(f"/boats/{boat.id}/drives/new", position="port")

    assert answer.status_code == 303
    page = fetch(answer.headers["Location"])
    assert "Kittiwake, port" in page
    assert "hand not known" in page
    assert page.count("not known.") == 11  # engine, three figures of it, seven sizes: each with what would fill it


def test_everything_of_a_drive_is_entered_once_as_it_is_said(client):
    boat = kept(make_vessel)

    answer = client.send(f"/boats/{boat.id}/drives/new", **FULL)

    assert answer.status_code == 303
    drive = drive_now()
    # 1 PS is 75 kgf m/s, that is 735.49875 W; the inch is 25.4 mm.
    assert drive.rated_power_w == pytest.approx(38 * 735.49875)
    assert drive.rated_speed_rps == pytest.approx(2800 / 60)
    assert drive.reduction_ratio == pytest.approx(2.03)
    assert drive.shaft_diameter_m == pytest.approx(1.5 * 0.0254)
    assert drive.u_shaft_diameter_m == pytest.approx(0.00001)
    assert drive.taper == pytest.approx(0.75 / 12)
    assert drive.taper_length_m == pytest.approx(0.090)
    assert drive.hull_clearance_m == pytest.approx(13 * 0.0254)
    assert drive.hull_clearance_from == "surface"
    assert drive.typed["shaft_diameter_m"] == "1 1/2 in"


def test_a_drive_s_page_shows_each_size_in_both_systems_and_where_its_plus_minus_comes_from(client, fetch):
    boat = kept(make_vessel)
    client.send(f"/boats/{boat.id}/drives/new", **FULL)

    page = fetch("/drives/1")
    rows = {
        re.sub(r"<.*", "", label, flags=re.DOTALL).replace("&#39;", "'"): re.sub(r"<[^>]+>", " ", cells)
        for label, cells in re.findall(r'scope="row">(.*?)</th>(.*?)</tr>', page, re.DOTALL)
    }

    assert "38.100 ± 0.020" in rows["Shaft, large end"]
    assert "1.50000 ± 0.00079" in rows["Shaft, large end"]
    assert "“1 1/2 in”, ± as given" in rows["Shaft, large end"]
    assert "usual ±" in rows["Bearing to taper"]
    assert "1:16.00 ± 0.20" in rows["Taper"]
    assert "Shaft to hull, from the shaft's surface" in rows
    # 2800 rpm through 2.03:1 leaves 1379 rpm.
    assert "1379 rpm" in rows["Speed of the shaft"]
    assert "common practice, no source" in page


def test_what_is_on_a_drive_is_drawn_under_the_hull(client, fetch):
    with transaction() as session:
        drive = make_drive(session, hull_clearance_m=0.33)
        item = make_propeller(session, diameter_m=(0.55, 0.001))
        gear.move_item(session, make_who(session), item.tag, "went on", drive_id=drive.id)

    page = fetch(f"/drives/{drive.id}")

    # 330 - 550 / 2 = 55 mm.
    assert re.search(r"Gap at the tips</th><td[^>]*>55 mm", page)
    assert 'href="/how/clearance.tip_clearance"' in page
    assert item.tag in page
    assert f'href="/log?off={drive.id}"' in page
    assert f'/on/{drive.id}"' in page


def test_a_size_that_can_not_be_read_is_told_beside_its_box_and_all_else_stays(client):
    boat = kept(make_vessel)

    answer = client.send(f"/boats/{boat.id}/drives/new", **{**FULL, "keyway_width_m": "3//8"})

    assert answer.status_code == 422
    assert re.search(r'id="keyway_width_m-said">`3//8`', answer.text)
    for name in (
        "engine",
        "rated_power_w",
        "shaft_diameter_m",
        "plus_minus_shaft_diameter_m",
        "taper",
        "hull_clearance_m",
    ):
        assert f'value="{FULL[name]}"' in answer.text
    assert re.search(r'<input checked[^>]*value="surface"', answer.text)
    assert "Aligned last spring." in answer.text


@pytest.mark.parametrize(
    ("boxes", "name", "said"),
    [
        ({"position": "amidships"}, "position", "Not a valid choice"),
        ({"shaft_diameter_m": "38 m"}, "shaft_diameter_m", "too large"),
        ({"rated_power_w": "38 horses"}, "rated_power_w", "is not a"),
        ({"taper": "1:200"}, "taper", "too small"),
        ({"keyway_width_m": "40", "shaft_diameter_m": "38"}, "keyway_width_m", "wider than the shaft"),
        ({"keyway_depth_m": "20", "shaft_diameter_m": "38"}, "keyway_depth_m", "deeper than the shaft"),
        ({"taper": "1:16", "taper_length_m": "700", "shaft_diameter_m": "38"}, "taper_length_m", "come to a point"),
        ({"hull_clearance_m": "35", "shaft_diameter_m": "80"}, "hull_clearance_m", "inside the shaft"),
        ({"plus_minus_hub_space_m": "1"}, "plus_minus_hub_space_m", "± of what?"),
        ({"hub_space_m": "45", "plus_minus_hub_space_m": "50"}, "plus_minus_hub_space_m", "as much as the size"),
        ({"engine": "x" * 81}, "engine", "80"),
    ],
)
def test_what_can_not_be_right_is_told_beside_its_box(client, boxes, name, said):
    boat = kept(make_vessel)

    answer = client.send(f"/boats/{boat.id}/drives/new", **{"position": "centre", **boxes})

    assert answer.status_code == 422
    beside = re.search(rf'id="{name}-said">(.*?)</p>', answer.text, re.DOTALL)
    assert beside is not None
    assert said in beside[1]


def test_a_shaft_without_a_keyway_says_that_somebody_looked(client, fetch):
    boat = kept(make_vessel)
    client.send(f"/boats/{boat.id}/drives/new", position="centre", keyway_width_m="0")

    page = fetch("/drives/1")

    assert "no keyway" in page
    assert drive_now().keyway_width_m == 0


def test_a_second_drive_in_one_position_is_told_beside_the_box(client):
    drive = kept(make_drive)

    answer = client.send(f"/boats/{drive.vessel_id}/drives/new", position="centre")

    assert answer.status_code == 422
    assert 'id="position-said">She has a drive there already' in answer.text


def test_a_retry_enters_a_drive_once(client):
    boat = kept(make_vessel)
    address = f"/boats/{boat.id}/drives/new"

    first = client.send(address, once="one try", position="port")
    again = client.send(address, once="one try", position="port")

    assert first.headers["Location"] == again.headers["Location"]


def test_saving_a_drive_unchanged_changes_nothing(client, fetch):
    boat = kept(make_vessel)
    client.send(f"/boats/{boat.id}/drives/new", **FULL)
    before = drive_now()
    form = fetch("/drives/1/change")
    boxes = [dict(re.findall(r'(\w+)="([^"]*)"', tag)) for tag in re.findall(r"<input[^>]*>", form)]
    boxes = {box["name"]: box["value"] for box in boxes if box.get("type") == "text"}
    chosen = {name: FULL[name] for name in ("hand", "position", "hull_clearance_from", "note")}

    client.send("/drives/1/change", version=1, **{**boxes, **chosen})
    after = drive_now()

    assert len(boxes) >= 18
    assert after.version == 2
    for name in (*vessels.DRIVE_FIGURES, *(f"u_{name}" for name in vessels.DRIVE_FIGURES[3:])):
        assert getattr(after, name) == getattr(before, name), name
    assert after.typed == before.typed
    assert "Before:" not in fetch("/drives/1")


def test_what_stood_before_a_change_is_read_in_the_history(client, fetch):
    kept(make_drive)

    client.send("/drives/1/change", **{**STARTED, "hand": "left", "shaft_diameter_m": "40 mm"})
    page = fetch("/drives/1")

    assert "propeller&#39;s hand right" in page
    assert "shaft, large end 38.1 mm (1 1/2 in)" in page


def test_a_figure_left_empty_is_not_known_again(client, fetch):
    kept(make_drive, hub_space_m=0.045)

    client.send("/drives/1/change", **STARTED)

    assert drive_now().hub_space_m is None
    assert drive_now().u_hub_space_m is None
    assert "bearing to taper 45 mm" in fetch("/drives/1")


def test_two_people_who_save_one_drive_get_both_versions_in_their_own_units(client, client_as):
    kept(make_drive)
    client_as("Finn Marsh", "hand").send("/drives/1/change", **{**STARTED, "shaft_diameter_m": "40 mm", "hand": "left"})
    client.send("/people/me/units", units="in")

    answer = client.send("/drives/1/change", **{**STARTED, "shaft_diameter_m": "1 3/4", "taper": "1:16"})

    assert answer.status_code == 409
    assert "Finn Marsh saved this record" in answer.text
    theirs = re.search(r'name="shaft_diameter_m" value="([^"]*)" checked', answer.text)
    assert theirs is not None
    assert theirs[1] == "40 mm"  # 1.574803… in is no size that anybody typed
    assert 'name="shaft_diameter_m" value="1 3/4"' in answer.text
    assert "Left hand: anticlockwise" in answer.text
    # 1:16 is what both of them say, however it is written.
    assert 'type="radio" name="taper"' not in answer.text
    assert drive_now().shaft_diameter_m == pytest.approx(0.04)


def test_every_box_of_two_versions_can_be_chosen_and_is_kept(client):
    boat = kept(make_vessel)
    address = f"/boats/{boat.id}/drives/new"
    client.send(address, position="centre")
    trusted = {f"plus_minus_{name}": "0.5" for name in (*WITHOUT_PLUS_MINUS, "taper")}
    client.send("/drives/1/change", version=1, **FULL, **trusted)

    answer = client.send("/drives/1/change", version=1, position="port", hand="left", hull_clearance_from="centre")
    theirs = re.findall(r'type="radio" name="([^"]+)" value="([^"]*)" checked', answer.text)
    hidden = re.findall(r'<input type="hidden" name="([^"]+)" value="([^"]*)">', answer.text)
    boxes = {name: value for name, value in [*hidden, *theirs] if name not in ("csrf_token", "once")}
    again = client.send("/drives/1/change", **boxes)

    assert answer.status_code == 409
    assert again.status_code == 303
    drive = drive_now()
    assert drive.version == 3
    assert drive.rated_power_w == pytest.approx(38 * 735.49875)
    assert drive.u_keyway_width_m == pytest.approx(0.00025)
    assert drive.hull_clearance_from == "surface"
    assert drive.position == "centre"


def test_another_engine_asks_for_the_hand_again(client, fetch):
    kept(make_drive, engine="Fulmar 28", rated_power_w=21000.0)
    form = fetch("/drives/1/re-engine")

    answer = client.send("/drives/1/re-engine", version=1, engine="Fulmar 38")

    assert "Fulmar 28" in form
    assert "21 kW" in form
    assert answer.status_code == 422
    assert 'id="hand-said">Another gear may turn the shaft the other way' in answer.text
    assert 'value="Fulmar 38"' in answer.text


def test_another_engine_leaves_the_shaft_and_the_old_engine_in_the_history(client, fetch):
    kept(make_drive, engine="Fulmar 28", rated_power_w=21000.0)

    client.send("/drives/1/re-engine", version=1, engine="Fulmar 38", rated_power_w="28 kW", hand="left")
    page = fetch("/drives/1")

    assert "Re-engined" in page
    assert "engine Fulmar 28" in page
    assert "rated power 21 kW (28.2 hp)" in page
    assert drive_now().shaft_diameter_m == 0.0381


def test_two_people_who_re_engine_one_drive_get_both_versions(client, client_as):
    kept(make_drive)
    client_as("Finn Marsh", "hand").send("/drives/1/re-engine", version=1, engine="Fulmar 28", hand="right")

    answer = client.send("/drives/1/re-engine", version=1, engine="Fulmar 38", hand="right")

    assert answer.status_code == 409
    assert 'name="engine" value="Fulmar 28" checked' in answer.text
    assert drive_now().engine == "Fulmar 28"


def test_a_drive_goes_into_another_boat_without_the_room_of_the_old_one(client, fetch):
    kept(make_drive, hull_clearance_m=0.33, hub_space_m=0.045)
    new = kept(make_vessel, name="Sea Otter")
    form = fetch("/drives/1/move")

    answer = client.send("/drives/1/move", version=1, vessel_id=new.id, position="port", note="Sold apart.")

    assert "Sea Otter, R. Thorne" in form
    assert answer.status_code == 303
    page = fetch("/drives/1")
    assert "Sea Otter, port" in page
    assert "to Sea Otter, port. Sold apart." in page
    assert "shaft to hull 330 mm (12.992 in)" in page
    assert drive_now().hull_clearance_m is None
    assert "Got a drive" in fetch(f"/boats/{new.id}")


@pytest.mark.parametrize(
    ("vessel_id", "said"), [("", "Which boat does it go into?"), ("1", "It stands in Kittiwake now")]
)
def test_a_move_that_goes_nowhere_is_told_beside_the_box(client, vessel_id, said):
    kept(make_drive)

    answer = client.send("/drives/1/move", version=1, vessel_id=vessel_id, position="centre")

    assert answer.status_code == 422
    assert f'id="vessel_id-said">{said}' in answer.text


def test_two_people_who_move_one_drive_get_both_boats_to_choose_from(client, client_as):
    kept(make_drive)
    otter, tern = (kept(make_vessel, name=name).id for name in ("Sea Otter", "Tern"))
    client_as("Finn Marsh", "hand").send("/drives/1/move", version=1, vessel_id=otter, position="centre")

    answer = client.send("/drives/1/move", version=1, vessel_id=tern, position="centre")

    assert answer.status_code == 409
    assert re.search(r'merge-value">Sea Otter, R\. Thorne<', answer.text)
    assert re.search(r'merge-value">Tern, R\. Thorne<', answer.text)


def test_among_many_boats_the_one_it_goes_into_is_narrowed_down(fetch):
    kept(make_drive)
    with transaction() as session:
        for number in range(205):
            make_vessel(session, name=f"Auk {number}")
        make_vessel(session, name="Wren")

    first, narrowed = fetch("/drives/1/move"), fetch("/drives/1/move?name=wren")

    assert "There are many boats" in first
    assert "Wren" not in first
    assert "Wren, R. Thorne" in narrowed


def test_a_drive_goes_out_of_use_and_comes_back(client, fetch):
    kept(make_drive)
    fetch("/drives/1/retire")

    client.send("/drives/1/retire", note="Engine sold.")
    retired = fetch("/drives/1")
    fetch("/drives/1/return")
    client.send("/drives/1/return")

    assert "Drive taken out of use" in retired
    assert "Engine sold." in retired
    assert "Log what came off" not in retired
    assert drive_now().is_in_use
    assert "out of use" in fetch("/boats/1")


def test_a_drive_out_of_use_twice_says_so(client):
    kept(make_drive)
    client.send("/drives/1/retire")

    answer = client.send("/drives/1/retire", note="Again")

    assert answer.status_code == 422
    assert "It is out of use already." in answer.text
    assert 'value="Again"' in answer.text


def test_a_propeller_that_moved_with_its_drive_is_found_by_the_old_boat(client):
    with transaction() as session:
        drive, item = make_drive(session), make_propeller(session)
        new = make_vessel(session, name="Sea Otter", owner="B. Lake")
        gear.move_item(session, make_who(session), item.tag, "went on", drive_id=drive.id)
        vessels.move_drive(session, make_who(session), drive.id, 1, new.id)

    page = client.get("/search?q=kittiwake").text

    assert f'href="/propellers/{item.tag}"' in page


def test_an_owner_sees_the_drive_of_an_own_boat_without_gaps_to_fill(client_as, fetch):
    with transaction() as session:
        owner = make_person(session, name="R. Thorne", role="owner")
        drive = make_drive(session, make_vessel(session, owner_id=owner.id))

    page = fetch(f"/drives/{drive.id}", by=client_as("R. Thorne", "owner"))

    assert "38.100 ± 0.060" in page
    assert f"/drives/{drive.id}/change" not in page
