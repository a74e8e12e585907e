"""The pages of the boats."""

import re

import pytest

from tests.factories.gear import make_propeller
from tests.factories.people import make_person, make_who
from tests.factories.vessels import make_drive, make_vessel
from yardapp.db import snapshot, transaction
from yardapp.gear import services as gear
from yardapp.vessels import services as vessels


def kept(make, **said):
    with transaction() as session:
        return make(session, **said)


def boats_now():
    with transaction() as session:
        return vessels.boats(session, make_who(session))


def owned_boat(**said):
    with transaction() as session:
        owner = make_person(session, name="R. Thorne", role="owner")
        return make_vessel(session, owner_id=owner.id, **said)


def test_the_empty_list_says_what_goes_there(fetch):
    page = fetch("/boats")

    assert "Every boat goes in once" in page
    assert 'href="/boats/log"' in page


def test_boats_are_a_place_of_the_yard(fetch):
    assert re.search(r'href="/boats"[^>]*aria-current="page"', fetch("/boats"))


def test_a_boat_is_entered_by_her_name_alone(client, fetch):
    answer = client.send("/boats/log", name="  Sea   Otter ")

    assert answer.status_code == 303
    assert '<h1 class="unseen">Sea Otter</h1>' in fetch(answer.headers["Location"])


def test_a_boat_without_a_name_is_told_beside_the_box_and_everything_typed_stays(client):
    answer = client.send("/boats/log", owner="R. Thorne", length_m="12,5 m", note="Blue hull.")

    assert answer.status_code == 422
    assert 'id="name-said">What is she called?' in answer.text
    for typed in ('value="R. Thorne"', 'value="12,5 m"', "Blue hull."):
        assert typed in answer.text
    assert boats_now() == []


def test_a_length_that_can_not_be_a_boat_s_is_told_beside_its_box(client):
    answer = client.send("/boats/log", name="Sea Otter", length_m="12 mm")

    assert answer.status_code == 422
    assert "is too small for a boat" in answer.text
    assert 'value="12 mm"' in answer.text


def test_a_bare_length_of_a_boat_is_in_metres(client):
    client.send("/boats/log", name="Sea Otter", length_m="12.5")

    with transaction() as session:
        assert vessels.vessel_by_id(session, make_who(session), 1).length_m == 12.5


def test_a_bare_length_of_a_boat_is_in_feet_for_somebody_who_works_in_inches(client):
    client.send("/people/me/units", units="in")

    client.send("/boats/log", name="Sea Otter", length_m="41")

    # The foot is 0.3048 m by definition.
    with transaction() as session:
        assert vessels.vessel_by_id(session, make_who(session), 1).length_m == pytest.approx(41 * 0.3048)


def test_a_retry_enters_a_boat_once(client):
    first = client.send("/boats/log", once="one try", name="Sea Otter")
    again = client.send("/boats/log", once="one try", name="Sea Otter")

    assert first.headers["Location"] == again.headers["Location"]
    assert len(boats_now()) == 1


def test_a_long_list_of_boats_goes_on_over_the_page(client, fetch):
    with transaction() as session:
        for number in range(vessels.PAGE + 3):
            make_vessel(session, name="Tern" if number > 2 else f"Auk {number}")

    first = fetch("/boats")
    after = re.search(r'href="(/boats\?[^"]+)" rel="next"', first)[1].replace("&amp;", "&")
    second = fetch(after)

    seen = re.findall(r'href="/boats/(\d+)"', first) + re.findall(r'href="/boats/(\d+)"', second)
    assert sorted(map(int, seen)) == list(range(1, vessels.PAGE + 4))
    assert 'rel="next"' not in second


def test_the_list_is_narrowed_down_by_a_name_she_bore(client, fetch):
    with transaction() as session:
        boat = make_vessel(session, name="Kittiwake")
        make_vessel(session, name="Tern")
        vessels.change_vessel(session, make_who(session), boat.id, 1, name="Sea Otter")

    page = fetch("/boats?name=kittiw")

    assert "Sea Otter" in page
    assert "Tern" not in page
    assert 'value="kittiw"' in page


