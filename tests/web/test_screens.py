"""Every page and action of the screens, as a browser would ask for them, without one."""

import re
import socket
import time
import tomllib
from html import unescape
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from evenface.interfaces.web.actions import example_text
from evenface.interfaces.web.app import build_app
from evenface.interfaces.web.background import Planner
from evenface.interfaces.web.guard import LARGEST_BODY
from evenface.interfaces.web.serving import PortInUse, _door, job_to_open
from evenface.interfaces.web.site import own_page
from evenface.store import JobStore

HOME = "http://127.0.0.1:8000"
OURS = {"Origin": HOME}
SHELF = (Path(__file__).parents[2] / "examples" / "one-shelf.toml").read_text(encoding="utf-8")
PAGES = ["", "/parts/1.1", "/check", "/cutting", "/paper", "/text"]


def client_on(store):
    client = TestClient(build_app(store, Planner(0.0)), base_url=HOME, headers=OURS, follow_redirects=False)
    client.get("/")  # brings the cookie
    return client


@pytest.fixture
def store(tmp_path):
    made = JobStore(tmp_path / "home")
    yield made
    made.close()


@pytest.fixture
def client(store):
    return client_on(store)


@pytest.fixture
def job(store):
    return store.add("Glaze room", example_text())


def size_of(store, job):
    return tomllib.loads(store.job(job.id).text)["piece"][0]["panel"][0]["size"]


def edit(client, job, version, live=True, part="1.1", **typed):
    fields = {"version": str(version), **{path.replace("__", "."): new for path, new in typed.items()}}
    return client.post(f"/jobs/{job.id}/parts/{part}", data=fields, headers={"X-Live": "1"} if live else {})


def set_length(client, job, version, length, **more):
    return edit(client, job, version, **{"piece[0].panel[0].size[0]": length}, **more)


def test_the_example_is_the_one_beside_the_readme():
    beside = Path(__file__).parents[2] / "examples" / "glaze-room.toml"
    assert example_text() == beside.read_text(encoding="utf-8")


@pytest.mark.parametrize("page", PAGES)
def test_every_page_has_an_address_a_title_and_no_inline_script(client, job, page):
    answer = client.get(f"/jobs/{job.id}{page}")
    assert answer.status_code == 200
    title = re.search("<title>(.*)</title>", answer.text)
    assert title
    assert "Glaze room" in title[1]
    assert answer.text.count("<h1>") == 1
    assert not re.search(r"<script(?![^>]*\bsrc=)|\sstyle=|\son\w+=|<style", answer.text)
    policy = answer.headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy


def test_the_titles_differ(client, job):
    titles = {re.search("<title>(.*)</title>", client.get(f"/jobs/{job.id}{p}").text)[1] for p in PAGES}
    assert len(titles) == len(PAGES)


@pytest.mark.parametrize("address", ["/jobs/77", "/jobs/x", "/jobs/1/parts/9.9", "/jobs/1/paper/../../etc"])
def test_what_is_not_there_is_said(client, job, address):
    assert client.get(address).status_code == 404


def test_a_first_job_is_made_from_the_example(client, store):
    answer = client.post("/jobs", data={"from": "example"})
    assert answer.status_code == 303
    assert store.jobs()[0].text == example_text()
    assert "Glazing bench" in client.get(answer.headers["location"]).text


def test_a_pasted_text_with_a_slip_is_given_back_with_its_reason(client, store):
    answer = client.post("/jobs", data={"text": "format = 1\n[job]\nnmae = 'x'\n"})
    assert answer.status_code == 422
    assert "line 3" in answer.text
    assert "nmae" in answer.text
    assert store.jobs() == ()


def test_hostile_names_are_escaped_everywhere(client, store):
    bad = "<script>alert(1)</script>"
    text = re.sub(r'(name\s*=\s*)"[^"]+"', lambda found: f"{found[1]}'{bad}'", SHELF)
    assert bad in text
    job = store.add(bad, text)
    for page in [*PAGES, "/paper/drawings"]:
        answer = client.get(f"/jobs/{job.id}{page}")
        assert answer.status_code == 200
        assert "alert(1)" in answer.text
        assert "<script>alert" not in answer.text


