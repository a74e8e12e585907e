"""Sheets of blades, areas, shafts and faults: looked over by an accessibility checker, tapped and typed on a phone."""

import re

import pytest
from playwright.sync_api import Page, expect

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from yardapp import db
from yardapp.bench import services as bench
from yardapp.gear import services as gear

PHONE, DESK = {"width": 360, "height": 740}, {"width": 1440, "height": 900}
PAGES = (
    "/bench", "/bench/tools", "/bench/tools/steel rule", "/bench/tools/add/angle", "/bench/faults",
    "/bench/{p}", "/propellers/{p}", "/bench/{p}/pitch?way=chord", "/bench/{p}/pitch?way=template", "/bench/{p}/alike",
    "/bench/{p}/area?way=widths", "/bench/{p}/area?way=squares", "/bench/{p}/area?way=points", "/bench/{p}/bore",
    "/bench/{p}/condition", "/bench/{p}/condition/new", "/bench/{p}/condition/blank", "/bench/{p}/alike/blank",
    "/bench/{s}", "/bench/{s}/wear", "/bench/{s}/run-out", "/bench/{s}/run-out?way=around", "/bench/{s}/shaft-end",
    "/bench/{s}/bearing", "/bench/{s}/bearing?way=lift", "/bench/faults/1", "/bench/sheets/1", "/bench/sheets/2",
    "/bench/compare?first=1&second=2", "/bench/half-done/1", "/bench/{p}/survey", "/bench/{p}/survey/blank",
)  # fmt: skip


@pytest.fixture
def tags(yard):
    """A propeller with a fault and two sheets of its blades, and a shaft."""
    with db.transaction() as session:
        who = make_who(session, name="Finn Marsh", role="hand")
        tag = make_propeller(session, blades=(3, 0.0), hub_diameter_m=(0.1, 0.0003)).tag
        shaft = gear.log_item(session, who, kind="shaft", place="Rack S").tag
        fault = bench.FaultSaid(kind="crack", severity="stop", side="face", blade=2, radius_ratio=0.7)
        bench.raise_fault(session, who, tag, fault)
        rows = {f"height_{number}_m": height for number, height in enumerate((0.1, 0.1061, 0.1001), 1)}
        reading = bench.AlikeReading(blades=3, **rows, **{f"u_{name}": 0.00005 for name in rows})
        for _ in range(2):
            bench.measure(session, who, tag, bench.ALIKE, reading)
        bench.begin_sheet(session, who, tag, "pitch", {"way": "rise", "unit": "in", "blade": "2", "rise_m": "1 5/16"})
    return {"p": tag, "s": shaft}


def test_every_page_passes_the_accessibility_checker(at_work: Page, yard, tags, axe, complaints):
    at_work.set_viewport_size(PHONE if (at_work.viewport_size or DESK)["width"] < 800 else DESK)
    wrong, room = {}, at_work.evaluate("window.innerWidth")
    for address in PAGES:
        at_work.goto(f"{yard.address}{address.format(**tags)}")
        found = axe(at_work)
        wide = at_work.evaluate("document.documentElement.scrollWidth")
        if found or wide > room:
            wrong[address] = (found, wide)

    assert wrong == {}
    assert complaints == []


def test_a_tap_on_the_picture_sets_blade_and_radius_and_keeps_what_was_typed(at_work: Page, yard, tags, complaints):
    at_work.set_viewport_size(PHONE)
    at_work.goto(f"{yard.address}/bench/{tags['p']}/condition/new")
    at_work.get_by_label("Note", exact=True).fill("from the edge inward")

    at_work.get_by_label("blade 3, 0.9 of the radius").click()

    expect(at_work.get_by_label("Blade", exact=True)).to_have_value("3")
    expect(at_work.get_by_label("How far out")).to_have_value("0.9")
    expect(at_work.get_by_label("Note", exact=True)).to_have_value("from the edge inward")
    at_work.get_by_role("radio", name="Nick").check()
    at_work.get_by_role("radio", name="Watch it").check()
    at_work.get_by_role("button", name="Mark it").click()
    at_work.wait_for_url(re.compile("/condition$"))
    expect(at_work.get_by_role("link", name=re.compile("Nick, blade 3 at 0.9 R, face")).first).to_be_visible()
    assert complaints == []


