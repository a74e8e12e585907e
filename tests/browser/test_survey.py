"""A whole survey by keyboard alone, and in big digits on a phone; the server killed in the middle, and nothing lost."""

import re

import pytest
from playwright.sync_api import Page, expect
from sqlalchemy import select

from tests.factories.gear import make_propeller
from yardapp.bench.models import Sheet
from yardapp.db import snapshot, transaction

# What a browser says of a server that is down, and the checker of its own style.
EXPECTED = re.compile("ERR_CONNECTION_REFUSED|Failed to fetch|style|axe")
RADII, ANGLES, BLADES = ("0.5", "0.7", "0.9"), (0, 20, 40), (1, 2, 3)
PITCH_MM = 450


def height(angle: int) -> str:
    """A helicoid of 450 mm as it is called out: 20, 45, 70."""
    return f"{20 + PITCH_MM * angle / 360:g}"


ALL = [height(angle) for _ in BLADES for _ in RADII for angle in ANGLES]


@pytest.fixture
def tag(yard) -> str:
    with transaction() as session:
        return make_propeller(session, diameter_m=(0.600, 0.001), pitch_m=None).tag


def begin(page: Page, yard, tag: str) -> None:
    """Lay the survey out with the keyboard: nothing is clicked."""
    page.goto(f"{yard.address}/bench/{tag}/survey")
    for label, text in (("Blades", "3"), ("Pitch it should have", "450 mm"), ("Radii", "0.5 0.7 0.9")):
        page.get_by_label(label, exact=False).first.focus()
        page.keyboard.press("Control+a")
        page.keyboard.type(text)
    page.get_by_label("Angles of the stations").focus()
    page.keyboard.press("Control+a")
    page.keyboard.type("0 20 40")
    page.keyboard.press("Enter")
    page.wait_for_url(re.compile("/half-done/"))
    expect(said(page)).to_contain_text("as you type")


def cells(page: Page):
    return page.locator(".grid-box")


def values(page: Page) -> list[str]:
    return cells(page).evaluate_all("boxes => boxes.map(box => box.value)")


def said(page: Page):
    return page.locator("[data-writing-said]")


def kept_readings() -> list[str]:
    with snapshot() as session:
        sheet = session.scalars(select(Sheet)).one()
    return [cell["height_m_typed"] for cell in sheet.readings["cells"]]


def test_a_whole_survey_by_keyboard_alone_with_the_server_killed_in_the_middle(
    at_work, yard, tag, axe, complaints, browser_context_args
):
    page = at_work
    begin(page, yard, tag)
    page.keyboard.press("Tab")
    cells(page).first.focus()
    for text in ALL[:12]:
        page.keyboard.type(text)
        page.keyboard.press("Enter")
    expect(said(page)).to_contain_text("Kept on the yard's machine")

    yard.stop()
    for text in ALL[12:20]:
        page.keyboard.type(text)
        page.keyboard.press("Enter")
    expect(said(page)).to_contain_text("8 boxes are kept here")
    yard.start()
    expect(said(page)).to_contain_text("Kept on the yard's machine", timeout=15000)

    for text in ALL[20:]:
        page.keyboard.type(text)
        page.keyboard.press("Enter")
    expect(page.locator("#lead")).to_contain_text("Pitch survey 450.0")
    assert values(page) == ALL
    assert axe(page) == []
    # The last Enter went to the main act of the page.
    expect(page.get_by_role("button", name="Save the sheet")).to_be_focused()
    page.keyboard.press("Enter")
    page.wait_for_url(re.compile("/bench/surveys/"))
    assert kept_readings() == ALL
    assert axe(page) == []
    assert [line for line in complaints if not EXPECTED.search(line)] == []


def test_a_reload_while_the_server_is_down_loses_nothing(at_work, yard, tag):
    page = at_work
    begin(page, yard, tag)
    address = page.url
    yard.stop()
    cells(page).first.focus()
    for text in ALL[:5]:
        page.keyboard.type(text)
        page.keyboard.press("Enter")
    expect(said(page)).to_contain_text("5 boxes are kept here")
    page.goto("about:blank")
    yard.start()

    page.goto(address)

    expect(said(page)).to_contain_text("Kept on the yard's machine")
    assert values(page)[:6] == [*ALL[:5], ""]
    page.reload()
    assert values(page)[:5] == ALL[:5]


