"""Where things are, on a phone and a desktop: a set goes to the shop and is undone; every page is looked over."""

import pytest
from playwright.sync_api import Page, expect

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from yardapp.db import transaction
from yardapp.gear import services as gear


@pytest.fixture
def gear_there(yard):
    """A propeller with its nut, one of the other hand, and a rack on the map."""
    with transaction() as session:
        who = make_who(session)
        make_propeller(session)
        make_propeller(session, hand="left")
        gear.log_part(session, who, kind="nut", with_tag="P-0001")
        gear.add_bins(session, who, rack="C", shelves=0, bins=9)
        gear.record_work(session, who, "P-0001", "polished")


def test_a_set_goes_to_the_shop_and_the_wrong_move_is_undone(at_work: Page, yard, gear_there, complaints):
    at_work.goto(f"{yard.address}/propellers/P-0001")
    at_work.get_by_role("link", name="Move", exact=True).click()
    at_work.get_by_text("Went to a shop").click()
    at_work.get_by_label("Where, which shop, to whom").fill("the shop at the bridge")
    at_work.get_by_role("button", name="Save the move").click()
    expect(at_work.get_by_text("at the shop: the shop at the bridge").first).to_be_visible()

    at_work.get_by_role("link", name="Went to the shop").click()
    at_work.get_by_label("Why was it wrong?").fill("It is still here")
    at_work.get_by_role("button", name="Undo this move").click()

    expect(at_work.get_by_text("Undone. P-0001 is Rack C, bin 7 again.")).to_be_visible()
    at_work.goto(f"{yard.address}/nuts/N-0001")
    expect(at_work.get_by_role("link", name="Rack C, bin 7")).to_be_visible()
    assert complaints == []


def test_every_page_passes_the_accessibility_checker(at_work: Page, yard, gear_there, axe):
    faults = {}
    for address in (
        "/rack/map",
        "/rack/away",
        "/rack?kind=parts",
        "/rack/bins/7",
        "/rack/labels?rack=C",
        "/log/part",
        "/log/nut",
        "/nuts/N-0001",
        "/items/P-0001/move",
        "/items/P-0001/work",
        "/items/P-0001/works",
        "/items/P-0001/declined",
        "/items/P-0001/together",
        "/items/P-0001/twice",
        "/items/P-0001/seen?hand=left",
        "/items/P-0001/swap?other_tag=P-0002&hand=left",
        "/sets/1",
    ):
        at_work.goto(f"{yard.address}{address}")
        found = axe(at_work)
        wide = at_work.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
        if found or wide > 0:
            faults[address] = (found, wide)

    assert faults == {}
