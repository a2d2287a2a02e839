"""Every page at the width of a laptop and of a tablet: readable, reachable, nothing for axe to find."""

import re

from axe_playwright_python.sync_playwright import Axe
from browser.app import Served, picture, settled, watched
from browser.walk import pages_of
from playwright.sync_api import Browser, Page, expect

SIZES = {1280: 900, 800: 1200}
SMALL = """() => [...document.querySelectorAll("a, button, input, select, textarea, summary")]
  .filter(one => one.offsetParent !== null && !one.closest("svg") && one.type !== "hidden")
  .filter(one => !(one.tagName === "A" && getComputedStyle(one).display === "inline" && one.closest("p, td, li")))
  .filter(one => one.type !== "checkbox" && one.type !== "radio")
  .map(one => [one, one.getBoundingClientRect()])
  .filter(([one, box]) => box.width > 0 && !one.classList.contains("skip") && (box.height < 43.5 || box.width < 43.5))
  .map(([one, box]) => `${one.outerHTML.slice(0, 80)} ${box.width.toFixed(0)} × ${box.height.toFixed(0)}`)"""
CUT_OFF = """() => [...document.querySelectorAll("h1, h2, h3, p, label, button, nav a, td, th, legend, summary")]
  .filter(one => one.offsetParent !== null && one.scrollWidth > one.clientWidth + 1 && one.clientWidth > 0)
  .filter(one => !one.closest(".scroll, svg, pre"))
  .map(one => `${one.tagName} ${one.textContent.trim().slice(0, 60)}`)"""

SHELF = """
[buildup.shelf]
face = "hpl-0.8"
back = "hpl-0.8"
carrier = "mdf-18"
glue = "pva-d3"
edging = { wood = "ash", width = 6 }
[[piece]]
name = "Shelf"
[[piece.panel]]
name = "shelf"
size = [600, 300]
buildup = "shelf"
"""


def test_every_page_is_readable_and_reachable(browser: Browser, shared_app: Served):
    context = browser.new_context()
    page, watch = watched(context)
    faults = []
    pages = pages_of(context, f"{shared_app.root}/")
    assert {"jobs", "jobs-n", "jobs-n-parts-n", "jobs-n-check", "jobs-n-cutting", "jobs-n-paper"} <= set(
        pages
    )
    for name, address in pages.items():
        page.goto(address)
        settled(page)
        assert page.title().endswith("evenface"), name
        for width, height in SIZES.items():
            page.set_viewport_size({"width": width, "height": height})
            picture(page, f"{name}-{width}")
            faults += [f"{name} at {width}: {fault}" for fault in faults_of(page)]
        page.emulate_media(color_scheme="dark")
        faults += [f"{name} when dark: {fault}" for fault in axe_faults(page, ["color-contrast"])]
        picture(page, f"{name}-dark")
        page.emulate_media(color_scheme="light")
    context.close()
    assert not faults, "\n".join(faults)
    watch.clean()


def faults_of(page: Page) -> list[str]:
    """What a thumb, an eye or a screen reader would trip over."""
    wide = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
    return [
        *axe_faults(page),
        *([f"{wide} px wider than the window"] if wide > 0 else []),
        *(f"too small for a thumb: {one}" for one in page.evaluate(SMALL)),
        *(f"cut off: {one}" for one in page.evaluate(CUT_OFF)),
    ]


def axe_faults(page: Page, rules: list[str] | None = None) -> list[str]:
    """What axe finds, by all its rules or by some."""
    only = {} if rules is None else {"runOnly": {"type": "rule", "values": rules}}
    found = Axe().run(page, options={"resultTypes": ["violations"], **only})
    return [
        f"{one['id']}: {one['help']}: {one['nodes'][0]['html'][:120]}" for one in found.response["violations"]
    ]


def test_titles_and_addresses_tell_the_pages_apart(browser: Browser, shared_app: Served):
    context = browser.new_context()
    page, _ = watched(context)
    titles = {}
    for name, address in pages_of(context, f"{shared_app.root}/").items():
        page.goto(address)
        titles[name] = page.title()
    context.close()
    assert len(set(titles.values())) == len(titles), titles


def test_pages_that_tell_a_fault_are_as_readable(browser: Browser, served: Served):
    context = browser.new_context(viewport={"width": 800, "height": 1200})
    page, watch = watched(context)
    page.goto(f"{served.root}/jobs/99")
    assert faults_of(page) == []
    broken = served.home / "broken.toml"
    broken.write_text('format = 1\n[job\nname = "Kiln shed"\n')
    served.kill()
    page.goto(served.start("broken.toml"))
    assert "line 2" in page.locator(".complaints").inner_text()
    assert faults_of(page) == []
    page.get_by_role("link", name="To the job file").click()
    assert "line 2" in page.locator(".complaints").inner_text()  # beside the text, where it is mended
    assert faults_of(page) == []
    picture(page, "job-file-broken")
    page.get_by_label("Text").fill(broken.read_text().replace("[job", "[job]") + SHELF)
    page.get_by_role("button", name="Keep", exact=True).click()
    expect(page.get_by_label("Text")).to_have_value(re.compile("mdf-18"))
    expect(page.locator(".complaints")).to_have_count(0)
    context.close()
    watch.clean()


def test_drawings_stay_on_their_paper_where_the_reader_forces_colours(browser: Browser, shared_app: Served):
    context = browser.new_context(forced_colors="active", color_scheme="dark")
    page, watch = watched(context)
    page.goto(f"{shared_app.root}/jobs/1/parts/1.1")
    settled(page)
    paper = page.locator("#plan").evaluate("(one) => getComputedStyle(one).backgroundColor")
    assert min(map(int, re.findall(r"[0-9]+", paper)[:3])) > 200, paper  # the lines on it are black
    edges = page.locator("nav a").evaluate_all(
        "(all) => all.map((one) => getComputedStyle(one).borderBottomColor)"
    )
    assert len(set(edges)) == 2, edges  # where one is, and all others
    picture(page, "part-forced-colours")
    context.close()
    watch.clean()


def test_names_without_a_gap_are_broken_not_cut(browser: Browser, served: Served):
    name = "Ofenplattenglasurtrockenregalzwischenbodenverkleidungsaussenkante"
    file = served.home / "long.toml"
    file.write_text(f'format = 1\n[job]\nname = "{name}"\n{SHELF.replace("Shelf", name)}', encoding="utf-8")
    served.kill()
    job = served.start("long.toml")
    context = browser.new_context(viewport={"width": 390, "height": 844})
    page, watch = watched(context)
    for place in ("", "/check", "/parts/1.1", "/pieces/1", "/solid/1", "/brief", "/price"):
        page.goto(f"{job}{place}")
        settled(page)
        assert (
            page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth") == 0
        ), place
        assert page.evaluate(CUT_OFF) == [], place
    picture(page, "long-names-390")
    page.set_viewport_size({"width": 640, "height": 600})
    page.evaluate("document.documentElement.style.fontSize = '32px'")  # letters twice as large
    assert page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth") == 0
    context.close()
    watch.clean()