def test_one_calls_and_one_types_in_big_digits_with_the_server_killed_in_the_middle(at_work, yard, tag, axe):
    page = at_work
    begin(page, yard, tag)
    page.get_by_role("button", name="One at a time, big").click()
    box = page.locator("#caller-box")
    place = page.locator("#caller-place")
    expect(place).to_have_text("Blade 1, 0.5 R, station 1")
    assert box.evaluate("box => parseFloat(getComputedStyle(box).fontSize)") >= 64

    box.fill("19")
    page.get_by_role("button", name="Next").click()
    page.get_by_role("button", name="Back").click()
    expect(box).to_have_value("19")
    for text in ALL[:9]:
        box.fill(text)
        page.get_by_role("button", name="Next").click()
    expect(place).to_have_text("Blade 2, 0.5 R, station 1")
    assert axe(page) == []

    yard.stop()
    for text in ALL[9:14]:
        page.keyboard.type(text)
        page.keyboard.press("Enter")
    page.get_by_role("button", name="Skip").click()
    page.get_by_role("button", name="To the grid").click()
    expect(said(page)).to_contain_text("are kept here")
    yard.start()
    expect(said(page)).to_contain_text("Kept on the yard's machine", timeout=15000)

    page.reload()
    page.get_by_role("button", name="One at a time, big").click()
    # Where it was left: the cell that was skipped is the first empty one.
    expect(place).to_have_text("Blade 2, 0.7 R, station 3")
    for text in ALL[14:]:
        box.fill(text)
        page.get_by_role("button", name="Next").click()
    expect(page.locator("#lead")).to_contain_text("Pitch survey 450.0")
    page.get_by_role("button", name="Save the sheet").click()
    page.wait_for_url(re.compile("/bench/surveys/"))
    assert kept_readings() == ALL


def test_two_phones_on_one_survey_see_each_others_cells(at_work, yard, tag):
    page = at_work
    begin(page, yard, tag)
    other = page.context.new_page()
    other.goto(page.url)

    cells(page).nth(0).fill("20")
    cells(other).nth(9).fill("20,5")
    expect(said(page)).to_contain_text("Kept on the yard's machine")

    expect(cells(page).nth(9)).to_have_value("20,5", timeout=15000)
    expect(cells(other).nth(0)).to_have_value("20", timeout=15000)


def test_a_block_from_a_spreadsheet_fills_the_cells_it_covers(at_work, yard, tag):
    page = at_work
    begin(page, yard, tag)
    block = "20,0\t45,0\t70,0\n20,1;45,1;70,1\n"
    cells(page).nth(3).focus()
    cells(page).nth(3).evaluate(
        """(box, text) => {
            const data = new DataTransfer();
            data.setData("text", text);
            box.dispatchEvent(new ClipboardEvent("paste", { clipboardData: data, bubbles: true, cancelable: true }));
        }""",
        block,
    )

    assert values(page)[3:9] == ["20,0", "45,0", "70,0", "20,1", "45,1", "70,1"]
    expect(said(page)).to_contain_text("Kept on the yard's machine")
    expect(page.locator("#lead")).to_contain_text("Pitch survey 450.0")


def test_arrows_go_where_they_point(at_work, yard, tag):
    page = at_work
    begin(page, yard, tag)
    cells(page).first.focus()
    went = []
    for key in ("ArrowRight", "ArrowDown", "ArrowDown", "ArrowDown", "ArrowLeft", "ArrowUp", "Shift+Enter"):
        page.keyboard.press(key)
        went.append(page.evaluate("document.activeElement.id"))

    assert went == ["h-1-0.5-2", "h-1-0.7-2", "h-1-0.9-2", "h-2-0.5-2", "h-2-0.5-1", "h-1-0.9-1", "h-1-0.7-3"]


@pytest.mark.parametrize("width", [320, 360])
def test_the_pages_of_a_survey_fit_a_narrow_phone(at_work, yard, tag, axe, width):
    page = at_work
    begin(page, yard, tag)
    address = page.url
    page.set_viewport_size({"width": width, "height": 740})
    for path in (f"{yard.address}/bench/{tag}/survey", address, f"{yard.address}/bench/{tag}/survey/blank"):
        page.goto(path)
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), path
        assert axe(page) == []
