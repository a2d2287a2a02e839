"""The list of jobs narrowed while one types, by the keyboard alone, and with no script at all."""

import re
from pathlib import Path

from browser.app import Served, picture, watched
from browser.test_every_page import SHELF, faults_of
from playwright.sync_api import Browser, BrowserContext, Page, expect

from evenface.store import JobStore

NAMES = ("Bench 2", "Bench 10", "Zinc table", "Wide shelf", "Ångström desk")


def some_jobs(folder: Path) -> None:
    store = JobStore(folder)
    for name in NAMES:
        store.add(name, f'[job]\nname = "{name}"\n')
    store.close()


def names(page: Page) -> list[str]:
    return page.locator("#found .withmore b").all_inner_texts()


def test_typing_narrows_the_list_and_the_address_keeps_it(context: BrowserContext, served: Served):
    some_jobs(served.home / "data")
    page, watch = watched(context)
    page.goto(served.root)
    page.get_by_label("Find").focus()
    page.keyboard.type("bench")
    expect(page.locator("#found .withmore")).to_have_count(2)
    expect(page.get_by_role("status")).to_contain_text("2 of 6 jobs")
    assert page.evaluate("document.activeElement.id") == "find"  # typing goes on
    page.keyboard.press("Tab")
    assert names(page) == ["Bench 10", "Bench 2"]
    page.keyboard.press("ArrowDown")
    page.keyboard.press("ArrowDown")  # by name
    expect(page.locator("#found b").first).to_have_text("Bench 2")
    assert names(page) == ["Bench 2", "Bench 10"]
    page.reload()
    assert names(page) == ["Bench 2", "Bench 10"]
    assert page.get_by_label("Order").input_value() == "name"
    for width in (1280, 800, 480):
        page.set_viewport_size({"width": width, "height": 900})
        assert faults_of(page) == []
        picture(page, f"jobs-found-{width}")
    page.get_by_label("Find").fill("no such thing")
    expect(page.get_by_text(re.compile("No job with .no such thing."))).to_be_visible()
    picture(page, "jobs-none-found")
    assert faults_of(page) == []
    page.get_by_role("link", name="Show all").click()
    expect(page.locator("#found .withmore")).to_have_count(6)
    watch.clean()


def test_without_its_script_the_button_does_it(browser: Browser, served: Served):
    some_jobs(served.home / "data")
    context = browser.new_context(java_script_enabled=False)
    page, _ = watched(context)
    page.goto(served.root)
    page.get_by_label("Find").fill("shelf")
    page.get_by_role("button", name="Show", exact=True).click()
    assert names(page) == ["Wide shelf"]
    assert page.get_by_label("Find").input_value() == "shelf"
    context.close()


def test_a_job_file_is_chosen_looked_at_and_opened(context: BrowserContext, served: Served):
    page, watch = watched(context)
    page.goto(served.root)
    file = served.home / "kiln-shed.toml"
    file.write_text(f'format = 1\n[job]\nname = "Kiln shed"\n{SHELF}', encoding="utf-8")
    page.get_by_label("Choose a job file").set_input_files(file)
    expect(page.get_by_label("Paste the text")).to_have_value(re.compile("Kiln shed"))
    assert faults_of(page) == []
    picture(page, "jobs-file-chosen")
    page.get_by_role("button", name="Open it").click()
    expect(page.get_by_role("heading", name="Kiln shed")).to_be_visible()
    page.get_by_role("link", name="Paper", exact=True).click()
    with page.expect_download() as download:
        page.get_by_role("link", name="The job file").click()
    assert download.value.path().read_text(encoding="utf-8") == file.read_text(encoding="utf-8")
    watch.clean()
