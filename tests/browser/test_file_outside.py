"""A job open in the app and its file open in an editor: whoever comes back to the page sees what happened there."""

from browser.app import Served, picture, settled, watched
from browser.test_every_page import SHELF, faults_of
from playwright.sync_api import BrowserContext, Page, expect


def back_from_the_editor(page: Page) -> None:
    page.evaluate("window.dispatchEvent(new Event('focus'))")


def test_a_file_changed_or_gone_is_seen_on_coming_back_to_the_page(context: BrowserContext, served: Served):
    page, watch = watched(context)
    file = served.home / "shelf.toml"
    file.write_text(f'format = 1\n[job]\nname = "Kiln shed"\n{SHELF}')
    served.kill()
    page.goto(f"{served.start('shelf.toml')}/parts/1.1")
    settled(page)
    told = page.locator("#outside")
    expect(told).to_be_empty()
    page.get_by_label("Length", exact=True).fill("640")
    expect(told).to_contain_text("not yet saved to shelf.toml")
    assert faults_of(page) == []
    file.write_text(file.read_text() + "# the kiln is to be moved\n")
    back_from_the_editor(page)
    expect(told).to_contain_text("changed outside")
    picture(page, "part-file-changed-outside")
    file.unlink()
    back_from_the_editor(page)
    expect(told).to_contain_text("gone")
    told.get_by_role("link").click()
    page.get_by_role("button", name="Save to the file").click()
    expect(page.get_by_text("the file says the same.")).to_be_visible()
    assert "640" in file.read_text()
    watch.clean()
