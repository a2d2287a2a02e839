"""Entries that come and go while one types: what is set first shows what more can be said, with nothing lost."""

from browser.app import Served, picture, settled, watched
from browser.test_every_page import faults_of
from playwright.sync_api import BrowserContext, expect


def test_what_is_set_first_shows_the_rest_and_keeps_focus_and_typing(context: BrowserContext, served: Served):
    page, watch = watched(context)
    page.goto(f"{served.root}/jobs/1/parts/3.3")
    settled(page)
    page.get_by_label("Width", exact=True).fill("38O")  # the letter O: refused, and still there afterwards
    expect(page.get_by_label("Width", exact=True)).to_have_attribute("aria-invalid", "true")
    for title in ("How it is held", "Each corner by itself", "Edging, front"):
        page.locator("summary", has_text=title).press("Enter")
    held = page.get_by_role("group", name="How it is held").get_by_label("How", exact=True)
    expect(page.get_by_label("Fixings")).to_have_count(0)
    held.focus()
    held.select_option("screwed")
    fixings = page.get_by_label("Fixings")
    expect(fixings).to_be_visible()  # the fold is open still
    expect(held).to_be_focused()
    expect(page.get_by_label("Width", exact=True)).to_have_value("38O")
    expect(page.get_by_label("Width", exact=True)).to_have_attribute("aria-invalid", "true")
    page.keyboard.press("Tab")
    page.keyboard.type("6")
    page.get_by_label("Width", exact=True).fill("372")
    expect(page.locator("#plan")).to_contain_text("372")
    page.get_by_role("textbox", name="Edging width, front").fill("14")
    expect(page.locator("#plan")).to_contain_text("14")
    settled(page)
    for width in (1280, 800):
        page.set_viewport_size({"width": width, "height": 900})
        assert faults_of(page) == []
        picture(page, f"part-more-entries-{width}")
    page.reload()
    expect(page.get_by_label("Fixings")).to_have_value("6")
    expect(page.get_by_label("Width", exact=True)).to_have_value("372")
    watch.clean()


def test_the_edges_that_are_edged_are_chosen_and_drawn(context: BrowserContext, served: Served):
    page, _ = watched(context)
    page.goto(f"{served.root}/jobs/1/parts/3.3")
    settled(page)
    edged = page.get_by_label("Edged", exact=True)
    expect(edged).to_have_value("front")
    edged.select_option("front, left")
    expect(page.locator("summary", has_text="Edging, left")).to_be_visible()
    page.locator("#plan").get_by_role("link", name="Edging width, front", exact=True).click()
    expect(
        page.get_by_role("textbox", name="Edging width [mm]", exact=True)
    ).to_be_focused()  # the one of all edges
    page.locator("summary", has_text="Edging, front").press("Enter")
    page.get_by_role("textbox", name="Edging width, front").fill("13")
    page.locator("summary", has_text="Edging, front").press("Enter")
    expect(page.locator("#plan")).to_contain_text("13")
    page.locator("#plan").get_by_role("link", name="Edging width, front", exact=True).click()
    expect(
        page.get_by_role("textbox", name="Edging width, front")
    ).to_be_focused()  # its own, in the fold that opens
    page.get_by_role("link", name="From all sides, in 3-D").click()
    expect(page.locator("#only")).to_have_value("3.3")
