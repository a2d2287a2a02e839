"""A newcomer's first five minutes by the keyboard alone, on a tablet, in Swedish and inch: nothing needs a manual."""

import io
import re

from browser.app import Served, picture, settled, watched
from browser.test_every_page import faults_of
from playwright.sync_api import Browser, Locator, Page, expect
from pypdf import PdfReader

MOST_TABS = 120


def tab_to(page: Page, wanted: Locator) -> None:
    """Tab until it has the focus, as somebody does who has no mouse; every stop on the way can be seen."""
    handle = wanted.element_handle()
    for _ in range(MOST_TABS):
        page.keyboard.press("Tab")
        if page.evaluate("(one) => one === document.activeElement", handle):
            return
    raise AssertionError(f"no way by Tab to {wanted}")


def follow(page: Page, wanted: Locator) -> None:
    tab_to(page, wanted)
    with page.expect_navigation():
        page.keyboard.press("Enter")
    settled(page)


def choose(page: Page, field: Locator, starts: str) -> None:
    """A choice by the arrow keys."""
    tab_to(page, field)
    page.keyboard.press("Home")
    for _ in range(field.locator("option").count()):
        if field.locator("option:checked").inner_text().startswith(starts):
            return
        page.keyboard.press("ArrowDown")
    raise AssertionError(f"nothing to choose begins with {starts}")


def fill(page: Page, field: Locator, text: str) -> None:
    tab_to(page, field)
    page.keyboard.press("ControlOrMeta+a")
    page.keyboard.type(text)


def test_a_top_bows_is_mended_and_printed(browser: Browser, served: Served):
    context = browser.new_context(viewport={"width": 800, "height": 1200}, locale="sv-SE")
    page, watch = watched(context)
    page.goto(served.root)
    follow(page, page.get_by_role("button", name="Visa i tum"))
    follow(page, page.get_by_role("link", name="Nytt jobb"))
    follow(page, page.get_by_role("link", name=re.compile("^En toppskiva")))
    assert page.get_by_label("Längd [tum]").input_value() == "47 1/4"
    fill(page, page.get_by_label("Längd [tum]"), "64 1/2")
    fill(page, page.get_by_label("Bredd [tum]", exact=True), "30 3/4")
    fill(page, page.get_by_label(re.compile("^Hörnradie")), "2")
    choose(page, page.get_by_label("Beläggning", exact=True), "Möbellinoleum")
    choose(page, page.get_by_label("Beläggning under eller bakom"), "inget")
    picture(page, "first-minutes-new")
    assert faults_of(page) == []
    page.keyboard.press("Tab")
    follow(page, page.get_by_role("button", name="Skapa"))
    expect(page.locator("#plan")).to_contain_text("64 1/2")  # drawn at once
    picture(page, "first-minutes-part")
    assert faults_of(page) == []
    follow(page, page.get_by_role("link", name="Kommer det att fungera?"))
    grave = page.locator(".finding.stop, .finding.weigh")
    before = grave.count()
    bow = grave.filter(has_text=re.compile("böj|slår sig|baksida", re.I)).first
    follow(page, bow.get_by_role("link", name="Prova det").first)
    expect(page.locator("#effect table")).to_be_visible()
    expect(page.get_by_role("button", name="Behåll den")).to_be_in_viewport()  # no need to look for it
    picture(page, "first-minutes-try")
    assert faults_of(page) == []
    follow(page, page.get_by_role("button", name="Behåll den"))
    assert grave.count() < before
    picture(page, "first-minutes-kept")
    follow(page, page.get_by_role("link", name=re.compile("top", re.I)).first)
    sheets = [one.extract_text() for one in PdfReader(io.BytesIO(page.pdf(format="A4"))).pages]
    assert "64 1/2" in sheets[0]
    assert all("utskrivet" in one for one in sheets)
    watch.clean()
    context.close()
