"""Everything there is to download: listed, made once, and nothing made for a name that cannot be one."""

import io
import re
import threading
import time
import zipfile
from pathlib import Path

import pytest

from evenface.interfaces.web import making_plan, papers
from evenface.interfaces.web.papers import JOB_FILE, OF_THE_BENCH, TITLES

EXAMPLES = Path(__file__).parents[2] / "examples"
SHELF = (EXAMPLES / "one-shelf.toml").read_text(encoding="utf-8")
DRAWN = r'href="(/jobs/1/paper/drawings/[^"]+)"'


@pytest.fixture
def shelf(screens):
    return screens.store.add("One shelf", SHELF)


@pytest.fixture
def made(monkeypatch):
    """How often papers are made, layouts and all."""
    times = []
    plain = papers.papers
    monkeypatch.setattr(papers, "papers", lambda *given: times.append(1) or plain(*given))
    return times


def sized(page: str) -> dict[str, str]:
    """The papers on the page whose size is known, in kB."""
    return dict(re.findall(r'class="quiet">([^<,]+), (\d+) kB', page))


def test_all_that_hangs_on_the_layouts_is_made_once_until_the_job_changes(screens, shelf, made):
    page = screens.get("/jobs/1/paper").text
    assert sized(page).keys() == {JOB_FILE}
    assert not made
    links = re.findall(r'href="/jobs/1/paper/([^"]+)"', page)
    assert set(links) == {*TITLES, "drawings"}
    content = {name: screens.get(f"/jobs/1/paper/{name}") for name in links}
    assert {one.status_code for one in content.values()} == {200}
    assert len(made) == 1
    sizes = sized(screens.get("/jobs/1/paper").text)
    assert sizes.keys() == TITLES.keys()
    for name, size in sizes.items():
        assert int(size) == max(1, round(len(content[name].content) / 1000))
    edited = SHELF.replace("250]", "240]")
    assert edited != SHELF
    screens.post("/jobs/1/text", version=0, text=edited)
    assert sized(screens.get("/jobs/1/paper").text).keys() == {JOB_FILE}
    assert screens.get(f"/jobs/1/paper/{JOB_FILE}").text == edited
    screens.get("/jobs/1/paper/packet.pdf")
    assert len(made) == 2


@pytest.mark.parametrize("name", OF_THE_BENCH)
def test_papers_of_the_bench_need_no_layouts(screens, shelf, made, name):
    answer = screens.get(f"/jobs/1/paper/{name}")
    assert answer.status_code == 200
    assert answer.content.startswith(b"%PDF" if name.endswith(".pdf") else b"BEGIN:VCALENDAR")
    assert name in answer.headers["content-disposition"]
    assert screens.get(f"/jobs/1/paper/{name}").content == answer.content
    assert not made


@pytest.mark.parametrize(
    "name",
    ["packet", "packet.pdf.exe", "packet.pdf/", "drawings/", "drawings/no-such-part-plan.svg",
     "drawings/..%2fpacket.pdf", "templates/none.pdf", "drawings/one.png", "PACKET.PDF", "..%2f..%2fetc"],
)  # fmt: skip
def test_a_name_that_can_be_none_is_refused_before_anything_is_made(screens, shelf, made, monkeypatch, name):
    monkeypatch.setattr(making_plan, "_planned", lambda *_: pytest.fail("planned for nothing"))
    assert screens.get(f"/jobs/1/paper/{name}").status_code == 404
    assert not made


def test_drawings_and_templates_come_one_by_one_as_what_they_are(screens, glaze):
    links = re.findall(DRAWN, screens.settled("/jobs/1/paper/drawings").text)
    assert any(one.endswith(".dxf") for one in links)
    for address in links:
        answer = screens.get(address)
        assert answer.status_code == 200, address
        kind = "image/svg+xml" if address.endswith(".svg") else "image/vnd.dxf"
        assert answer.headers["content-type"].startswith(kind)
    templates = re.findall(r'href="(/jobs/1/paper/templates/[^"]+)"', screens.get("/jobs/1/paper").text)
    assert len(templates) > 2
    assert {screens.get(one).status_code for one in templates} == {200}
    assert screens.get("/jobs/1/paper/drawings/layout-none-7.svg").status_code == 404


def test_names_of_drawings_of_every_example_are_known_beforehand(screens):
    text = (EXAMPLES / "wall-cupboard.toml").read_text(encoding="utf-8")
    screens.store.add("Wall cupboard", text)
    links = re.findall(DRAWN, screens.settled("/jobs/1/paper/drawings").text)
    assert len(links) > 20
    assert {screens.get(one).status_code for one in links} == {200}


def test_the_workbook_is_one(screens, shelf):
    answer = screens.get("/jobs/1/paper/layouts.xlsx")
    assert "xl/workbook.xml" in zipfile.ZipFile(io.BytesIO(answer.content)).namelist()


def test_drawings_are_made_beside_the_page_each_in_its_forms_in_one_line(screens, shelf, monkeypatch):
    begun, go_on = threading.Event(), threading.Event()
    plain = papers.papers

    def slow(*given):
        begun.set()
        assert go_on.wait(60)
        return plain(*given)

    monkeypatch.setattr(papers, "papers", slow)
    page = "/jobs/1/paper/drawings"
    while not begun.is_set():  # the sheets first, then the drawings: asked again, the page answers at once
        assert "data-poll" in screens.get(page).text
        time.sleep(0.02)
    assert "The drawings are being made." in screens.get(page).text
    go_on.set()
    lines = re.findall(r'<li class="adopt"><div>([^<]*)</div>(.*?)</li>', screens.settled(page).text)
    assert len(lines) == len({stem for stem, _ in lines}) > 3
    assert {len(re.findall("<a ", links)) for _, links in lines} <= {1, 2}
    assert any(".svg" in links and ".dxf" in links for _, links in lines)


def test_a_fault_of_the_drawings_is_told_and_tried_again(screens, shelf, monkeypatch):
    plain = papers.papers
    faults = [ValueError("ink")]
    monkeypatch.setattr(papers, "papers", lambda *given: plain(*given) if not faults else _fail(faults.pop()))
    page = "/jobs/1/paper/drawings"
    until = time.monotonic() + 60
    while (answer := screens.get(page)).status_code == 200:
        assert time.monotonic() < until
        time.sleep(0.02)
    assert answer.status_code == 500
    assert "adopt" in screens.settled(page).text


def _fail(fault):
    raise fault