def test_an_edit_answers_with_the_new_drawing_and_is_kept(client, store, job):
    before = client.get(f"/jobs/{job.id}/parts/1.1").text
    assert "1777" not in before
    answer = set_length(client, job, 0, "1777")
    assert answer.status_code == 200
    drawing = re.search(r'id="plan".*?</figure>', answer.text, re.S)[0]
    assert "1777" in drawing
    assert size_of(store, job) == [1777, 650]
    assert 'id="version" value="1"' in answer.text


def test_build_up_and_edges_follow_an_edit(client, job):
    address = f"/jobs/{job.id}/parts/1.1"
    before = client.get(address, headers={"X-Live": "1"}).text
    assert before.count("<svg") >= 2
    assert before.count("<h1>") == 0
    edit(client, job, 0, **{"piece[0].panel[0].edging.width": "24"})
    assert client.get(address, headers={"X-Live": "1"}).text != before


def test_an_edit_leaves_every_other_byte_alone(client, store, job):
    set_length(client, job, 0, "1777")
    assert store.job(job.id).text == example_text().replace(
        "size    = [1800, 650]", "size    = [1777, 650]", 1
    )


@pytest.mark.parametrize(
    ("typed", "length"), [("1 790,5", None), ("1790,5", 1790.5), ("1,79 m", "1,79 m"), ("70 in", "70 in")]
)
def test_lengths_are_read_as_a_maker_writes_them(client, store, job, typed, length):
    answer = set_length(client, job, 0, typed)
    assert answer.status_code == (200 if length else 422)
    assert size_of(store, job)[0] == (length or 1800)


def test_in_inch_a_bare_number_is_inches(client, store, job):
    assert client.post("/units", data={"units": "inch", "back": "/"}).headers["location"] == "/#to-units"
    assert "70 55/64 in" in client.get(f"/jobs/{job.id}/parts/1.1").text
    set_length(client, job, 0, "70 1/2")
    assert size_of(store, job)[0] == "70 1/2 in"


@pytest.mark.parametrize("typed", ["18OO", "", "-5", "99999999", "<b>"])
@pytest.mark.parametrize("live", [True, False])
def test_what_cannot_be_is_not_kept_and_says_why_beside_the_field(client, store, job, typed, live):
    answer = set_length(client, job, 0, typed, live=live)
    assert answer.status_code == 422
    hint = re.search(r'id="hint-piece-0--panel-0--size-0"[^>]*>(.*?)</p>', answer.text, re.S)
    assert "xpected" in hint[1]
    assert "<svg" in answer.text  # the last good drawing stays
    if not live:
        assert (
            unescape(re.search(r'name="piece\[0\].panel\[0\].size\[0\]" value="([^"]*)"', answer.text)[1])
            == typed
        )
    assert store.job(job.id).text == example_text()


def test_a_good_entry_beside_a_bad_one_is_kept(client, store, job):
    good = {"piece[0].panel[0].size[1]": "640"}
    answer = set_length(client, job, 0, "wide", **good)
    assert answer.status_code == 422
    assert size_of(store, job) == [1800, 640]


def test_choices_take_only_words_there_are(client, store, job):
    path = "piece[0].panel[0].edging.order"
    assert edit(client, job, 0, **{path: "glued last"}).status_code == 422
    assert edit(client, job, 0, **{path: "facing first"}).status_code == 200
    panel = tomllib.loads(store.job(job.id).text)["piece"][0]["panel"][0]
    assert panel["edging"] == {"order": "facing first"}
    assert edit(client, job, 1, **{path: ""}).status_code == 200
    assert "order" not in tomllib.loads(store.job(job.id).text)["piece"][0]["panel"][0].get("edging", {})


