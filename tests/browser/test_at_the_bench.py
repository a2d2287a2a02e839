"""What a maker does at the screen: types, is interrupted, comes back, shares it with another window."""

import re

from browser.app import LONG_MS, Served, picture, settled, watched
from playwright.sync_api import Browser, BrowserContext, Page, expect

TOP = "/jobs/1/parts/1.1"


def on_the_top(context: BrowserContext, app: Served) -> Page:
    page, _ = watched(context)
    page.goto(f"{app.root}{TOP}")
    settled(page)
    return page


def kept_text(page: Page, app: Served) -> str:
    """The job's text as the app has it now."""
    page.goto(f"{app.root}/jobs/1/text")
    return page.get_by_role("textbox").first.input_value()


def test_what_is_typed_is_drawn_and_kept_without_a_button(context: BrowserContext, served: Served):
    page = on_the_top(context, served)
    plan = page.locator("#plan")
    assert "1800" in plan.text_content()
    page.get_by_label("Length", exact=True).fill("1734")
    expect(plan).to_contain_text("1734")
    settled(page)
    page.reload()
    expect(page.get_by_label("Length", exact=True)).to_have_value("1734")
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_label("Length", exact=True)).to_have_value("1800")
    page.get_by_role("button", name="Redo").click()
    expect(page.get_by_label("Length", exact=True)).to_have_value("1734")


def test_a_slip_of_the_pen_stays_in_the_field_with_its_reason(context: BrowserContext, served: Served):
    page = on_the_top(context, served)
    field = page.get_by_label("Length", exact=True)
    field.fill("18OO")  # the letter O
    expect(field).to_have_attribute("aria-invalid", "true")
    reason = page.locator(f"#{field.get_attribute('aria-describedby')}")
    expect(reason).not_to_be_empty()
    assert "1800" in page.locator("#plan").text_content()  # the last good drawing stays
    page.reload()
    expect(page.get_by_label("Length", exact=True)).to_have_value("18OO")  # nothing typed is lost
    page.get_by_label("Length", exact=True).fill("1790")
    expect(page.locator("#plan")).to_contain_text("1790")
    expect(page.get_by_label("Length", exact=True)).not_to_have_attribute("aria-invalid", "true")


def test_the_app_dies_while_one_types_and_comes_back(context: BrowserContext, served: Served):
    page = on_the_top(context, served)
    page.get_by_label("Length", exact=True).fill("1711")
    expect(page.locator("#plan")).to_contain_text("1711")
    served.kill()
    page.get_by_label("Width", exact=True).fill("633")
    expect(page.locator("#away")).to_be_visible()
    picture(page, "app-away")
    served.start()
    expect(page.locator("#plan")).to_contain_text("633", timeout=LONG_MS)
    expect(page.locator("#away")).to_be_hidden()
    text = kept_text(page, served)
    assert re.search(r"size\s*=\s*\[1711, 633\]", text)


def test_typed_a_second_ago_is_there_after_a_kill(context: BrowserContext, served: Served):
    page = on_the_top(context, served)
    page.get_by_label("Length", exact=True).fill("1699")
    page.wait_for_timeout(1000)
    served.kill()
    served.start()
    assert re.search(r"size\s*=\s*\[1699, ", kept_text(page, served))


def test_two_windows_change_different_things_and_both_are_kept(browser: Browser, served: Served):
    contexts = [browser.new_context(), browser.new_context()]
    first, second = (on_the_top(one, served) for one in contexts)
    first.get_by_label("Length", exact=True).fill("1720")
    expect(first.locator("#plan")).to_contain_text("1720")
    second.get_by_label("Width", exact=True).fill("640")
    expect(second.locator("#plan")).to_contain_text("640")
    assert re.search(r"size\s*=\s*\[1720, 640\]", kept_text(first, served))
    for one in contexts:
        one.close()


