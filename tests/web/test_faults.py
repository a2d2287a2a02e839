"""A fault of our own: a plain page or a problem as data, headers complete, nothing typed lost, no trace outside."""

import logging
import re
from html import unescape
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from evenface.errors import EvenfaceError
from evenface.interfaces.web import app as app_module
from evenface.interfaces.web import background
from evenface.interfaces.web.api import OPERATIONS
from evenface.interfaces.web.app import build_app
from evenface.interfaces.web.asking import NO_ADDRESS, NO_WAY, UNREADABLE
from evenface.interfaces.web.background import Planner
from evenface.interfaces.web.desk import Desk
from evenface.interfaces.web.faults import FAULT, KEPT, TRY
from evenface.interfaces.web.site import Site
from evenface.languages import sentences_of
from evenface.store import JobStore, StoreError

HOME = "http://127.0.0.1:8000"
LENGTH = "piece[0].panel[0].size[0]"
HEADERS = (
    "content-security-policy", "x-content-type-options", "x-frame-options", "referrer-policy",
    "cross-origin-opener-policy", "cross-origin-resource-policy", "cache-control",
)  # fmt: skip
SECRET = "/home/somebody/secret.toml"


def boom(*given, **more):
    raise ZeroDivisionError(f"a fault planted in {SECRET}")


def complete(answer):
    """The answer has every header, and nothing of the program's inside."""
    assert not [name for name in HEADERS if name not in answer.headers]
    assert "unsafe" not in answer.headers["content-security-policy"]
    for word in ("Traceback", "ZeroDivisionError", "planted", "secret", ".py"):
        assert word not in answer.text


def said(answer):
    return unescape(re.sub(r"<[^>]+>", " ", answer.text))


@pytest.fixture
def drawing_fails(monkeypatch):
    monkeypatch.setattr(Desk, "look", boom)


def test_a_page_says_what_happened_and_what_to_try(screens, glaze, drawing_fails, caplog):
    answer = screens.get("/jobs/1")
    assert answer.status_code == 500
    complete(answer)
    assert answer.headers["content-type"].startswith("text/html")
    assert "Something in evenface itself went wrong" in said(answer)
    assert "nothing you typed is lost" in said(answer)
    assert "undo the last change" in said(answer)
    assert 'action="/jobs/1/step/undo"' in answer.text
    assert 'href="/jobs/1/text"' in answer.text
    (told,) = [one for one in caplog.records if one.levelno >= logging.ERROR]
    assert told.exc_info is not None
    assert SECRET in caplog.text


def test_in_the_language_of_who_asks(screens, glaze, drawing_fails):
    answer = screens.get("/jobs/1", **{"Accept-Language": "sv"})
    complete(answer)
    assert '<html lang="sv">' in answer.text
    assert "Något gick fel i evenface självt" in said(answer)
    assert "went wrong" not in said(answer)


def test_what_a_form_sent_comes_back_to_be_sent_again(screens, glaze, drawing_fails):
    typed = 'by hand <b> & "so"\nand on'
    answer = screens.send("/jobs/1/parts/1.1", {"version": "0", LENGTH: typed})
    assert answer.status_code == 500
    complete(answer)
    fields = dict(re.findall(r'<input type="hidden" name="([^"]+)" value="([^"]*)">', answer.text))
    assert unescape(fields[LENGTH]) == typed
    assert '<form method="post" action="/jobs/1/parts/1.1">' in answer.text


def test_typed_into_a_page_it_gets_the_reason_beside_the_fields(screens, glaze, drawing_fails):
    answer = screens.client.post(
        "/jobs/1/parts/1.1", data={"version": "0", LENGTH: "1700"}, headers={"X-Live": "1"}
    )
    assert answer.status_code == 500
    complete(answer)
    assert answer.text.startswith('<div id="failed" data-swap role="alert">')
    assert "<html" not in answer.text
    assert "nothing you typed is lost" in said(answer)


def test_a_value_that_evenface_fails_at_stays_in_its_field(screens, glaze, monkeypatch, caplog):
    monkeypatch.setattr(Desk, "change", boom)
    sent = {"version": "0", LENGTH: "1700", f"was:{LENGTH}": "1800"}
    answer = screens.client.post("/jobs/1/parts/1.1", data=sent, headers={"X-Live": "1"})
    assert answer.status_code == 422
    complete(answer)
    assert "a fault of its own" in said(answer)
    assert "ZeroDivisionError" in caplog.text
    assert screens.store.job(1).version == 0
    again = screens.get("/jobs/1/parts/1.1")  # kept aside, and the page stands all the same
    assert again.status_code == 200
    assert re.search(rf'name="{re.escape(LENGTH)}" value="1700"', again.text)
    complete(again)


def test_a_text_that_evenface_fails_at_stays_in_its_field(screens, glaze, drawing_fails):
    answer = screens.send("/jobs/1/text", {"version": "0", "text": "format = 1\n# all my work"})
    assert answer.status_code == 500
    complete(answer)
    assert "# all my work</textarea>" in answer.text
    assert "nothing you typed is lost" in said(answer)


def test_programs_get_a_problem(screens, glaze, drawing_fails, caplog):
    answer = screens.get("/api/v1/jobs/1/parts")
    assert answer.status_code == 500
    complete(answer)
    assert answer.headers["content-type"] == "application/problem+json"
    told = answer.json()
    assert told["type"] == "/api/problems/fault"
    assert told["reasons"][0]["try"]
    assert SECRET in caplog.text