def test_nothing_found_says_so(fetch):
    kept(make_vessel)

    assert "No boat or owner here is called gannet" in fetch("/boats?name=gannet")


def test_a_boat_s_page_tells_all_of_her(fetch):
    with transaction() as session:
        who, boat = make_who(session), make_vessel(session, kind="trawler", length_m=12.5, length_m_typed="12.5 m")
        drive = make_drive(session, boat, engine="Fulmar 38", rated_power_w=28000.0)
        on, off = make_propeller(session), make_propeller(session)
        gear.move_item(session, who, off.tag, "went on", drive_id=drive.id)
        gear.move_item(session, who, off.tag, "came off", place="Rack A")
        gear.move_item(session, who, on.tag, "went on", drive_id=drive.id)
        vessels.change_vessel(session, who, boat.id, 1, name="Sea Otter", owner="B. Lake")

    page = fetch(f"/boats/{boat.id}")

    assert "Kittiwake, until" in page
    assert "12.5 m (41 ft)" in page
    assert "Right hand, Fulmar 38, 28 kW" in page
    assert page.index(on.tag) < page.index("Came off her") < page.index(off.tag)
    assert "Before: name Kittiwake." in page
    assert "Before: owner R. Thorne." in page
    assert f'href="/log?off={drive.id}"' in page


def test_a_boat_without_a_drive_asks_for_one(fetch):
    boat = kept(make_vessel)

    page = fetch(f"/boats/{boat.id}")

    assert "A drive is one engine" in page
    assert f'href="/boats/{boat.id}/drives/new"' in page


def test_there_is_no_page_of_a_boat_that_is_not_there(client):
    for address in ("/boats/7", "/boats/7/change", "/boats/7/drives/new", "/drives/7", "/drives/7/change"):
        assert client.get(address).status_code == 404


def test_she_is_renamed_on_her_change_page(client, fetch):
    boat = kept(make_vessel)
    form = fetch(f"/boats/{boat.id}/change")

    answer = client.send(f"/boats/{boat.id}/change", version=1, name="Sea Otter", owner="R. Thorne")

    assert 'value="Kittiwake"' in form
    assert "still found by the old one" in form
    assert answer.status_code == 303
    assert "Kittiwake, until" in fetch(f"/boats/{boat.id}")


def test_two_people_who_save_one_boat_get_both_versions_to_choose_from(client, client_as):
    boat = kept(make_vessel)
    client_as("Finn Marsh", "hand").send(f"/boats/{boat.id}/change", version=1, name="Kittiwake", owner="B. Lake")

    answer = client.send(f"/boats/{boat.id}/change", version=1, name="Sea Otter", owner="R. Thorne", kind="sloop")

    assert answer.status_code == 409
    assert "Finn Marsh saved this record" in answer.text
    assert 'type="radio" name="owner" value="B. Lake"' in answer.text
    assert 'type="radio" name="name" value="Sea Otter"' in answer.text
    assert 'name="version" value="2"' in answer.text
    assert boats_now()[0].name == "Kittiwake"


def test_what_was_chosen_of_two_versions_is_kept(client, client_as):
    boat = kept(make_vessel)
    client_as("Finn Marsh", "hand").send(f"/boats/{boat.id}/change", version=1, name="Kittiwake", owner="B. Lake")

    answer = client.send(f"/boats/{boat.id}/change", version=2, name="Sea Otter", owner="B. Lake", kind="sloop")

    assert answer.status_code == 303
    assert [(row.name, row.owner, row.kind) for row in boats_now()] == [("Sea Otter", "B. Lake", "sloop")]


def test_two_versions_show_whose_account_was_chosen_by_name(client):
    boat = owned_boat()
    client.send(f"/boats/{boat.id}/change", version=1, name="Kittiwake", owner="R. Thorne", owner_id="0")

    answer = client.send(f"/boats/{boat.id}/change", version=1, name="Tern", owner="R. Thorne", owner_id=boat.owner_id)

    assert answer.status_code == 409
    assert f'name="owner_id" value="{boat.owner_id}"' in answer.text
    assert re.search(r'merge-value">R\. Thorne<', answer.text)
    assert re.search(r'merge-value">nobody&#39;s<', answer.text)