def test_a_size_taken_over_from_another_part_says_so_and_changes_there(client, store, job):
    page = client.get(f"/jobs/{job.id}/parts/2.4").text
    assert "written at drawer 1" in page
    answer = edit(client, job, 0, part="2.4", **{"piece[1].panel[2].size[0]": "345"})
    assert answer.status_code == 200
    assert tomllib.loads(store.job(job.id).text)["piece"][1]["panel"][2]["size"] == [345, 150]


def test_fields_nobody_offers_are_not_set(client, store, job):
    assert edit(client, job, 0, **{"job.name": "other", "piece[0].panel[0].name": "x"}).status_code == 200
    assert store.job(job.id).text == example_text()


def test_a_stale_edit_is_refused_and_offered_again(client, store, job):
    set_length(client, job, 0, "1777")
    answer = set_length(client, job, 0, "1666")
    assert answer.status_code == 409
    assert "another window" in answer.text
    assert "You entered: 1666" in answer.text
    assert 'id="version" value="1"' in answer.text
    assert size_of(store, job)[0] == 1777
    assert set_length(client, job, 1, "1666").status_code == 200


def test_undo_and_redo_hold_over_a_new_app(client, store, job):
    set_length(client, job, 0, "1777")
    again = client_on(store)
    back = f"/jobs/{job.id}/parts/1.1"
    answer = again.post(f"/jobs/{job.id}/step/undo", data={"version": "1", "back": back})
    assert (answer.status_code, answer.headers["location"]) == (303, f"{back}?did=undo#did")
    assert size_of(store, job)[0] == 1800
    again.post(f"/jobs/{job.id}/step/redo", data={"version": "2", "back": back})
    assert size_of(store, job)[0] == 1777
    assert again.post(f"/jobs/{job.id}/step/undo", data={"version": "0"}).status_code == 409


def test_a_remedy_is_tried_without_being_kept_then_kept_then_taken_back(client, store, job):
    page = client.get(f"/jobs/{job.id}/check").text
    links = [unescape(one) for one in re.findall(r'href="(/jobs/\d+/try\?[^"]+)"', page)]
    assert links
    tried = client.get(links[0])
    assert tried.status_code == 200
    assert "Before" in tried.text
    assert "After" in tried.text
    assert store.job(job.id).version == 0
    fields = dict(
        re.findall(
            r'name="(version|finding|remedy)" value="(\d+)"', tried.text.split("Take it")[0].split("/keep")[1]
        )
    )
    assert client.post(f"/jobs/{job.id}/keep", data=fields).status_code == 303
    assert store.job(job.id).text != example_text()
    assert client.get(links[0]).status_code == 303  # the findings are others now
    client.post(f"/jobs/{job.id}/step/undo", data={"version": "1"})
    assert store.job(job.id).text == example_text()


def test_notes_that_say_the_same_stand_once_with_every_place(client, job):
    page = client.get(f"/jobs/{job.id}/check").text
    items = page.split('<li class="finding ')[1:]
    drawers = [item for item in items if "Held flat" in item and "drawer" in item]
    assert len(drawers) == 1
    for part in ("drawer 1", "drawer 2", "drawer 3", "drawer 4", "top"):
        assert (
            f"Drawing desk, {part}, screwed" in drawers[0] or f"Glazing bench, {part}, screwed" in drawers[0]
        )
    tried = [item for item in items if ">Try it<" in item]
    assert tried
    assert all('class="also"' not in item for item in tried)


def test_layouts_arrive_beside_the_page(client, job):
    assert client.get(f"/jobs/{job.id}/cutting").status_code == 200
    until = time.monotonic() + 60
    while "Layouts are being reckoned" in (page := client.get(f"/jobs/{job.id}/cutting").text):
        assert time.monotonic() < until
        time.sleep(0.05)
    assert "Could it be less?" in page
    assert page.count("<svg") > 3


def test_layouts_can_be_stopped_and_begun_again(store, job):
    client = TestClient(build_app(store, Planner(30.0)), base_url=HOME, headers=OURS, follow_redirects=True)
    client.get(f"/jobs/{job.id}/cutting")
    stopped = client.post(f"/jobs/{job.id}/cutting", data={"do": "cancel"}).text
    assert "were stopped" in stopped or "Could it be less?" in stopped