def test_every_operation_of_the_api_is_behind_it(screens, glaze, monkeypatch):
    for name in ("job", "jobs", "add", "save", "undo", "redo"):
        monkeypatch.setattr(JobStore, name, boom)
    filled = {"job": "1", "part": "1.1", "piece": "1"}
    asked = 0
    for one in OPERATIONS:
        if one.method == "GET":
            path = re.sub(r"\{(\w+)(:\w+)?\}", lambda found: filled.get(found[1], "x"), one.path)
            answer = screens.get(f"/api/v1{path}")
            complete(answer)
            if answer.status_code == 500:
                asked += 1
                assert answer.headers["content-type"] == "application/problem+json"
    assert asked >= 5


def test_where_no_page_can_be_made_plain_words_remain(screens, glaze, monkeypatch):
    monkeypatch.setattr(Site, "page", boom)
    answer = screens.get("/jobs/1")
    assert answer.status_code == 500
    complete(answer)
    assert answer.headers["content-type"].startswith("text/plain")
    assert "nothing you typed is lost" in answer.text


def test_a_fault_before_any_page_still_has_every_header(tmp_path, monkeypatch, caplog):
    monkeypatch.setattr(app_module.StaticFiles, "get_response", boom)
    store = JobStore(tmp_path)
    client = TestClient(build_app(store, Planner(0.0)), base_url=HOME, headers={"Origin": HOME})
    answer = client.get("/static/style.css")
    store.close()
    assert answer.status_code == 500
    complete(answer)
    assert "Everything kept so far stands" in answer.text
    assert SECRET in caplog.text


def test_what_cannot_be_kept_now_is_sent_again(screens, glaze, monkeypatch):
    def full(*given, **more):
        raise StoreError("The job could not be kept: database or disk is full. Nothing was changed.")

    monkeypatch.setattr(JobStore, "save", full)
    sent = {"version": "0", LENGTH: "1700"}
    live = screens.client.post("/jobs/1/parts/1.1", data=sent, headers={"X-Live": "1"})
    assert live.status_code == 503
    assert "disk is full" in said(live)
    plain = screens.send("/jobs/1/parts/1.1", sent)
    assert plain.status_code == 503
    assert 'value="1700"' in plain.text


def test_an_error_with_a_name_keeps_its_own_words(screens, glaze, monkeypatch):
    def named(*given, **more):
        raise EvenfaceError("The press is shut.")

    monkeypatch.setattr(Desk, "look", named)
    answer = screens.get("/jobs/1")
    assert answer.status_code == 500
    assert "The press is shut." in said(answer)


def test_an_address_that_is_not_there_gets_a_page_in_the_readers_language(screens):
    answer = screens.get("/nowhere", **{"Accept-Language": "sv"})
    assert answer.status_code == 404
    complete(answer)
    assert '<html lang="sv">' in answer.text
    assert "Det finns ingen sida på den här adressen." in said(answer)
    wrong = screens.post("/")
    assert wrong.status_code == 405
    assert wrong.headers["allow"]
    complete(wrong)


def test_a_job_gone_meanwhile_is_told_beside_what_is_typed(screens, glaze):
    answer = screens.client.post("/jobs/9/parts/1.1", data={LENGTH: "1"}, headers={"X-Live": "1"})
    assert answer.status_code == 404
    assert answer.text.startswith('<div id="failed" data-swap')


def test_every_title_and_sentence_of_a_failure_is_spoken_in_swedish():
    known = sentences_of("sv")
    titles = {"Not here", "The job cannot be read", "That did not work"}  # those that go through a function
    for file in Path(app_module.__file__).parent.glob("*.py"):
        titles |= set(re.findall(r'\btitle="([^"]+)"', file.read_text(encoding="utf-8")))
    assert len(titles) > 20
    assert sorted((titles | {FAULT, KEPT, TRY, NO_ADDRESS, NO_WAY, UNREADABLE}) - set(known)) == []


def test_what_fails_beside_the_pages_is_told_without_its_inside(screens, glaze, monkeypatch, caplog):
    monkeypatch.setattr(background, "plan", boom)
    screens.get("/jobs/1/cutting")
    answer = screens.settled("/jobs/1/cutting")
    complete(answer)
    assert FAULT in said(answer)
    assert SECRET in caplog.text

    def wanting(*given, **more):
        raise EvenfaceError("The saw has no blade.")

    monkeypatch.setattr(background, "plan", wanting)
    screens.post("/jobs/1/cutting", do="start")
    assert "The saw has no blade." in said(screens.settled("/jobs/1/cutting"))


@pytest.mark.parametrize(
    "body", [b"version=0&text=\xff\xfe", b"&".join(b"a%d=1" % number for number in range(10_001))]
)
def test_what_is_no_form_is_refused_and_not_taken_for_an_empty_one(screens, glaze, body):
    kind = {"Content-Type": "application/x-www-form-urlencoded"}
    answer = screens.client.post("/jobs/1/text", content=body, headers=kind)
    assert answer.status_code == 400
    complete(answer)
    assert UNREADABLE in said(answer)
    assert screens.store.job(1).version == 0


def test_a_form_of_a_thousand_fields_is_taken_whole(screens, glaze):
    fields = {f"unknown[{number}]": "1" for number in range(1000)}
    answer = screens.send("/jobs/1/parts/1.1", {"version": "0", **fields, LENGTH: "1700"})
    assert answer.status_code == 303
    assert screens.store.job(1).version == 1
