"""From a propeller in the hand to an answer, as a new yard does it: on a phone and on a desktop."""

import re
import time

from PIL import Image, ImageDraw
from playwright.sync_api import Page, expect

from tests.browser.conftest import WORDS

EVERYWHERE = (
    "/rack", "/log", "/log/shaft", "/boats", "/boats/log", "/bench", "/marks", "/people/yard", "/people/me", "/how",
    "/yard/parts",
)  # fmt: skip


def photo_of_a_hub(path):
    image = Image.new("RGB", (1600, 1200), (150, 115, 60))
    ImageDraw.Draw(image).text((500, 500), "22 X 18 RH", fill=(40, 30, 10))
    image.save(path)
    return path


def claim(page: Page, address: str, code: str) -> None:
    page.goto(address)
    page.get_by_label("Code in the terminal").fill(code)
    page.get_by_label("Your name").fill("Ada Brook")
    page.get_by_label("Password").fill(WORDS)
    page.get_by_role("button", name="Open the yard").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Ada Brook")


def log_a_propeller(page: Page, address: str, tmp_path) -> None:
    page.goto(f"{address}/rack")
    page.get_by_role("link", name="Log a propeller").first.click()
    page.get_by_label("Photo").set_input_files(photo_of_a_hub(tmp_path / "hub.jpg"))
    page.get_by_role("radio", name="Right hand").check()
    page.get_by_label("Stamp").fill("22 x 18 RH")
    page.get_by_label("Diameter").fill('22"')
    page.get_by_label("Blades").fill("3")
    page.get_by_label("Where put").fill("Rack C, bin 7")
    expect(page.get_by_text("558.8 mm (22 in)")).to_be_visible()
    page.get_by_role("button", name="Save and give it a tag").click()
    page.wait_for_url(re.compile("/propellers/P-0001"))


def measure_the_pitch(page: Page, address: str) -> None:
    page.goto(f"{address}/propellers/P-0001")
    page.get_by_role("link", name="Measure", exact=True).click()
    page.get_by_role("link", name=re.compile("Pitch.*Rise", re.DOTALL)).first.click()
    page.get_by_label("Radius of the mark").fill("195 mm")
    page.get_by_label("Rise", exact=False).first.fill("74 mm")
    page.get_by_label("Swing", exact=False).first.fill("60")
    # 74 mm over 60 degrees is 74 x 360 / 60 = 444 mm: arithmetic of the helix.
    expect(page.get_by_text(re.compile(r"Pitch 444\.0 ± \d")).first).to_be_visible()
    expect(page.get_by_text("It agrees").first).to_be_visible()
    page.get_by_role("button", name="Save the sheet").click()
    page.wait_for_url(re.compile("/bench/sheets/"))


def measure_the_bore(page: Page, address: str) -> None:
    page.goto(f"{address}/bench/P-0001/bore")
    page.get_by_role("radio", name="Taper").check()
    boxes = {"Large end": "38.1 mm", "Small end": "33.34 mm", "Length between": "76.2 mm", "Keyway, width": "9.5 mm"}
    for label, typed in (
        boxes | {"Keyway, depth": "4.8 mm", "Hub, length": "76.2 mm", "Hub, diameter": "80 mm"}
    ).items():
        page.get_by_label(label).first.fill(typed)
    expect(page.get_by_text(re.compile("1:16")).first).to_be_visible()
    page.get_by_role("button", name="Save the sheet").click()
    page.wait_for_url(re.compile("/bench/sheets/"))


def enter_a_boat(page: Page, address: str) -> None:
    page.goto(f"{address}/boats/log")
    page.get_by_label("Name").first.fill("Kittiwake")
    page.get_by_label("Owner").first.fill("R. Thorne")
    page.locator("main form[method=post] button.main, main form[method=post] .act").first.click()
    page.get_by_role("link", name=re.compile("Add")).first.click()
    page.get_by_role("radio", name=re.compile("Right hand")).check()
    typed = {
        "rated_power_w": "38 hp",
        "rated_speed_rps": "2800",
        "reduction_ratio": "2.03:1",
        "shaft_diameter_m": "38.1 mm",
        "taper": "1:16",
        "taper_length_m": "70 mm",
        "keyway_width_m": "9.5 mm",
        "keyway_depth_m": "4.8 mm",
        "hub_space_m": "30 mm",
        "hull_clearance_m": "361 mm",
    }
    for name, text in typed.items():
        page.locator(f"[name={name}]").fill(text)
    page.get_by_role("radio", name=re.compile("surface")).check()
    page.get_by_role("button", name="Save the drive").click()
    page.wait_for_url(re.compile("/(drives|boats)/1$"))


