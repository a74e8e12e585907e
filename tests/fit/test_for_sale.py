"""What is for sale: said on the record, told in its history, and a filter of the lists."""

import re

from sqlalchemy import select

from tests.factories.gear import make_propeller
from tests.factories.vessels import make_drive
from tests.fit.test_pairs_in_stock import bladed
from tests.fit.test_stock import SHAFT, good_propeller
from yardapp.db import transaction
from yardapp.gear.models import Event, Item


def sell(client, tag, said="yes", version="1"):
    answer = client.send(f"/items/{tag}/change", version=version, place="Rack C, bin 7", note="", is_for_sale=said)
    assert answer.status_code == 303, answer.text


def test_it_is_put_up_for_sale_and_taken_back_in_so_many_words(client, fetch, register):
    with transaction() as session:
        tag = make_propeller(session).tag

    sell(client, tag)

    page = fetch(f"/propellers/{tag}")
    assert "For sale." in page
    assert "Put up for sale" in page
    boxes = re.findall(r'<input[^>]*name="is_for_sale"[^>]*>', fetch(f"/items/{tag}/change"))
    (ticked,) = [box for box in boxes if "checked" in box]
    assert 'value="yes"' in ticked

    sell(client, tag, "no", "2")

    page = fetch(f"/propellers/{tag}")
    assert "For sale." not in page
    assert "No longer for sale" in page


def test_what_a_form_does_not_ask_stays_as_it_was(client, register):
    with transaction() as session:
        tag = make_propeller(session).tag
    sell(client, tag)

    client.send(f"/items/{tag}/change", version="2", place="Rack C, bin 7", note="dented")

    with transaction() as session:
        assert session.scalars(select(Item.is_for_sale)).one()
        assert len(session.scalars(select(Event).where(Event.kind == "put up for sale")).all()) == 1


def test_the_stock_for_a_drive_can_be_narrowed_to_what_is_for_sale(client, fetch):
    with transaction() as session:
        drive = make_drive(session, **SHAFT).id
        sold, kept = good_propeller(session).tag, good_propeller(session).tag
    sell(client, sold)

    narrowed, whole = fetch(f"/fit/on/{drive}?for_sale=1"), fetch(f"/fit/on/{drive}")

    assert sold in narrowed
    assert kept not in narrowed
    assert kept in whole
    assert "For sale" in whole


def test_so_can_the_pairs(client, fetch):
    with transaction() as session:
        pairs = [[bladed(session, hand).tag for hand in ("right", "left")] for _ in range(2)]
    for tag in pairs[1]:
        sell(client, tag)

    assert f"{pairs[1][0]} and {pairs[1][1]}" in fetch("/fit/pairs?for_sale=1")
    assert pairs[0][0] not in fetch("/fit/pairs?for_sale=1")
