"""From a launch date to the slings on a phone and a desktop: planned, scanned, signed, released, lifted."""

import re
from datetime import timedelta

from playwright.sync_api import expect

from tests.factories import relaunch as launches
from tests.factories.people import make_who
from yardapp.db import now, transaction
from yardapp.relaunch import services as relaunch


def a_launch(*, but=(), settled=True):
    """A boat with a launch in three days, everything in its way settled but for some lines."""
    with transaction() as session:
        drive, tag = launches.make_boat(session)
        launch = launches.make_launch(session, drive.vessel_id).id
        if settled:
            launches.settle(session, launch, but=but)
    return launch, drive.id, tag


def test_a_boat_gets_a_date_her_propeller_is_scanned_and_a_line_is_signed(at_work, yard):
    with transaction() as session:
        drive, tag = launches.make_boat(session)
    page = at_work
    page.goto(f"{yard.address}/boats/{drive.vessel_id}")
    page.get_by_role("link", name="Relaunch", exact=True).first.click()
    page.get_by_label("Boat").select_option(label="Kittiwake, R. Thorne")
    page.get_by_label("Goes in").fill((now() + timedelta(days=3)).astimezone().strftime("%Y-%m-%dT%H:%M"))
    page.get_by_role("button", name="Begin her sheet").click()
    page.get_by_role("link", name=re.compile("Right propeller on this shaft")).click()
    page.get_by_label("Tag on the propeller").fill(f"{yard.address}/t/{tag}")
    page.get_by_role("radio", name="Right hand").check()
    page.get_by_role("button", name="Keep the scan").click()

    expect(page.get_by_text(f"{tag} scanned, right hand seen; a second person must look")).to_be_visible()
    page.goto(f"{yard.address}/relaunch/1")
    page.get_by_role("link", name=re.compile("Turns free by hand")).click()
    page.get_by_role("radio", name="In order", exact=True).check()
    page.get_by_role("button", name="Sign as Ada Brook").click()
    page.wait_for_url(re.compile(r"/relaunch/1$"))
    expect(page.get_by_role("link", name=re.compile("Turns free by hand"))).to_contain_text("In order")


def test_she_is_released_and_the_lift_crew_read_yes_at_three_metres(at_work, yard):
    launch, _drive, _tag = a_launch()
    page = at_work
    page.goto(f"{yard.address}/relaunch/{launch}")
    page.get_by_role("link", name="Release to launch", exact=True).click()
    page.get_by_role("button", name="Release to launch as Ada Brook").click()
    page.wait_for_url(re.compile("/kept/"))
    expect(page.get_by_text("Nothing: every line stands as it did.")).to_be_visible()
    page.goto(f"{yard.address}/relaunch/{launch}/lift")

    word = page.locator(".lift-word")
    expect(word).to_have_text("Yes")
    # A sign is read at 200 times the height of its letters; 15 mm is about 90 px on a phone 65 mm wide.
    capital_px = page.evaluate("parseFloat(getComputedStyle(document.querySelector('.lift-word')).fontSize)") * 0.7
    assert capital_px >= 90
    assert word.evaluate("one => getComputedStyle(one).textTransform") == "uppercase"
    assert page.evaluate("document.documentElement.scrollHeight <= window.innerHeight + 1")


def test_the_lift_crews_page_asks_again_by_itself_and_an_old_answer_is_none(at_work, yard):
    launch, _drive, _tag = a_launch()
    with transaction() as session:
        act = relaunch.release(session, make_who(session), launch, "to launch").id
    page = at_work
    page.clock.install()
    page.goto(f"{yard.address}/relaunch/{launch}/lift")
    expect(page.locator(".lift-word")).to_have_text("Yes")

    with transaction() as session:
        relaunch.take_release_back(session, make_who(session), launch, act, "wind over the crane's limit")
    page.clock.fast_forward(31_000)
    expect(page.locator(".lift-word")).to_have_text("No")
    yard.stop()
    page.clock.fast_forward(31_000)
    expect(page.locator(".lift-word")).to_have_text("?")
    expect(page.get_by_text("This is no answer: ask again")).to_be_visible()
    yard.start()


def test_a_stop_is_overridden_by_name_and_the_reason_is_on_paper(at_work, yard):
    launch, _drive, _tag = a_launch(but=("lock",))
    page = at_work
    page.goto(f"{yard.address}/relaunch/{launch}/release/launch")
    page.get_by_text("Override, on my own name").click()
    page.get_by_label("Why she may go all the same").fill("to the crane berth only, lock tonight")
    page.get_by_role("button", name="Override as Ada Brook").click()
    page.wait_for_url(re.compile("/kept/"))
    page.emulate_media(media="print")

    expect(page.get_by_text("on the word of Ada Brook: to the crane berth only, lock tonight")).to_be_visible()
    for hidden in (".places", ".acts", ".bar"):
        expect(page.locator(hidden).first).to_be_hidden()


def test_every_page_of_the_room_passes_the_accessibility_checker_and_fits_its_screen(at_work, yard, axe):
    launch, drive, tag = a_launch(but=("lock", "coupling"))
    with transaction() as session:
        said = relaunch.FaultSaid(severity="watch", what="Weeps at the rudder stock", tag=tag, decides="Ada Brook")
        relaunch.raise_fault(session, make_who(session), said)
        act = relaunch.override(session, make_who(session), launch, "to launch", "to the crane berth only").id
    addresses = (
        "", "/plan", f"/{launch}", f"/{launch}/lift", f"/{launch}/owner", f"/{launch}/hour", f"/{launch}/call-off",
        f"/{launch}/lines/propeller?drive_id={drive}", f"/{launch}/lines/coupling?drive_id={drive}",
        f"/{launch}/release/afloat", f"/{launch}/kept/{act}", f"/{launch}/kept/{act}/take-back", "/past", "/faults",
        "/faults/new", "/faults/y1", "/lists", "/lists/shaft line", "/lists/shaft line/lines/lock", "/policies",
        "/policies/nut order",
    )  # fmt: skip
    faults = {}
    for address in addresses:
        at_work.goto(f"{yard.address}/relaunch{address}")
        wide = at_work.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
        faults[address] = [*axe(at_work), *(["too wide"] if wide > 0 else [])]

    assert {address: found for address, found in faults.items() if found} == {}