def ask_whether_it_goes_on(page: Page, address: str) -> None:
    page.goto(f"{address}/propellers/P-0001")
    page.get_by_role("link", name="Does it go on").click()
    page.get_by_role("link", name=re.compile("Kittiwake")).click()
    expect(page.get_by_role("heading", level=1)).to_have_text(re.compile("Goes on", re.IGNORECASE))
    for check in ("Hand", "Taper", "Large end", "Keyway width", "Tip room"):
        expect(page.locator(".checks-item", has_text=check).first).to_be_visible()
    page.get_by_text("Figures and sums").first.click()


def find_it_again(page: Page, address: str) -> None:
    for line in ("P-0001", "22 x 18", "kittiwake", "2? x 18", "bore 1-1/2"):
        page.goto(f"{address}/people/yard")
        page.get_by_role("searchbox").fill("")
        page.get_by_role("searchbox").press_sequentially(line)
        expect(page.locator("#found").get_by_role("link").first).to_be_visible()


def test_the_whole_way_from_a_propeller_in_the_hand_to_an_answer(page, yard, code, axe, complaints, tmp_path):
    """The walk, with the accessibility checker at every stop and the browser's console silent."""
    claim(page, yard.address, code)
    began = time.monotonic()
    log_a_propeller(page, yard.address, tmp_path)
    assert time.monotonic() - began < 60
    found = {"item": axe(page)}
    measure_the_pitch(page, yard.address)
    found["sheet"] = axe(page)
    measure_the_bore(page, yard.address)
    enter_a_boat(page, yard.address)
    ask_whether_it_goes_on(page, yard.address)
    found["verdict"] = axe(page)
    find_it_again(page, yard.address)

    assert {name: faults for name, faults in found.items() if faults} == {}
    assert [said for said in complaints if "axe" not in said and "style" not in said] == []


def test_every_form_passes_the_accessibility_checker(at_work, yard, axe):
    faults = {}
    for address in EVERYWHERE:
        at_work.goto(yard.address + address)
        faults[address] = axe(at_work)

    assert {address: found for address, found in faults.items() if found} == {}


def test_no_page_scrolls_sideways_at_320_points(at_work, yard):
    at_work.set_viewport_size({"width": 320, "height": 640})
    wide = {}
    for address in ("/rack", "/log", "/boats/log", "/bench", "/marks", "/people/me", "/how"):
        at_work.goto(yard.address + address)
        wide[address] = at_work.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")

    assert {address: over for address, over in wide.items() if over > 0} == {}


def test_what_was_typed_survives_a_reload_and_a_dead_server_and_is_saved_once(at_work, yard):
    page = at_work
    page.goto(f"{yard.address}/log")
    page.get_by_label("Stamp").fill("560x460 LH")
    page.get_by_label("Where put").fill("Shed, left of the door")
    page.wait_for_timeout(700)
    page.reload()
    if page.get_by_role("button", name=re.compile("use it", re.IGNORECASE)).count():
        page.get_by_role("button", name=re.compile("use it", re.IGNORECASE)).first.click()
    expect(page.get_by_label("Where put")).to_have_value("Shed, left of the door")
    yard.stop()
    page.get_by_role("button", name="Save and give it a tag").click()
    expect(page.get_by_text(re.compile("Not saved yet")).first).to_be_visible()
    yard.start()

    page.get_by_role("button", name=re.compile("Try again|Save and give it a tag")).first.click()

    page.wait_for_url(re.compile("/propellers/P-0001"))
    page.goto(f"{yard.address}/rack")
    expect(page.locator("main .items-row")).to_have_count(1)
