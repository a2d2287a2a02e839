"""What is typed into a form that is sent as a whole: nothing of it is lost by a reload, a dead app, another window."""

from browser.app import Served, picture, watched
from playwright.sync_api import Browser, BrowserContext, Page, expect

NOTE = "\n# typed for ten minutes\n"
BACK = "What you typed here before is back."


def text_of(page: Page, app: Served):
    page.goto(f"{app.root}/jobs/1/text")
    return page.get_by_label("Text", exact=True)


def type_more(page: Page, app: Served):
    box = text_of(page, app)
    box.fill(box.input_value() + NOTE)
    page.wait_for_timeout(900)
    return box


def keep(page: Page):
    with page.expect_navigation():
        page.get_by_role("button", name="Keep", exact=True).click()


def test_a_reload_brings_the_typed_text_back_until_it_is_kept_or_dropped(
    context: BrowserContext, served: Served
):
    page, watch = watched(context)
    type_more(page, served)
    page.reload()
    box = page.get_by_label("Text", exact=True)
    expect(page.get_by_text(BACK)).to_be_visible()
    assert box.input_value().endswith(NOTE)
    picture(page, "text-typed-before")
    page.get_by_role("button", name="Drop it").click()
    expect(page.get_by_text(BACK)).to_have_count(0)
    assert not page.get_by_label("Text", exact=True).input_value().endswith(NOTE)
    type_more(page, served)
    keep(page)
    assert text_of(page, served).input_value().endswith(NOTE)
    expect(page.get_by_text(BACK)).to_have_count(0)
    watch.clean()


def test_sent_to_a_dead_app_the_page_stays_and_can_be_sent_again(context: BrowserContext, served: Served):
    page, _ = watched(context)
    box = type_more(page, served)
    served.kill()
    page.get_by_role("button", name="Keep", exact=True).click()
    expect(page.locator("#away")).to_be_visible()
    assert box.input_value().endswith(NOTE)
    served.start()
    keep(page)
    expect(page.locator("#away")).to_be_hidden()
    assert text_of(page, served).input_value().endswith(NOTE)


def test_typed_before_somebody_else_changed_the_job_it_does_not_run_them_over(
    browser: Browser, served: Served
):
    mine, theirs = browser.new_context(locale="en-GB"), browser.new_context(locale="en-GB")
    page, _ = watched(mine)
    other, _ = watched(theirs)
    type_more(page, served)
    box = text_of(other, served)
    box.fill(box.input_value() + "\n# by somebody else\n")
    keep(other)
    page.reload()
    page.get_by_role("button", name="Keep", exact=True).click()
    expect(page.get_by_role("alert").filter(has_text="changed in another window")).to_be_visible()
    assert page.get_by_label("Text", exact=True).input_value().endswith(NOTE)  # given back, not lost
    assert text_of(other, served).input_value().endswith("# by somebody else\n")
    mine.close()
    theirs.close()


def test_a_new_job_half_filled_in_outlives_the_app(context: BrowserContext, served: Served):
    page, _ = watched(context)
    page.goto(f"{served.root}/new?what=top")
    name = page.get_by_label("Name", exact=True).first
    name.fill("Wedging table")
    page.wait_for_timeout(900)
    served.kill()
    page.locator("main form button.main").first.click()
    expect(page.locator("#away")).to_be_visible()
    served.start()
    page.reload()
    expect(page.get_by_label("Name", exact=True).first).to_have_value("Wedging table")
    page.locator("main form button.main").first.click()
    page.wait_for_url("**/jobs/**")
    expect(page.get_by_role("heading", name="Wedging table").first).to_be_visible()
