"""Where the keyboard stands after something was done, and what a screen reader hears of it."""

import re

from browser.app import Served, settled, until, watched
from playwright.sync_api import BrowserContext, Page, expect

TOP = "/jobs/1/parts/1.1"
FOCUSED = "(wanted) => document.activeElement.id === wanted"


def on(context: BrowserContext, app: Served, address: str) -> Page:
    page, _ = watched(context)
    page.goto(f"{app.root}{address}")
    settled(page)
    return page


def press(page: Page, name: str | re.Pattern[str], role: str = "button") -> None:
    """By the keyboard: the control is reached, seen and pressed."""
    control = page.get_by_role(role, name=name).first
    control.focus()
    expect(control).to_be_focused()
    with page.expect_navigation():
        page.keyboard.press("Enter")
    settled(page)


def stands_at(page: Page, wanted: str) -> None:
    """Waits, for a busy machine, and then once more, for what might take the focus away again."""
    until(page, FOCUSED, wanted)
    page.wait_for_timeout(150)
    assert page.evaluate(FOCUSED, wanted)


def test_undo_and_redo_keep_the_focus_and_say_what_they_did(context: BrowserContext, served: Served):
    page = on(context, served, TOP)
    for label, typed in (("Length", "1777"), ("Width", "640")):
        page.get_by_label(label, exact=True).fill(typed)
        expect(page.locator("#plan")).to_contain_text(typed)
    press(page, "Undo")
    stands_at(page, "undo")  # more can be undone
    expect(page.locator("#did")).to_have_text("Undone: top, Width 640 → 650.")
    assert page.locator("#undo").get_attribute("aria-describedby") == "did"
    assert "did=" not in page.url  # loading again tells nothing
    press(page, "Undo")
    stands_at(page, "did")  # the button is spent
    expect(page.locator("#did")).to_have_text("Undone: top, Length 1777 → 1800.")
    press(page, "Redo")
    stands_at(page, "redo")
    page.reload()
    expect(page.locator("#did")).to_have_count(0)


def test_a_status_is_put_in_again_so_that_it_is_read(context: BrowserContext, served: Served):
    page, _ = watched(context)
    page.add_init_script(
        "addEventListener('DOMContentLoaded', () => { window.heard = []; new MutationObserver(() => "
        "window.heard.push(document.getElementById('did').textContent)).observe("
        "document.getElementById('did'), {subtree: true, childList: true, characterData: true}); });"
    )
    page.goto(f"{served.root}{TOP}?did=added#did")
    until(page, "window.heard.length > 0")
    assert page.evaluate("window.heard") == ["Added. Undo takes it off again."]
    assert page.locator("#did").get_attribute("role") == "status"


def test_a_remedy_tried_and_kept_or_taken_back(context: BrowserContext, served: Served):
    page = on(context, served, "/jobs/1/check")
    finding = page.locator(".finding", has=page.get_by_role("link", name="Try it")).first
    number = finding.get_attribute("id")
    assert number
    press(page, "Try it", "link")
    press(page, "Take it back", "link")
    stands_at(page, number)  # back at the finding it came from
    press(page, "Try it", "link")
    press(page, "Keep it")
    stands_at(page, "did")
    expect(page.locator("#did")).to_contain_text("kept")


def test_entries_added_and_taken_off_parts_copied_and_taken_out(context: BrowserContext, served: Served):
    page = on(context, served, "/jobs/1/add/1.1")
    press(page, "Add")
    stands_at(page, "did")
    assert page.url.endswith("/parts/1.1#did")
    page.goto(f"{served.root}/jobs/1/add/1.1")
    press(page, re.compile("^Take off"))
    stands_at(page, "did")
    press(page, "Another part like this")
    stands_at(page, "did")
    expect(page.locator("#did")).to_contain_text("new part")
    page.goto(f"{served.root}/")
    press(page, re.compile("^Put away"))
    stands_at(page, "did")
    page.get_by_text("Put away (1)").press("Enter")
    press(page, re.compile("^Bring back"))
    stands_at(page, "did")


def test_a_field_refused_has_the_focus(context: BrowserContext, served: Served):
    page = on(context, served, "/new?what=top")
    page.get_by_label("Width [mm]", exact=True).fill("wide")
    press(page, "Make it")
    stands_at(page, "f-width")


def test_what_follows_takes_neither_focus_nor_what_was_folded_open(context: BrowserContext, served: Served):
    page = on(context, served, TOP)
    why = page.locator("#findings summary", has_text="Why").nth(1)
    why.press("Enter")
    expect(why.locator("..")).to_have_attribute("open", "")
    before = page.locator("#findings").element_handle()
    page.evaluate(  # the width is set while the focus stays where it is, as another hand would
        "() => { const one = [...document.querySelectorAll('#entries input')]"
        ".find(one => one.id && one.name.endsWith('size[1]'));"
        " one.value = '655'; one.dispatchEvent(new Event('input', {bubbles: true})); }"
    )
    expect(page.locator("#plan")).to_contain_text("655")
    settled(page)
    assert not page.evaluate("(one) => one.isConnected", before)  # the findings were put in anew
    again = page.locator("#findings summary", has_text="Why").nth(1)
    expect(again.locator("..")).to_have_attribute("open", "")
    expect(again).to_be_focused()
