"""What used to stand in the job file alone, entered on its pages: by keyboard, live, without a script, undone."""

import re

from browser.app import Served, picture, settled, until, watched
from browser.test_every_page import faults_of
from playwright.sync_api import Browser, BrowserContext, Route, expect


def test_the_shop_is_set_up_by_keyboard_and_nothing_is_lost(context: BrowserContext, served: Served):
    page, watch = watched(context)
    page.goto(f"{served.root}/jobs/1/job")
    settled(page)
    page.get_by_role("button", name="Up: Take the fewest sheets").press("Enter")
    expect(page.locator("#aim-1")).to_contain_text("Take the fewest sheets")
    expect(page.locator("#aim-1")).to_be_focused()
    page.get_by_label("Kerf", exact=True).evaluate("one => one.closest('details').open = true")
    page.get_by_label("Kerf", exact=True).fill("2.8")
    expect(page.locator("#version")).to_have_value("2")
    taken = page.get_by_role("button", name="Take out: Make the fewest cuts")
    taken.press("Enter")  # not refused after the edit
    expect(page.locator("#did")).to_contain_text("Taken out")

    page.get_by_role("link", name="Making").click()
    page.get_by_role("link", name="Who works when").click()
    closed = page.get_by_label("Closed on")
    closed.fill("2027-03-25..2027-03-29; ")
    expect(closed).to_have_attribute("aria-invalid", "true")
    expect(page.locator("#hint-calendar-holidays")).to_contain_text("Expected")
    closed.fill("2027-03-25..2027-03-29, 2027-05-06")
    expect(closed).not_to_have_attribute("aria-invalid", "true")
    page.get_by_label("Name", exact=True).fill("Sunniva")
    page.keyboard.press("Enter")
    expect(page.locator("#did")).to_contain_text("Added")
    settled(page)
    page.locator("summary", has_text="Sunniva").press("Enter")
    page.get_by_label("Away on (Sunniva)").fill("2027-02-08")  # the button waits until it is kept
    page.get_by_role("button", name="Other hours on some weekdays, Person 1").press("Enter")
    expect(page.locator("#did")).to_contain_text("written anew")
    page.locator("summary", has_text="Sunniva").press("Enter")
    friday = page.get_by_label("Friday (Sunniva)")
    friday.fill("")
    page.get_by_label("Saturday (Sunniva)").fill("09:00-12:00")
    expect(page.get_by_label("Away on (Sunniva)")).to_have_value("2027-02-08")
    settled(page)
    assert faults_of(page) == []
    picture(page, "who-works-when")
    page.reload()
    expect(page.get_by_label("Saturday (Sunniva)")).to_have_value("09:00-12:00")
    expect(friday).to_have_value("")
    watch.clean()


def test_stock_is_changed_added_to_and_taken_back(context: BrowserContext, served: Served):
    page, watch = watched(context)
    page.goto(f"{served.root}/jobs/1/stock")
    settled(page)
    page.locator("summary", has_text="Line 1").press("Enter")
    price = page.get_by_label("Price of one, of a roll by the metre (1)")
    price.fill("")
    price.press_sequentially("735")
    size = page.get_by_role("textbox", name=re.compile(r"^Length x width.*\(1\)"))
    size.fill("2500 x")
    expect(size).to_have_attribute("aria-invalid", "true")
    size.fill("3000 x 1500")
    expect(size).not_to_have_attribute("aria-invalid", "true")
    expect(size).to_be_focused()
    expect(page.locator("summary", has_text="Line 1").locator("..")).to_have_attribute("open", "")
    new = page.locator("form", has=page.get_by_role("heading", name="Another line"))
    new.get_by_role("textbox", name=re.compile("^Length x width")).fill("large")
    new.get_by_role("button", name="Add").press("Enter")
    expect(page.get_by_role("alert").filter(has_text="Nothing was added")).to_be_focused()
    new.get_by_role("textbox", name=re.compile("^Length x width")).fill("2440 x 1220")
    new.get_by_label("Material").select_option("mdf-16")
    new.get_by_role("button", name="Add").press("Enter")
    expect(page.locator("summary", has_text="MDF 16 mm, 2440 x 1220")).to_be_visible()
    settled(page)
    assert faults_of(page) == []
    page.get_by_role("button", name="Undo").press("Enter")
    expect(page.locator("summary", has_text="MDF 16 mm, 2440 x 1220")).to_have_count(0)
    expect(page.locator("summary", has_text="3000 x 1500")).to_be_visible()
    watch.clean()


def test_all_of_it_works_with_no_script(browser: Browser, served: Served):
    context = browser.new_context(java_script_enabled=False, viewport={"width": 800, "height": 1200})
    page = context.new_page()
    page.goto(f"{served.root}/jobs/1/hours")
    page.get_by_label("Closed on").fill("2027-03-32")
    page.get_by_role("button", name="Set", exact=True).click()
    expect(page.get_by_label("Closed on")).to_have_value("2027-03-32")
    expect(page.locator("#hint-calendar-holidays")).to_contain_text("Expected")
    page.get_by_label("Closed on").fill("2027-03-25")
    page.get_by_role("button", name="Set", exact=True).click()
    expect(page.locator("#hint-calendar-holidays")).to_be_empty()
    page.goto(f"{served.root}/jobs/1/rates")
    page.get_by_label("Margin").fill("22 %")
    page.get_by_role("button", name="Set", exact=True).click()
    page.get_by_label("Name of it; of a payment, when").fill("Steel frame")
    page.get_by_label("Price; of a payment").fill("3200")
    page.get_by_role("button", name="Add").click()
    expect(page.locator("summary", has_text="Work of others 1: Steel frame")).to_be_visible()
    expect(page.get_by_label("Margin")).to_have_value("22 %")
    page.goto(f"{served.root}/jobs/1/brief")
    page.get_by_label("children", exact=True).select_option("wish")
    page.get_by_role("button", name="Set", exact=True).click()
    expect(page.get_by_label("children", exact=True)).to_have_value("wish")
    page.goto(f"{served.root}/jobs/1/text")
    text = page.locator("textarea").input_value()
    for words in ('holidays = "2027-03-25"', 'margin = "22 %"', "Steel frame", 'children = "wish"'):
        assert words in text
    context.close()


def test_what_is_typed_before_the_script_has_come_is_kept(context: BrowserContext, served: Served):
    page, watch = watched(context)
    held: list[Route] = []

    def hold(route: Route) -> None:
        held.append(route)

    page.route("**/static/live.js", hold)
    page.goto(f"{served.root}/jobs/1/job", wait_until="commit")
    page.get_by_label("Client").fill("Hedda Brand")
    expect(page.locator("#version")).to_have_value("0")
    until(page, "() => document.readyState !== 'loading'")
    for route in held:
        route.continue_()
    page.unroute("**/static/live.js")
    expect(page.locator("#version")).to_have_value("1")
    page.reload()
    expect(page.get_by_label("Client")).to_have_value("Hedda Brand")
    watch.clean()
