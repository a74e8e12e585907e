"""A maker's table written and a reading taken, in a real browser."""

from collections.abc import Callable
from typing import Any

from playwright.sync_api import Page, expect

from tests.browser.conftest import Yard
from tests.factories.gear import make_propeller
from tests.factories.marks import make_shelf
from yardapp import db

STAMP = "OT22LR3-41877"


def test_a_reading_is_taken_with_one_tap(
    yard: Yard, at_work: Page, axe: Callable[[Page], list[Any]], complaints: list[str]
) -> None:
    with db.transaction() as session:
        make_shelf(session)
        tag = make_propeller(session, hand=None, diameter_m=None, pitch_m=None).tag
    at_work.goto(f"{yard.address}/marks/of/{tag}")

    at_work.get_by_label("Mark, as it stands there").press_sequentially(STAMP)

    expect(at_work.locator("#reading")).to_contain_text("Ombry & Thessel, hub code, version 1")
    assert axe(at_work) == []
    at_work.get_by_role("button", name="Take this reading").first.click()
    expect(at_work.get_by_role("heading", level=1)).to_contain_text(tag)
    expect(at_work.locator("body")).to_contain_text("558.8 mm")
    assert complaints == []


def test_a_table_is_changed_beside_its_bench(
    yard: Yard, at_work: Page, axe: Callable[[Page], list[Any]], complaints: list[str]
) -> None:
    with db.transaction() as session:
        table_id = make_shelf(session)["Ombry & Thessel"]
    at_work.goto(f"{yard.address}/marks/tables/{table_id}/change")
    at_work.get_by_label("Sample stamps, one a line").fill(STAMP)

    at_work.locator("[name='places-2-value']").fill("9")

    # A is 9 in now, so L is 19 in.
    expect(at_work.locator("#bench")).to_contain_text("pitch 482.6 mm (19 in)")
    assert axe(at_work) == []
    at_work.locator("button[value='down-2']").click()
    expect(at_work.locator("[name='places-3-value']")).to_have_value("9")
    at_work.locator("button[value='up-3']").click()
    at_work.get_by_label("Why this version").fill("a letter from the works")
    at_work.get_by_role("button", name="Keep this table").click()
    at_work.wait_for_url(f"{yard.address}/marks/tables/{table_id}")
    expect(at_work.locator("body")).to_contain_text("a letter from the works")
    assert axe(at_work) == []
    assert complaints == []
