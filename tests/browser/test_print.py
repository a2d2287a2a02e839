"""What comes out of the printer: every page without what is to be pressed, whole, named, black on white."""

import datetime
import io
import re
from unicodedata import normalize

import pytest
from browser.app import SCREENS, Served, settled, watched
from browser.walk import pages_of
from playwright.sync_api import Browser, Page
from pypdf import PdfReader

PRESSED = """() => [...document.querySelectorAll("button, a.button, nav, header, footer, form:not(#entries) input")]
  .filter(one => one.offsetParent !== null && getComputedStyle(one).borderStyle !== "none" && !one.closest(".line"))
  .map(one => one.outerHTML.slice(0, 100))"""
PALE = """() => { const far = (text) => text.match(/[0-9.]+/g).slice(0, 3).map(Number);
  return [...document.querySelectorAll("main *:not(svg *)")]
  .filter(one => one.offsetParent !== null && one.innerText?.trim())
  .map(one => [one, getComputedStyle(one)])
  .filter(([one, style]) => Math.max(...far(style.color)) > 100 ||
    (style.backgroundColor !== "rgba(0, 0, 0, 0)" && Math.min(...far(style.backgroundColor)) < 200))
  .map(([one, style]) => `${one.tagName} ${style.color} on ${style.backgroundColor} ${one.innerText.slice(0, 40)}`) }"""


@pytest.fixture(scope="module")
def dark(browser: Browser, shared_app: Served):
    """A page of a reader who has it dark."""
    context = browser.new_context(color_scheme="dark", locale="en-GB")
    yield watched(context)[0]
    context.close()


def sheets(page: Page, name: str) -> list[str]:
    """The page as it comes out of the printer, sheet by sheet as text."""
    made = page.pdf(format="A4", prefer_css_page_size=True)
    SCREENS.mkdir(parents=True, exist_ok=True)
    (SCREENS / f"{name}.pdf").write_bytes(made)
    return [one.extract_text() for one in PdfReader(io.BytesIO(made)).pages]


def bare(text: str) -> str:
    """A text without where its lines end and how its letters are joined."""
    return "".join(normalize("NFKC", text).split())


def test_every_page_prints_named_and_dated_with_nothing_to_press(dark: Page, shared_app: Served):
    today = datetime.date.today().isoformat()
    faults = []
    for name, address in pages_of(dark.context, f"{shared_app.root}/").items():
        dark.goto(address)
        settled(dark)
        printed = sheets(dark, f"print-{name}")
        for number, text in enumerate(printed, 1):
            if f"printed on {today}" not in text:
                faults.append(f"{name}, sheet {number}: not dated")
            if name.startswith("jobs-n") and "Glaze room ·" not in text:
                faults.append(f"{name}, sheet {number}: of no job")
            if not re.search(rf"{number}\s*/\s*{len(printed)}", text):
                faults.append(f"{name}, sheet {number}: not numbered")
        dark.emulate_media(media="print")
        faults += [f"{name}: to be pressed: {one}" for one in dark.evaluate(PRESSED)]
        faults += [f"{name}: not black on white: {one}" for one in dark.evaluate(PALE)]
        dark.emulate_media(media="null")
    assert not faults, "\n".join(faults)


def test_findings_are_complete_with_their_reasons_and_what_to_do(dark: Page, shared_app: Served):
    dark.goto(f"{shared_app.root}/jobs/1/check")
    wanted = dark.evaluate(
        "[...document.querySelectorAll('.finding h3, .finding p:not(.figures), .remedies li')]"
        ".map(one => (one.firstChild?.nodeType === 3 ? one.firstChild : one).textContent.trim())"
    )
    printed = "".join(sheets(dark, "print-check"))
    assert len(wanted) > 40
    assert [one for one in wanted if bare(one) not in bare(printed)] == []
    assert "Try it" not in printed


def test_a_drawing_and_every_row_stand_whole_on_one_sheet(dark: Page, shared_app: Served):
    dark.goto(f"{shared_app.root}/jobs/1/parts/1.1")
    settled(dark)
    printed = sheets(dark, "print-part")
    sizes = dark.evaluate("[...document.querySelectorAll('#plan svg text')].map(one => one.textContent)")
    assert all(one in printed[0] for one in sizes), "the plan is cut or not on the first sheet"
    assert any("Corner radius" in one and "60" in one for one in printed)  # what is set can be read
    dark.goto(f"{shared_app.root}/jobs/1/cutting")
    dark.wait_for_selector("#cutting figure", timeout=120_000)
    tables = dark.evaluate(
        "[...document.querySelectorAll('#cutting > .scroll table')].map(table => "
        "[...table.rows].map(row => [...row.cells].map(one => one.textContent)))"
    )
    printed = [bare(one) for one in sheets(dark, "print-cutting")]
    for head, *rows in tables:
        for row in rows:
            mine = [one for one in printed if bare("".join(row)) in one]
            assert mine, f"cut in two: {row}"
            assert any(bare("".join(head)) in one for one in mine), f"no head over {row}"


def test_what_is_seen_in_three_dimensions_is_on_paper(dark: Page, shared_app: Served):
    dark.goto(f"{shared_app.root}/jobs/1/solid/1")
    dark.wait_for_selector("#solid:not([hidden]) canvas")
    dark.wait_for_timeout(500)
    made = PdfReader(io.BytesIO(dark.pdf(format="A4", prefer_css_page_size=True)))
    inks = [len(one.image.convert("L").getcolors()) for sheet in made.pages for one in sheet.images]
    assert any(shades > 10 for shades in inks), "the view is blank"


def test_what_is_chosen_is_printed_whole(dark: Page, shared_app: Served):
    dark.goto(f"{shared_app.root}/jobs/1/parts/1.1")
    settled(dark)
    dark.emulate_media(media="print")
    cut = dark.evaluate("""() => { const pen = document.createElement("canvas").getContext("2d");
      return [...document.querySelectorAll("#entries select")].filter((one) => one.offsetParent !== null)
      .filter((one) => { pen.font = getComputedStyle(one).font;
        return pen.measureText(one.selectedOptions[0].text).width > one.clientWidth })
      .map((one) => one.selectedOptions[0].text) }""")
    dark.emulate_media(media="screen")
    assert cut == []
