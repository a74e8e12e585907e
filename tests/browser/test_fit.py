"""In the scrapyard with a phone: try a size on one's own boat, and take the propeller home in the register."""

import re

from playwright.sync_api import Page, expect

from tests.factories.vessels import make_drive
from yardapp.db import transaction

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