@pytest.mark.parametrize(
    ("name", "begins"), [("packet.pdf", b"%PDF"), ("result.json", b"{"), ("parts.csv", b"")]
)
def test_papers_come_as_files(client, store, name, begins):
    job = store.add("Shelf", SHELF)
    answer = client.get(f"/jobs/{job.id}/paper/{name}")
    assert answer.status_code == 200
    assert answer.content.startswith(begins)
    assert name in answer.headers["content-disposition"]


def test_drawings_are_listed_and_each_can_be_had(client, store):
    job = store.add("Shelf", SHELF)
    until = time.monotonic() + 60
    while "data-poll" in (page := client.get(f"/jobs/{job.id}/paper/drawings").text):
        assert time.monotonic() < until
        time.sleep(0.05)
    links = re.findall(r'href="(/jobs/\d+/paper/drawings/[^"]+\.svg)"', page)
    assert links
    assert client.get(links[0]).content.startswith(b"<svg")


def test_the_text_can_be_edited_and_faults_are_given_back(client, store, job):
    good = example_text().replace("1800", "1750")
    assert client.post(f"/jobs/{job.id}/text", data={"version": "0", "text": good}).status_code == 303
    assert store.job(job.id).text == good
    answer = client.post(f"/jobs/{job.id}/text", data={"version": "1", "text": "format = \n"})
    assert answer.status_code == 422
    assert "format = \n" in answer.text
    assert client.post(f"/jobs/{job.id}/text", data={"version": "0", "text": good}).status_code == 409
    assert store.job(job.id).text == good


def test_a_job_with_faults_shows_them_and_a_way_to_mend_it(client, store):
    job = store.add("broken", "format = 1\n")
    answer = client.get(f"/jobs/{job.id}")
    assert answer.status_code == 422
    assert "at least one [[piece]]" in answer.text
    assert client.get(f"/jobs/{job.id}/text").status_code == 200


@pytest.mark.parametrize("host", ["evil.example", "127.0.0.1.evil.example", "", "[::2]"])
def test_foreign_hosts_are_refused(client, host):
    assert client.get("/", headers={"Host": host}).status_code == 403


@pytest.mark.parametrize(
    "origin", ["http://evil.example", "null", "http://127.0.0.1:9999", "https://127.0.0.1:8000", ""]
)
def test_foreign_origins_change_nothing(client, store, job, origin):
    answer = client.post(f"/jobs/{job.id}/step/undo", data={"version": "0"}, headers={"Origin": origin})
    assert answer.status_code == 403


def test_without_our_cookie_nothing_changes(store, job):
    bare = TestClient(build_app(store), base_url=HOME, headers=OURS, follow_redirects=False)
    assert bare.post("/jobs", data={"from": "example"}).status_code == 403
    assert len(store.jobs()) == 1
    cookie = bare.get("/").headers["set-cookie"]
    assert "SameSite=Strict" in cookie
    assert "HttpOnly" in cookie


def test_too_much_is_refused(client):
    assert client.post("/jobs", content=b"x" * (LARGEST_BODY + 1)).status_code == 413


@pytest.mark.parametrize(
    "given", ["//evil.example", "http://evil.example", "/jobs/1/../..", "\\evil", "/jobs/1\n"]
)
def test_the_way_back_is_one_of_our_pages(given):
    assert own_page(given) == "/"


def test_small_answers_are_sent_at_once():
    """Only a socket that is named as TCP sends a body before the head is receipted: 40 ms at every stroke."""
    with _door(0) as door:
        assert door.proto == socket.IPPROTO_TCP


def test_a_port_in_use_is_said_plainly():
    first = _door(0)
    with first, pytest.raises(PortInUse, match="--port"):
        _door(first.getsockname()[1])


def test_without_a_file_the_last_job_opens_else_the_example(store):
    first = job_to_open(store, None)
    assert first.text == example_text()
    other = store.add("other", SHELF)
    assert job_to_open(store, None) == other