def test_several_readings_in_one_box_are_understood_as_they_are_typed(at_work: Page, yard, tags, complaints):
    at_work.goto(f"{yard.address}/bench/{tags['p']}/pitch?way=rise")

    at_work.locator("[name=rise_m]").fill("74, 74.5, 73.8 mm")
    at_work.locator("[name=swing_rad]").fill("45")

    expect(at_work.get_by_text("3 readings, mean 74.1 mm")).to_be_visible()
    expect(at_work.get_by_text(re.compile("does not average out")).first).to_be_visible()
    assert complaints == []


def test_the_bent_blade_is_named_while_the_heights_are_typed(at_work: Page, yard, tags, complaints):
    at_work.set_viewport_size(PHONE)
    at_work.goto(f"{yard.address}/bench/{tags['p']}/alike")

    for number, height in enumerate(("100", "106.1", "100.1"), 1):
        at_work.locator(f"[name=height_{number}_m]").fill(height)

    # By hand: 106.1 less the mean of 100 and 100.1 is 6.05 mm.
    expect(at_work.get_by_text(re.compile(r"Blade 2 off by 6\.05 ± 0\.12 mm")).first).to_be_visible()
    at_work.get_by_role("button", name="Save the sheet").click()
    at_work.wait_for_url(re.compile("/bench/sheets/"))
    assert complaints == []


def test_a_sheet_is_kept_on_the_yards_machine_from_its_first_box_and_here_while_that_is_away(at_work: Page, yard, tags):
    page = at_work
    page.goto(f"{yard.address}/bench/{tags['p']}/alike")
    heights = [page.get_by_label(f"Height of the tip, blade {number}", exact=False).first for number in (1, 2, 3)]
    told = page.locator("[data-writing-said]")
    heights[0].fill("100")
    expect(told).to_contain_text("Kept on the yard's machine, version")
    page.wait_for_url(re.compile("/half-done/"))
    begun = page.url

    yard.stop()
    heights[1].fill("106.1")
    expect(told).to_contain_text("1 box is kept here")
    page.get_by_role("button", name="Save the sheet").click()
    expect(told).to_contain_text("No answer from the yard's machine")
    page.goto("about:blank")
    yard.start()

    page.goto(begun)
    expect(told).to_contain_text("Kept on the yard's machine")
    page.reload()
    assert [one.input_value() for one in heights] == ["100", "106.1", ""]
    heights[2].fill("100.1")
    expect(page.locator("#lead")).to_contain_text("Blade 2")
    page.get_by_role("button", name="Save the sheet").click()
    page.wait_for_url(re.compile("/bench/sheets/"))


def test_a_first_box_typed_while_the_server_is_away_begins_the_sheet_later(at_work: Page, yard, tags):
    page = at_work
    page.goto(f"{yard.address}/bench/{tags['p']}/diameter?way=radius")
    expect(page.locator("[data-writing-said]")).to_contain_text("as you type")
    yard.stop()
    page.get_by_label("Tip radius", exact=False).first.fill("280")
    expect(page.locator("[data-writing-said]")).to_contain_text("1 box is kept here")
    page.goto("about:blank")
    yard.start()

    page.goto(f"{yard.address}/bench/{tags['p']}/diameter?way=radius")

    page.wait_for_url(re.compile("/half-done/"))
    expect(page.get_by_label("Tip radius", exact=False).first).to_have_value("280")
    page.goto(f"{yard.address}/bench/{tags['p']}")
    expect(page.get_by_text("Diameter, half done")).to_be_visible()
