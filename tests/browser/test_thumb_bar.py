"""The acts that stay within reach of a thumb hide nothing that follows them."""

from playwright.sync_api import Page, expect


def test_what_follows_a_forms_acts_can_be_tapped_too(at_work: Page, yard):
    at_work.goto(f"{yard.address}/people/yard/1")

    # A click is refused by the browser's own hit test where something lies over the link.
    at_work.get_by_role("link", name="What Ada Brook did").click(timeout=5000)

    expect(at_work.get_by_role("heading", level=1)).to_contain_text("Ada Brook: timeline")
