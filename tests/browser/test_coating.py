"""A whole coating job beside the boat: two phones, a clock that the test sets, and what goes wrong in a yard."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Locator, Page, expect

from tests.browser.conftest import DESKTOP, PHONE, WORDS
from tests.factories.coating import FakeClock, make_sheet, stopped_clock
from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from yardapp import db
from yardapp.coating import services as coating
from yardapp.gear import services as gear
from yardapp.people import services as people

HEARD_MS = 4000  # a phone asks every two seconds; the machine that tests is busy


@pytest.fixture
def browser_context_args() -> dict[str, Any]:
    """The first is a phone; the second, at a desk, is opened by the test."""
    return PHONE


@pytest.fixture
def clock() -> Iterator[FakeClock]:
    with stopped_clock() as clock:
        yield clock


@dataclass
class Screen:
    """One of the two who run the job."""

    page: Page
    context: BrowserContext

    @property
    def now(self) -> Locator:
        return self.page.locator(".running-now")

    @property
    def kind(self) -> str:
        return self.now.get_attribute("data-kind") or ""

    @property
    def seen(self) -> str:
        return self.now.get_attribute("data-seen") or ""

    def main_tap(self) -> Locator:
        return self.page.locator(".running-now .acts-tall button").first

    def tap(self, button: Locator) -> None:
        """One tap, and the answer to it."""
        before = self.seen
        button.click()
        expect(self.now).not_to_have_attribute("data-seen", before, timeout=HEARD_MS)

    def read_weather(self) -> None:
        box = self.page.locator("#weather-box")
        if box.get_attribute("open") is None:
            box.locator("summary").click()
        for name, typed in {"air_c": "20", "metal_c": "20", "relative_humidity": "50 %"}.items():
            box.locator(f"[name={name}]").fill(typed)
        self.tap(box.get_by_role("button", name="Note the weather"))

    def hears_of(self, other: "Screen") -> None:
        """The newest act stands on this screen too."""
        number = other.seen.partition(".")[0]
        expect(self.now).to_have_attribute("data-seen", re.compile(rf"^{number}\."), timeout=HEARD_MS)


@pytest.fixture
def job_id(yard, clock) -> int:
    """Three blades, two coats of primer, one clear coat; nothing done yet."""
    with db.transaction() as session:
        for name, role in (("Ada Brook", "office"), ("Finn Marsh", "hand")):
            people.add_person(session, people.TERMINAL, name=name, role=role, password=WORDS)
        who = make_who(session)
        item = make_propeller(session)
        gear.note_evidence(session, who, item.tag, gear.Said(what="blades", basis="measured", value=3, u_value=0.0))
        system_id = coating.add_system(session, who, make_sheet())
        piece = coating.AskedPiece(kind="propeller", name=item.tag, area_m2=0.3)
        asked = coating.Asked(system_id=system_id, pieces=[piece], blade_s=300.0, metal_c=20.0, title="Kittiwake")
        return coating.plan_job(session, who, asked).id


def sign_in(page: Page, address: str, name: str) -> None:
    page.goto(f"{address}/people/enter")
    page.get_by_label("Name").fill(name)
    page.get_by_label("Password").fill(WORDS)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url(f"{address}/rack")


@pytest.fixture
def screens(yard, job_id, page: Page, browser: Browser) -> Iterator[tuple[Screen, Screen]]:
    """Ada at her phone, Finn at the desk, both with the job before them."""
    other = browser.new_context(**DESKTOP)
    both = (Screen(page, page.context), Screen(other.new_page(), other))
    for screen, name in zip(both, ("Ada Brook", "Finn Marsh"), strict=True):
        sign_in(screen.page, yard.address, name)
        screen.page.goto(f"{yard.address}/coating/jobs/{job_id}")
    yield both
    other.close()


def phases(screen: Screen) -> list[str]:
    return screen.page.locator(".running-phase").all_inner_texts()


def step_on(screen: Screen, clock: FakeClock) -> str:
    """Do what the page says is to be done; let the time pass that it says must pass."""
    kind = screen.kind
    waits = screen.now.locator("> .clock .clock-label")
    if kind == "weather":
        screen.read_weather()
    elif waits.count() and waits.inner_text() == "until then":
        before = screen.seen
        clock.later(seconds=float(screen.now.locator("> .clock").get_attribute("data-left-s") or 0) + 1)
        expect(screen.now).not_to_have_attribute("data-seen", before, timeout=HEARD_MS)
    elif screen.main_tap().count():
        screen.tap(screen.main_tap())
        if kind == "started":
            clock.later(minutes=5)
    else:  # it was drawn anew while it was read: look again
        screen.page.wait_for_timeout(100)
    return kind


def until(screen: Screen, clock: FakeClock, done: Any, most: int = 60) -> list[str]:
    """Step on until `done`."""
    kinds = []
    for _ in range(most):
        if done():
            return kinds
        kinds.append(step_on(screen, clock))
    raise AssertionError(kinds)


def coats_done() -> list[tuple[str, str]]:
    """What the register holds: each done coat, in order."""
    with db.snapshot() as session:
        story = coating.story_of(session, make_who(session), 1)
    return [(act.kind, act.unit) for act in story.standing_acts if act.kind == "done"]


def test_a_whole_job_on_two_screens_with_a_killed_server_a_lost_network_and_a_missed_window(
    screens, yard, clock, axe, complaints
):
    """Three blades, two coats of primer, one clear coat."""
    ada, finn = screens

    # What one taps, the other sees.
    assert ada.kind == "weather"
    ada.read_weather()
    finn.hears_of(ada)
    until(finn, clock, lambda: finn.kind == "started")
    step_on(finn, clock)
    ada.hears_of(finn)
    expect(ada.now.locator(".running-on")).to_have_text("Blade 1")
    assert axe(ada.page) == []

    # The server dies under a tap: the tap is kept, and sent when it is there again.
    yard.stop()
    ada.main_tap().click()
    expect(ada.page.locator("[data-running-said]")).to_contain_text("not sent yet", timeout=2 * HEARD_MS)
    expect(ada.page.locator("[data-running-said]")).to_contain_text("No answer from the yard's machine")
    yard.start()
    expect(ada.page.locator("[data-running-said]")).to_be_empty(timeout=4 * HEARD_MS)
    finn.hears_of(ada)
    assert coats_done() == [("done", "1.1")]

    # A page that is opened again stands where it stood.
    ada.page.reload()
    ada.hears_of(finn)

    # Finn walks behind a steel hull: what he taps is kept with its own time, and marked when it comes.
    until(ada, clock, lambda: ada.kind == "done")
    finn.hears_of(ada)
    finn.context.set_offline(True)
    finn.main_tap().click()
    expect(finn.page.locator("[data-running-said]")).to_contain_text("not sent yet", timeout=2 * HEARD_MS)
    assert coats_done() == [("done", "1.1")]
    clock.later(minutes=3)
    finn.context.set_offline(False)
    expect(finn.page.locator("[data-running-said]")).to_be_empty(timeout=4 * HEARD_MS)
    ada.hears_of(finn)
    with db.snapshot() as session:
        last = coating.story_of(session, make_who(session), 1).acts[-1]
    assert (last.kind, last.is_late, last.said_by) == ("done", True, "Finn Marsh")
    assert 170 < (last.noted - last.at).total_seconds() <= 185

    # The first coat is on all three; then a lift comes between, and the windows shut.
    until(ada, clock, lambda: len(coats_done()) == 3)
    clock.later(minutes=65)
    expect(ada.page.locator(".running-phase").first).to_have_text("window missed", timeout=HEARD_MS)
    assert phases(ada) == ["window missed"] * 3
    expect(ada.page.get_by_text("Abrade that blade and give it the coat again.").first).to_be_visible()
    for blade in (1, 2, 3):
        again = ada.page.get_by_role("button", name=re.compile("again from Primer, coat 1")).first
        ada.tap(again)
        assert phases(ada).count("window missed") == 3 - blade

    # From there it goes its way, on either screen, to the last stroke.
    kinds = until(finn, clock, lambda: set(phases(finn)) == {"curing"}, most=90)
    ada.hears_of(finn)
    assert kinds.count("test") >= 6
    assert len([one for one in coats_done() if one[1] == "1.1"]) == 4
    expect(ada.page.locator(".running-beside")).to_contain_text("Not before")
    assert axe(finn.page) == []

    clock.later(days=2)
    expect(ada.page.locator(".running-phase").first).to_have_text("cured", timeout=HEARD_MS)
    assert [said for said in complaints if "ERR_" not in said and "axe" not in said] == []


PAGES = (
    "/coating", "/coating?show=over", "/coating/systems", "/coating/systems/1", "/coating/systems/1/sheet",
    "/coating/systems/1/compare", "/coating/systems/new", "/coating/stock", "/coating/stock/new", "/coating/plan",
    "/coating/jobs/1", "/coating/jobs/1/log", "/coating/items/P-0001", "/coating/pieces/1/rate", "/coating/lives",
)  # fmt: skip


@pytest.fixture
def ada(yard, job_id, page: Page) -> Page:
    """Ada at her phone."""
    sign_in(page, yard.address, "Ada Brook")
    return page


def open_job(page: Page, address: str) -> None:
    """The page beside the boat, its script running."""
    page.goto(f"{address}/coating/jobs/1")
    expect(page.locator("[data-running-sound]")).to_be_visible()


def test_every_page_of_the_room_passes_the_accessibility_checker(ada, yard, axe):
    faults = {}
    for address in PAGES:
        ada.goto(yard.address + address)
        faults[address] = axe(ada)

    assert {address: found for address, found in faults.items() if found} == {}


def test_no_page_of_the_room_scrolls_sideways_at_320_points(ada, yard):
    ada.set_viewport_size({"width": 320, "height": 640})
    wide = {}
    for address in PAGES:
        ada.goto(yard.address + address)
        wide[address] = ada.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")

    assert {address: over for address, over in wide.items() if over > 0} == {}


def test_a_job_is_planned_while_it_says_whether_it_can_be_done(ada, yard):
    ada.goto(f"{yard.address}/coating/plan?tag=P-0001")
    ada.get_by_label("One coat on one blade takes").fill("5")
    ada.get_by_label("Metal, as expected").fill("20")
    ada.get_by_label("Area, where you know it").first.fill("0.3 m2")
    expect(ada.locator("#looked")).to_contain_text("It can be done", timeout=HEARD_MS)
    expect(ada.locator("#looked .drawing svg")).to_be_visible()

    # 45 minutes for the coat and 20 to wait: its window shut 60 minutes after it was begun.
    ada.get_by_label("One coat on one blade takes").fill("45")
    expect(ada.locator("#looked")).to_contain_text("It can't be done so", timeout=HEARD_MS)
    ada.get_by_label("The other way it would take").fill("10")
    expect(ada.locator("#looked")).to_contain_text("A roller instead of the brush", timeout=HEARD_MS)

    ada.get_by_label("One coat on one blade takes").fill("5")
    ada.get_by_role("button", name="Keep the plan").last.click()
    ada.wait_for_url(re.compile("/coating/jobs/2$"))
    expect(ada.locator(".running-act")).to_have_text("Read the weather")


def test_taps_made_without_network_outlive_the_page_and_are_sent_when_it_is_opened_again(ada, yard, context):
    open_job(ada, yard.address)
    context.set_offline(True)
    ada.locator("#any-piece summary").click()
    ada.get_by_role("button", name="Blade 2, Primer, coat 1: Started").click()
    ada.get_by_role("button", name="Blade 2, Primer, coat 1: Done").click()
    expect(ada.get_by_role("button", name="Blade 2, Primer, coat 1: Done")).to_be_disabled()
    expect(ada.locator("[data-running-said]")).to_contain_text("Blade 2, Primer, coat 1: Done", timeout=2 * HEARD_MS)
    ada.close()
    context.set_offline(False)

    again = context.new_page()
    again.goto(f"{yard.address}/coating/jobs/1")

    expect(again.locator(".running-last")).to_contain_text("Blade 2, Primer, coat 1: done", timeout=2 * HEARD_MS)
    assert coats_done() == [("done", "1.2")]


def test_a_tap_that_came_too_late_to_make_sense_stays_on_the_phone_until_it_was_seen(ada, yard, context):
    open_job(ada, yard.address)
    context.set_offline(True)
    ada.locator("#any-piece summary").click()
    ada.get_by_role("button", name="Blade 2, Primer, coat 1: Started").click()
    with db.transaction() as session:
        coating.start_coat(session, make_who(session, name="Finn Marsh", role="hand"), 1, "1.2", 1)
    context.set_offline(False)

    said = ada.locator("[data-running-said]")
    expect(said).to_contain_text("already begun on Blade 2", timeout=4 * HEARD_MS)
    ada.get_by_role("button", name="Seen, drop it").click()

    expect(said).to_be_empty()


def test_a_phone_sounds_when_a_window_opens_and_says_once_what_it_can_t_do(ada, yard, clock):
    with db.transaction() as session:
        who = make_who(session)
        figures = {"air_c": 20.0, "metal_c": 20.0, "relative_humidity": 0.5}
        coating.act(session, who, 1, coating.Tap(kind="weather", figures=figures))
        coating.start_coat(session, who, 1, "1.1", 1)
        clock.later(minutes=5)
        coating.end_coat(session, who, 1, "1.1", 1)
    open_job(ada, yard.address)
    # No HTTPS in this yard: the screen can't be kept on, and that is said once.
    note = ada.locator("[data-running-screen]")
    expect(note).to_contain_text("only over HTTPS")
    note.get_by_role("button").click()
    ada.get_by_role("button", name="Sound at warnings").click()
    expect(ada.locator("[data-running-sound]")).to_have_text("Sound is on")

    clock.later(minutes=20, seconds=1)

    expect(ada.locator("[data-part=running]")).to_have_attribute("data-sounded", "Blade 1: touch it", timeout=HEARD_MS)
    ada.reload()
    expect(note).to_be_hidden()


def test_without_script_every_act_is_a_form(yard, job_id, clock, browser):
    bare = browser.new_context(**PHONE, java_script_enabled=False)
    page = bare.new_page()
    sign_in(page, yard.address, "Finn Marsh")
    page.goto(f"{yard.address}/coating/jobs/1")
    page.locator("#weather-box [name=metal_c]").fill("20")
    page.locator("#weather-box [name=air_c]").fill("20")
    page.locator("#weather-box [name=relative_humidity]").fill("50")
    page.get_by_role("button", name="Note the weather").click()
    page.locator("#any-piece summary").click()
    page.get_by_role("button", name="Blade 1, Primer, coat 1: Done").click()
    page.get_by_role("button", name=re.compile("Undo")).click()

    expect(page.locator(".running-last")).to_contain_text("Weather")
    assert coats_done() == []
    bare.close()


def test_a_system_is_taken_changed_and_brought_back(ada, yard):
    ada.goto(f"{yard.address}/coating/systems")
    ada.get_by_role("button", name="Take it into the yard's list").first.click()
    ada.get_by_role("link", name="Change the sheet").click()
    box = ada.locator("[name=steps-2-window-0-latest_s]")
    ada.locator("summary", has_text="Step 3: Etch wipe").click()
    before = box.input_value()
    box.fill("25 min")
    ada.locator("details", has=box).get_by_role("button", name="One more row").first.click()
    expect(box).to_have_value("25 min")
    ada.get_by_label("What was changed").fill("a newer sheet")
    ada.get_by_role("button", name="Save the sheet").last.click()
    expect(ada.get_by_text("a newer sheet")).to_be_visible()

    ada.get_by_role("link", name="Version 1", exact=True).click()
    ada.get_by_role("button", name="Bring version 1 back").click()

    expect(ada.get_by_text("version 1 brought back")).to_be_visible()
    ada.get_by_role("link", name="Change the sheet").click()
    expect(box).to_have_value(before)
    ada.get_by_role("link", name="Back", exact=True).click()
    ada.get_by_role("button", name="No longer offer it").click()
    expect(ada.get_by_role("button", name="Offer it for new jobs")).to_be_visible()


def test_a_job_is_closed_and_opened_again_from_its_page(ada, yard):
    ada.goto(f"{yard.address}/coating/jobs/1")
    ada.get_by_role("button", name="Close the job").click()
    expect(ada.get_by_text("This job is closed.")).to_be_visible()

    ada.get_by_role("button", name="Open it again").click()

    expect(ada.get_by_role("button", name="Close the job")).to_be_visible()