def test_two_windows_change_the_same_thing_and_are_told(browser: Browser, served: Served):
    contexts = [browser.new_context(), browser.new_context()]
    first, second = (on_the_top(one, served) for one in contexts)
    first.get_by_label("Length", exact=True).fill("1720")
    expect(first.locator("#plan")).to_contain_text("1720")
    second.get_by_label("Length", exact=True).fill("1750")
    expect(second.get_by_text("Set in another window to")).to_be_visible()
    assert second.get_by_label("Length", exact=True).input_value() == "1750"
    picture(second, "two-windows")
    assert re.search(r"size\s*=\s*\[1720, 650\]", kept_text(first, served))
    for one in contexts:
        one.close()


def test_the_keyboard_alone_changes_a_size(context: BrowserContext, served: Served):
    page = on_the_top(context, served)
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.className") == "skip"
    page.keyboard.press("Enter")
    for _ in range(40):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.id") == page.get_by_label(
            "Length", exact=True
        ).get_attribute("id"):
            break
        width = page.evaluate(
            "(() => { const o = getComputedStyle(document.activeElement); return o.outlineStyle + o.outlineWidth; })()"
        )
        assert width.startswith("solid3") or width.startswith("auto"), f"focus cannot be seen: {width}"
    page.keyboard.press("ControlOrMeta+a")
    page.keyboard.type("1605")
    expect(page.locator("#plan")).to_contain_text("1605")


def test_shown_in_inch_it_is_the_same_piece(context: BrowserContext, served: Served):
    page = on_the_top(context, served)
    page.get_by_role("button", name="Show in inch").click()
    settled(page)
    shown = page.get_by_label("Length", exact=True).input_value()
    assert "70" in shown  # 1800 mm = 70.87 in
    assert '"' in page.locator("#plan").text_content() or "in" in page.locator("#plan").text_content()
    picture(page, "part-inch")
    page.get_by_label("Length", exact=True).fill("68 1/2")
    expect(page.locator("#plan")).to_contain_text("68 1/2")
    assert 'size    = ["68 1/2 in", 650]' in kept_text(page, served)  # written as it was typed


def test_from_nothing_to_paper_in_five_minutes(context: BrowserContext, served: Served):
    """A top with round corners in linoleum: it bows without a backer; mended; printed."""
    page, watch = watched(context)
    page.goto(served.root)
    page.get_by_role("link", name="New job").click()
    page.get_by_role("link", name=re.compile("^A top")).click()
    page.get_by_label("Length [mm]").fill("1640")
    page.get_by_label("Width [mm]", exact=True).fill("780")
    page.get_by_label("Corner radius").fill("50")
    page.get_by_label("Facing", exact=True).select_option("linoleum-2")
    page.get_by_label("Facing below or behind").select_option("nothing")
    page.get_by_label("Edging width").fill("25")
    picture(page, "new-top")
    page.get_by_role("button", name="Make it").click()
    page.get_by_role("link", name="Will it work?").click()
    picture(page, "new-top-check")
    bows = page.locator(".finding.stop, .finding.weigh").filter(has_text=re.compile("bow|back", re.I)).first
    expect(bows).to_be_visible()
    before = page.locator(".finding.stop, .finding.weigh").count()
    bows.get_by_role("link", name="Try it").first.click()
    expect(page.get_by_role("heading", name="A remedy tried")).to_be_visible()
    picture(page, "new-top-try")
    page.get_by_role("button", name="Keep it").click()
    page.get_by_role("link", name="Will it work?").click()
    assert page.locator(".finding.stop, .finding.weigh").count() < before
    page.get_by_role("link", name="Paper", exact=True).click()
    with page.expect_download(timeout=60_000) as waiting:
        page.get_by_role("link", name="Workshop packet").click()
    packet = waiting.value.path().read_bytes()
    assert packet.startswith(b"%PDF")
    assert len(packet) > 20_000
    watch.clean()