def test_the_office_links_an_owner_s_account_and_a_hand_is_not_asked(client, client_as, fetch):
    boat = kept(make_vessel)
    owner = kept(make_person, name="R. Thorne", role="owner")
    address = f"/boats/{boat.id}/change"

    by_hand = fetch(address, by=client_as("Finn Marsh", "hand"))
    answer = client.send(address, version=1, name="Kittiwake", owner="R. Thorne", owner_id=owner.id)

    assert "owner_id" not in by_hand
    assert answer.status_code == 303
    assert "Kittiwake" in client_as("R. Thorne", "owner").get("/boats").text


def test_an_owner_sees_own_boats_alone(client_as, fetch):
    mine = owned_boat(name="Sea Otter")
    with transaction() as session:
        theirs = make_vessel(session, name="Tern", owner="B. Lake")
        other, own = make_drive(session, theirs), make_drive(session, mine)
    owner = client_as("R. Thorne", "owner")

    page = fetch("/boats", by=owner)

    assert "Sea Otter" in page
    assert "Tern" not in page
    assert "Sea Otter" in fetch(f"/boats/{mine.id}", by=owner)
    assert "Sea Otter" in fetch(f"/drives/{own.id}", by=owner)
    assert owner.get(f"/boats/{theirs.id}").status_code == 404
    assert owner.get(f"/drives/{other.id}").status_code == 404


def test_an_owner_is_offered_no_act_and_can_do_none(client_as):
    boat = owned_boat()
    with transaction() as session:
        drive = make_drive(session, boat)
    owner = client_as("R. Thorne", "owner")

    for address in (f"/boats/{boat.id}", f"/drives/{drive.id}", "/boats"):
        assert 'class="act' not in owner.get(address).text
    for address in (f"/boats/{boat.id}/change", "/boats/log", f"/drives/{drive.id}/change", f"/drives/{drive.id}/move"):
        assert owner.get(address).status_code == 403
        assert owner.send(address, version=1, name="Mine", position="port").status_code == 403
    assert [row.name for row in boats_now()] == ["Kittiwake"]


def test_an_owner_does_not_read_who_had_her_before(client, client_as):
    boat = owned_boat(owner="B. Lake")
    client.send(f"/boats/{boat.id}/change", version=1, name="Kittiwake", owner="R. Thorne", owner_id=boat.owner_id)

    seen = client_as("R. Thorne", "owner").get(f"/boats/{boat.id}").text

    assert "Entered in the register" in seen
    assert "B. Lake" not in seen


def test_an_owner_without_a_linked_boat_is_told_whom_to_ask(client_as, fetch):
    kept(make_vessel)

    page = fetch("/boats", by=client_as("B. Lake", "owner"))

    assert "Ask the yard&#39;s office" in page
    assert "Kittiwake" not in page


def test_a_propeller_is_found_by_the_old_name_of_the_boat_it_is_on(client):
    with transaction() as session:
        boat = make_vessel(session, name="Kittiwake")
        drive, item = make_drive(session, boat), make_propeller(session)
        gear.move_item(session, make_who(session), item.tag, "went on", drive_id=drive.id)
        vessels.change_vessel(session, make_who(session), boat.id, 1, name="Sea Otter")

    page = client.get("/search?q=kittiwake").text

    assert f'href="/propellers/{item.tag}"' in page
    assert f'href="/boats/{boat.id}"' in page
    assert "Sea Otter, centre" in page


def test_what_is_typed_is_shown_as_text(client, fetch):
    answer = client.send("/boats/log", name='<b>"Tern"</b>', note="<script>alert(1)</script>")

    page = fetch(answer.headers["Location"])

    assert "<script>alert" not in page
    assert "&lt;b&gt;" in page


def test_a_stray_zero_byte_breaks_no_database(client):
    answer = client.send("/boats/log", name="Te\x00rn", note="a\x00b")

    assert answer.status_code == 303
    with snapshot() as session:
        assert [row.name for row in vessels.boats(session, _office())] == ["Tern"]


def _office():
    with transaction() as session:
        return make_who(session)
