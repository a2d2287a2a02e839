"""What a maker sees when the app itself fails at what was typed, or cannot keep it for now."""

import re

from browser.app import Served, picture, settled, watched
from playwright.sync_api import BrowserContext, Route, expect

TOP = "/jobs/1/parts/1.1"


def test_a_fault_is_told_beside_what_is_typed_and_the_next_change_takes_it_along(
    context: BrowserContext, served: Served
):
    page, watch = watched(context)
    page.goto(f"{served.root}{TOP}")
    settled(page)
    failing = [500]

    def gate(route: Route) -> None:
        if failing and route.request.method == "POST":
            told = "Something went wrong here."
            body = f'<div id="failed" data-swap role="alert"><p class="banner">{told}</p></div>'
            route.fulfill(status=failing[0], content_type="text/html; charset=utf-8", body=body)
        else:
            route.continue_()

    page.route(re.compile(re.escape(TOP)), gate)
    page.get_by_label("Length", exact=True).fill("1722")
    expect(page.get_by_text("Something went wrong here.")).to_be_in_viewport()
    expect(page.get_by_label("Length", exact=True)).to_have_value("1722")
    assert "1800" in page.locator("#plan").text_content()  # the last good drawing stays
    expect(page.locator("#away")).to_be_hidden()
    picture(page, "part-failed")
    failing.clear()
    page.get_by_label("Width", exact=True).fill("633")
    expect(page.locator("#plan")).to_contain_text("1722")
    expect(page.locator("#plan")).to_contain_text("633")
    expect(page.get_by_text("Something went wrong here.")).to_have_count(0)

    failing.append(503)  # not now: sent again of itself until it is kept
    page.get_by_label("Length", exact=True).fill("1723")
    expect(page.get_by_text("Something went wrong here.")).to_be_in_viewport()
    failing.clear()
    expect(page.locator("#plan")).to_contain_text("1723")
    expect(page.get_by_text("Something went wrong here.")).to_have_count(0)
    watch.clean()
