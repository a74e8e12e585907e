"""The rack map: bins as records, what lies in which, labels that answer for ever."""

import pytest
from sqlalchemy import select

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from yardapp.db import snapshot, transaction
from yardapp.errors import Refused
from yardapp.gear import services as gear
from yardapp.gear.models import Bin, Item
from yardapp.gear.services.bins import key_of, label_of_bin
from yardapp.gear.services.rack_map import BinRow
from yardapp.gear.showing import bin_label


@pytest.mark.parametrize("written", ["Rack C, bin 7", "rack c bin 7", "C7", "c 7", "RACK C / BIN 7", "C, bin 7"])
def test_a_bin_is_known_however_it_is_written(written):
    assert key_of(written) == "c 7"


@pytest.mark.parametrize(
    ("rack", "shelf", "said"),
    [("C", "", "Rack C, bin 7"), ("C", "2", "Rack C, shelf 2, bin 7"), ("Shaft rack", "", "Shaft rack, bin 7")],
)
def test_a_bin_is_called_as_people_call_it(rack, shelf, said):
    assert label_of_bin(rack, shelf, "7") == said


def test_what_lay_there_in_words_lies_in_the_bin(register):
    with transaction() as session:
        make_propeller(session, place="rack c bin 7")
        make_propeller(session, place="Rack D, bin 7")
        made = gear.add_bins(session, make_who(session), rack="C", bins=8)

        counts = {one.label: one.count for one in gear.rack_map(session, make_who(session))}

    assert len(made) == 8
    assert counts["Rack C, bin 7"] == 1
    assert sum(counts.values()) == 1


def test_what_is_put_there_lies_in_it_until_it_goes(register):
    with transaction() as session:
        who = make_who(session)
        gear.add_bins(session, who, rack="C", shelves=2, bins=3)
        item = make_propeller(session, place="c 2 3")
        there = session.get(Bin, item.bin_id)
        gear.move_item(session, who, item.tag, "to shop", place="the shop")
        gone = item.bin_id
        gear.move_item(session, who, item.tag, "back from shop", place="Rack C, shelf 1, bin 1")

        assert (there.label, gone) == ("Rack C, shelf 2, bin 3", None)
        assert item.place == "Rack C, shelf 1, bin 1"


def test_bins_on_the_map_stay_and_only_new_ones_are_made(register):
    with transaction() as session:
        who = make_who(session)
        gear.add_bins(session, who, rack="C", bins=3)

        assert len(gear.add_bins(session, who, rack="C", bins=5)) == 2
        with pytest.raises(Refused, match="on the map already"):
            gear.add_bins(session, who, rack="c", bins=5)
        with pytest.raises(Refused, match="Between one bin"):
            gear.add_bins(session, who, rack="D", shelves=40, bins=200)


def test_only_an_empty_bin_goes_off_the_map(register):
    with transaction() as session:
        who = make_who(session)
        there = gear.add_bins(session, who, rack="C", bins=1)[0]
        item = make_propeller(session, place="C1")
        with pytest.raises(Refused, match="holds 1 thing"):
            gear.retire_bin(session, who, there.id)
        gear.move_item(session, who, item.tag, "moved", place="Shed")

        gear.retire_bin(session, who, there.id)

        assert gear.rack_map(session, who) == []
        assert make_propeller(session, place="Rack C, bin 1").bin_id is None


def test_the_map_shows_what_is_where_and_prints_labels(client, fetch):
    client.send("/log", place="Rack C, bin 2")
    fetch("/rack/map")
    client.send("/rack/map", rack="C", shelves="", bins="4")
    client.send("/log", place="C2")

    html = fetch("/rack/map")

    assert "P-0001 +1" in html
    assert "2 things in 4 bins, 3 empty" in html
    with snapshot() as session:
        number = session.scalars(select(Item.bin_id).where(Item.tag == "P-0001")).one()
    assert client.get(f"/b/{number}").headers["Location"] == f"/rack/bins/{number}"
    html = fetch(f"/rack/bins/{number}")
    assert "P-0001" in html
    assert "P-0002" in html
    assert f"/b/{number}" in fetch("/rack/labels?rack=C")
    assert client.send(f"/rack/bins/{number}/retire").status_code == 422
    assert client.get("/rack/bins/99").status_code == 404


def test_owners_see_no_racks(client_as):
    assert client_as("R. Thorne", "owner").get("/rack/map").status_code == 403


def test_labels_of_a_racks_bins_come_on_cut_paper_too(client, fetch):
    client.send("/rack/map", rack="S", shelves="2", bins="3")
    client.send("/rack/map", rack="C", shelves="", bins="30")

    html = fetch("/rack/labels?rack=C")
    written = client.get("/rack/labels.pdf?rack=C&stock=24&start=1")

    assert 'name="rack" value="C"' in html
    assert (written.status_code, written.mimetype) == (200, "application/pdf")
    # Thirty labels on sheets of 24: two pages.
    assert written.data.count(b"/Count 2") == 1
    assert client.get("/rack/labels.pdf?rack=S&stock=roll-62").data.count(b"/Count 6") == 1


@pytest.mark.parametrize("asked", ["rack=Nowhere", "rack=S&start=99", "rack=S&stock=parchment"])
def test_bin_labels_that_can_not_be_made_say_why_on_their_page(client, asked):
    client.send("/rack/map", rack="S", shelves="", bins="3")

    answer = client.get(f"/rack/labels.pdf?{asked}")

    assert answer.status_code == 422
    assert "Labels for bins" in answer.text


def test_a_bins_label_says_rack_shelf_and_bin_in_large_and_in_words():
    one = BinRow(id=7, rack="S", shelf="1", bin="4", label="Rack S, shelf 1, bin 4", is_in_use=True)
    other = BinRow(id=8, rack="C", shelf="", bin="7", label="Rack C, bin 7", is_in_use=True)

    assert bin_label(one, "The yard", "http://yard.test/b/7") == (
        "S 1/4",
        ("Rack S, shelf 1, bin 4", "The yard", "yard.test/b/7"),
        "http://yard.test/b/7",
    )
    assert bin_label(other, "The yard", "http://yard.test/b/8")[0] == "C 7"
