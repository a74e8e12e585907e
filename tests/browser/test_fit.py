"""In the scrapyard with a phone: try a size on one's own boat, and take the propeller home in the register."""

import re

from playwright.sync_api import Page, expect

from tests.factories.people import make_who
from tests.factories.vessels import make_drive, make_vessel
from tests.fit.test_size_map import bladed, with_engine
from tests.fit.test_stock import good_propeller
from yardapp.db import transaction
from yardapp.fit import services

SHAFT = {
    "taper_length_m": 0.07,
    "keyway_width_m": 0.0095,
    "keyway_depth_m": 0.0048,
    "hub_space_m": 0.03,
    "hull_clearance_m": 0.38,
}
TYPED = {
    "Stamp": "22 x 18 RH",
    "Bore, large end": "38.1 mm",
    "Bore, small end": "33.34 mm",
    "Length between": "76.2 mm",
    "Keyway, width": "9.5 mm",
    "Keyway, depth": "4.8 mm",
    "Hub, length": "76.2 mm",
    "Hub, diameter": "80 mm",
}


def fill_in(page: Page) -> None:
    page.get_by_role("radio", name="Right hand").first.check()
    page.get_by_role("radio", name="Tapered").check()
    for label, text in TYPED.items():
        page.get_by_label(label).first.fill(text)
    page.get_by_label("Boat and shaft").select_option(label="Kittiwake, centre")


def test_a_find_is_tried_on_a_boat_and_logged_with_one_tap(at_work, yard, axe, complaints):
    with transaction() as session:
        make_drive(session, **SHAFT)
    page = at_work
    page.goto(f"{yard.address}/fit/try")
    assert axe(page) == []
    fill_in(page)

    page.get_by_role("button", name="Try it").click()

    expect(page.locator(".verdict")).to_be_visible()
    for check in ("Hand", "Taper", "Large end", "Keyway width", "Tip room"):
        expect(page.locator(".checks-item", has_text=check).first).to_be_visible()
    expect(page.get_by_label("Bore, small end")).to_have_value("33.34 mm")
    assert page.evaluate("document.documentElement.scrollWidth") <= page.viewport_size["width"]
    assert axe(page) == []
    page.get_by_role("button", name="Log it").click()
    page.wait_for_url(re.compile("/propellers/P-0001"))
    expect(page.get_by_text("Seen, not fetched yet").first).to_be_visible()
    # The checker itself writes styles, which the page's policy refuses.
    assert [said for said in complaints if "style" not in said] == []


def a_yard():
    """A boat with engine and hull, one propeller that suits her, and a pair."""
    with transaction() as session:
        drive, tag = with_engine(session), bladed(session, 0.42, 0.292)
        make_drive(session, make_vessel(session, name="Sea Otter"), hand="left")
        left = good_propeller(session, hand="left", blades=(3.0, 0.0)).tag
        right = good_propeller(session, blades=(3.0, 0.0)).tag
        kept = services.keep_verdict(session, make_who(session), tag, drive).id
    return drive, tag, kept, right, left


def test_every_page_of_the_fit_passes_the_accessibility_checker_and_fits_its_screen(at_work, yard, axe):
    drive, tag, kept, right, left = a_yard()
    addresses = (
        f"/fit/on/{drive}", f"/fit/{tag}", f"/fit/{tag}/on/{drive}", f"/fit/on/{drive}/map", f"/fit/kept/{kept}",
        f"/fit/{tag}/kept", f"/fit/on/{drive}/kept", "/fit/pairs", f"/fit/pairs/{right}/{left}",
        f"/fit/{tag}/on/{drive}/letter/shop", f"/fit/{tag}/on/{drive}/letter/owner",
    )  # fmt: skip
    faults = {}
    for address in addresses:
        at_work.goto(yard.address + address)
        wide = at_work.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
        faults[address] = [*axe(at_work), *(["too wide"] if wide > 0 else [])]

    assert {address: found for address, found in faults.items() if found} == {}


def test_from_the_drive_to_what_goes_on_a_dot_on_the_map_and_a_verdict_kept(at_work, yard):
    drive, tag, *_ = a_yard()
    page = at_work
    page.goto(f"{yard.address}/drives/{drive}")
    page.get_by_role("link", name="What goes on?").click()
    expect(page.locator(".ranked-row").first).to_contain_text(tag)
    page.get_by_role("link", name="Map of sizes").click()
    page.locator("svg a", has_text=tag).first.click()

    expect(page.get_by_role("heading", level=1)).to_be_visible()
    page.get_by_text("Keep this verdict").first.click()
    page.get_by_label("Why it is kept").fill("before the lift")
    page.get_by_role("button", name="Keep this verdict").click()

    page.wait_for_url(re.compile("/fit/kept/"))
    expect(page.get_by_text("It still holds")).to_be_visible()
    expect(page.get_by_text("before the lift")).to_be_visible()


def test_on_paper_a_letter_has_no_buttons_and_no_places(at_work, yard):
    drive, tag, *_ = a_yard()
    at_work.goto(f"{yard.address}/fit/{tag}/on/{drive}/letter/owner")
    at_work.emulate_media(media="print")

    expect(at_work.get_by_text("What it rests on").first).to_be_visible()
    for hidden in (".places", ".acts", ".screen-only", ".bar"):
        expect(at_work.locator(hidden).first).to_be_hidden()
