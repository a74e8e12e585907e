"""Arrows and circles over a photo: by finger, by mouse, by two taps, and by keyboard alone."""

import re

import pytest
from playwright.sync_api import Page, expect
from sqlalchemy import select

from tests.factories.gear import make_propeller
from tests.factories.people import make_who
from tests.gear.test_views import picture
from yardapp.db import snapshot, transaction
from yardapp.gear import services as gear
from yardapp.gear.photo_models import PhotoMark

ENDS = ("from_x_ratio", "from_y_ratio", "to_x_ratio", "to_y_ratio")
A_PIXEL = 0.011  # one per cent, as the boxes count


@pytest.fixture
def photo(at_work: Page, yard) -> Page:
    """The page of one photo of a propeller, 800 by 600."""
    with transaction() as session:
        item = make_propeller(session)
        kept = gear.keep_picture(yard.settings.photos, picture(size=(800, 600))[0])
        gear.attach_photo(session, make_who(session), item, kept, "aft face")
    at_work.goto(f"{yard.address}/photo/1")
    expect(at_work.locator("svg.marked.marking-on")).to_be_visible()
    return at_work


def spot(page: Page, across: float, down: float) -> tuple[float, float]:
    """Where on the glass a share of the photo lies."""
    page.locator("svg.marked").evaluate("photo => photo.scrollIntoView({block: 'start'}); scrollBy(0, -90)")
    box = page.locator("svg.marked image").bounding_box()
    assert box is not None
    return box["x"] + across * box["width"], box["y"] + down * box["height"]


def drag(page: Page, start: tuple[float, float], end: tuple[float, float]) -> None:
    """With a finger where there is a touch screen, else with the mouse."""
    (x1, y1), (x2, y2) = spot(page, *start), spot(page, *end)
    way = [(x1 + share * (x2 - x1), y1 + share * (y2 - y1)) for share in (0.0, 0.3, 0.6, 1.0)]
    if page.evaluate("navigator.maxTouchPoints") == 0:
        page.mouse.move(*way[0])
        page.mouse.down()
        for x, y in way[1:]:
            page.mouse.move(x, y)
        page.mouse.up()
        return
    touch = page.context.new_cdp_session(page)
    for number, (x, y) in enumerate(way):
        kind = "touchMove" if number else "touchStart"
        touch.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": [{"x": x, "y": y}]})
    touch.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})


def tap(page: Page, across: float, down: float) -> None:
    where = spot(page, across, down)
    (page.touchscreen.tap if page.evaluate("navigator.maxTouchPoints") else page.mouse.click)(*where)


def drawn() -> list[tuple[str, str, list[float]]]:
    """Each mark in the register: what, its words, and both ends."""
    with snapshot() as session:
        marks = session.scalars(select(PhotoMark).order_by(PhotoMark.id)).all()
        return [(mark.kind, mark.words, [getattr(mark, end) for end in ENDS]) for mark in marks]


def draw_it(page: Page) -> None:
    page.get_by_role("button", name="Draw it").click()
    expect(page.get_by_text("Drawn.")).to_be_visible()


def test_an_arrow_is_dragged_over_the_photo_and_stands_where_it_was_drawn(photo: Page, complaints):
    drag(photo, (0.2, 0.3), (0.6, 0.7))
    photo.get_by_label("What it shows").fill("Crack, blade 2")
    draw_it(photo)

    kind, words, ends = drawn()[0]
    assert (kind, words) == ("arrow", "Crack, blade 2")
    assert ends == pytest.approx([0.2, 0.3, 0.6, 0.7], abs=A_PIXEL)
    expect(photo.get_by_role("listitem").filter(has_text="Crack, blade 2")).to_be_visible()
    assert complaints == []


def test_nothing_need_be_dragged_two_taps_do(photo: Page, complaints):
    tap(photo, 0.25, 0.5)
    expect(photo.get_by_text("It begins there. Tap where it ends.")).to_be_visible()
    tap(photo, 0.75, 0.4)
    photo.get_by_text("A circle", exact=True).click()
    draw_it(photo)

    kind, _words, ends = drawn()[0]
    assert kind == "circle"
    assert ends == pytest.approx([0.25, 0.5, 0.75, 0.4], abs=A_PIXEL)
    assert complaints == []


def test_a_keyboard_alone_draws_an_arrow_and_sees_it_before_it_is_kept(photo: Page):
    for label, text in (("From, across", "10"), ("From, down", "20"), ("To, across", "50"), ("To, down", "60")):
        photo.get_by_label(label).focus()
        photo.keyboard.type(text)
    # 10 % and 20 % of 800 by 600; 50 % and 60 %.
    expect(photo.locator("svg.marked .marked-line")).to_have_attribute("d", re.compile("^M 80 120 L 400 360 "))
    photo.keyboard.press("Tab")
    photo.keyboard.type("Pitting")
    photo.keyboard.press("Enter")
    expect(photo.get_by_text("Drawn.")).to_be_visible()

    assert drawn() == [("arrow", "Pitting", [0.1, 0.2, 0.5, 0.6])]


def test_what_is_drawn_is_taken_away_and_the_pages_pass_the_accessibility_checker(photo: Page, yard, axe):
    drag(photo, (0.2, 0.3), (0.6, 0.7))
    draw_it(photo)
    faults = axe(photo)
    photo.get_by_role("button", name="Take away 1").click()
    expect(photo.get_by_text("Taken away.")).to_be_visible()
    photo.goto(f"{yard.address}/items/P-0001/photos")

    assert [kind for kind, *_ in drawn()] == ["arrow", "taken away"]
    assert faults + axe(photo) == []
    assert photo.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")
