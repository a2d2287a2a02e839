"""The API as a program uses it: every action, every refusal in one shape, two programs on one job."""

import json
import re
import time
import tomllib
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from evenface.documents.result_json import read_result
from evenface.interfaces.web.actions import example_text
from evenface.interfaces.web.api import BASE, OPERATIONS
from evenface.interfaces.web.app import build_app
from evenface.interfaces.web.background import Planner
from evenface.interfaces.web.guard import LARGEST_BODY

HOME = "http://127.0.0.1:8000"
SHELF = (Path(__file__).parents[2] / "examples" / "one-shelf.toml").read_text(encoding="utf-8")
LENGTH = "piece[0].panel[0].size[0]"


@pytest.fixture
def client(store):
    return TestClient(build_app(store, Planner(0.0)), base_url=HOME)


@pytest.fixture
def job(store):
    return f"{BASE}/jobs/{store.add('Glaze room', example_text()).id}"


@pytest.fixture
def shelf(store):
    return f"{BASE}/jobs/{store.add('Shelf', SHELF).id}"


def refusal(answer, status, word):
    """The problem of an answer, held against the one shape every refusal has."""
    assert answer.status_code == status
    assert answer.headers["content-type"] == "application/problem+json"
    told = answer.json()
    assert told["type"] == f"/api/problems/{word}"
    assert told["status"] == status
    assert {"title", "detail", "expected", "given", "where", "try", "reasons"} <= told.keys()
    assert all(one.keys() == {"expected", "given", "where", "try"} for one in told["reasons"])
    return told


def set_length(client, job, version, new):
    changes = [{"path": LENGTH, "new": new}]
    return client.post(f"{job}/changes", json={"version": version, "changes": changes})


def length_of(answer):
    return tomllib.loads(answer.json()["text"])["piece"][0]["panel"][0]["size"][0]


def planned(client, job):
    assert client.post(f"{job}/plan", json={}).status_code == 202
    until = time.monotonic() + 60
    while (state := client.get(f"{job}/plan").json())["state"] == "running":
        assert time.monotonic() < until
        time.sleep(0.02)
    return state


def test_a_job_is_begun_from_its_text_and_found_again(client):
    answer = client.post(f"{BASE}/jobs", json={"text": SHELF})
    assert answer.status_code == 201
    found = client.get(answer.headers["location"]).json()
    assert found == answer.json()
    assert found["text"] == SHELF
    assert [one["id"] for one in client.get(f"{BASE}/jobs").json()] == [found["id"]]
    assert client.post(f"{BASE}/jobs", json={}).json()["text"] == example_text()


def test_a_text_with_slips_is_refused_with_every_one_of_them(client):
    told = refusal(
        client.post(f"{BASE}/jobs", json={"text": "format = 1\n[job]\nnmae = 'x'\n"}), 422, "job-file"
    )
    assert any("line 3" in one["where"] for one in told["reasons"])
    assert client.get(f"{BASE}/jobs").json() == []


def test_entries_are_set_and_taken_out_and_the_steps_go_back_and_forth(client, job):
    answer = set_length(client, job, 0, "1777")
    assert (answer.json()["version"], length_of(answer)) == (1, 1777)
    wood = {"version": 1, "changes": [{"path": "piece[0].panel[0].edging.order", "new": "facing first"}]}
    assert "facing first" in client.post(f"{job}/changes", json=wood).json()["text"]
    out = {"version": 2, "changes": [{"path": "piece[0].panel[0].edging.order", "new": ""}]}
    taken = tomllib.loads(client.post(f"{job}/changes", json=out).json()["text"])
    assert "order" not in taken["piece"][0]["panel"][0].get("edging", {})
    for version in (3, 4, 5):
        answer = client.post(f"{job}/undo", json={"version": version})
    assert answer.json()["text"] == example_text()
    assert length_of(client.post(f"{job}/redo", json={"version": 6})) == 1777


def test_an_entry_that_cannot_be_changes_nothing(client, job):
    told = refusal(set_length(client, job, 0, "-5"), 422, "job-file")
    assert LENGTH.rsplit("[", 1)[0] in told["where"]
    assert client.get(job).json()["version"] == 0


def test_of_two_programs_the_slower_is_told_what_stands_now(client, job):
    set_length(client, job, 0, "1777")
    told = refusal(set_length(client, job, 0, "1666"), 409, "stale")
    assert told["now"] == client.get(job).json()
    assert "1777" in told["now"]["text"]
    assert length_of(set_length(client, job, told["now"]["version"], "1666")) == 1666
    for way, body in [
        ("undo", {"version": 0}),
        ("redo", {"version": 0}),
        ("remedies/take", {"version": 0, "finding": 0, "remedy": 0}),
        ("try", {"version": 0, "changes": [{"path": LENGTH, "new": "5"}]}),
    ]:  # fmt: skip
        refusal(client.post(f"{job}/{way}", json=body), 409, "stale")
    refusal(client.put(f"{job}/text", json={"version": 0, "text": SHELF}), 409, "stale")


def test_the_whole_text_can_be_written(client, job):
    assert client.put(f"{job}/text", json={"version": 0, "text": SHELF}).json()["text"] == SHELF
    refusal(client.put(f"{job}/text", json={"version": 1, "text": "format ="}), 422, "job-file")


def test_sizes_and_findings_are_those_of_the_result(client, shelf):
    assert planned(client, shelf)["state"] == "done"
    whole = client.get(f"{shelf}/result").json()
    sketched = client.get(f"{shelf}/sketch").json()
    assert json.dumps(sketched["parts"][0]["layers"][0]["net_mm"]) == json.dumps(
        whole["parts"][0]["layers"][0]["net_mm"]
    )
    assert sketched["parts"] == client.get(f"{shelf}/parts").json()
    assert sketched["findings"] == client.get(f"{shelf}/findings").json()
    planned_too = [one for one in whole["findings"] if not one["code"].startswith("layout.")]
    assert [one["code"] for one in sketched["findings"]] == [one["code"] for one in planned_too]
    read_result(json.dumps(whole))


def test_pieces_name_their_parts(client, job):
    pieces = client.get(f"{job}/pieces").json()
    parts = client.get(f"{job}/parts").json()
    assert sorted(one for piece in pieces for one in piece["parts"]) == sorted(one["id"] for one in parts)
    first = parts[0]
    assert client.get(f"{job}/parts/{first['id']}").json() == first
    refusal(client.get(f"{job}/parts/99.9"), 404, "not-here")


def test_a_remedy_is_tried_taken_and_taken_back(client, job):
    findings = client.get(f"{job}/findings").json()
    number, which = next(
        (n, m)
        for n, one in enumerate(findings)
        for m, remedy in enumerate(one["remedies"])
        if remedy["changes"]
    )
    asked = {"version": 0, "finding": number, "remedy": which}
    tried = client.post(f"{job}/remedies/try", json=asked).json()
    assert tried["gone"] or tried["come"]
    assert client.get(job).json()["version"] == 0
    changes = [
        {"path": one["path"], "new": one["new"]} for one in findings[number]["remedies"][which]["changes"]
    ]
    by_hand = client.post(f"{job}/try", json={"version": 0, "changes": changes}).json()
    assert by_hand == tried
    assert client.post(f"{job}/remedies/take", json=asked).json()["version"] == 1
    assert client.post(f"{job}/undo", json={"version": 1}).json()["text"] == example_text()
    refusal(
        client.post(f"{job}/remedies/try", json={"version": 2, "finding": 999, "remedy": 0}), 404, "not-here"
    )


def test_every_drawing_that_is_listed_can_be_had(client, shelf):
    listed = client.get(f"{shelf}/drawings").json()
    assert {"plan", "build-up"} < {one["name"] for one in listed}
    for one in listed:
        answer = client.get(one["address"])
        assert answer.headers["content-type"] == "image/svg+xml"
        assert answer.text.startswith("<svg")
    assert client.get(f"{listed[0]['address']}?units=inch").text != client.get(listed[0]["address"]).text
    refusal(client.get(f"{shelf}/parts/1.1/drawings/..%2f..%2fetc"), 404, "address")
    refusal(client.get(f"{shelf}/parts/1.1/drawings/passwd"), 404, "not-here")


def test_what_needs_layouts_says_so_until_they_are_there(client, shelf):
    assert client.get(f"{shelf}/plan").json()["state"] == "none"
    for name in ("result", "packet.pdf", "price"):
        refusal(client.get(f"{shelf}/{name}"), 409, "not-planned")
    planned(client, shelf)
    assert client.get(f"{shelf}/packet.pdf").content.startswith(b"%PDF")
    price = client.get(f"{shelf}/price").json()
    assert price["lines"]
    assert price["at_least"] is bool(price["missing"])


def test_layouts_can_be_ended(store):
    client = TestClient(build_app(store, Planner(30.0)), base_url=HOME)
    job = f"{BASE}/jobs/{store.add('Glaze room', example_text()).id}"
    client.post(f"{job}/plan", json={})
    assert client.delete(f"{job}/plan").json()["state"] in ("cancelled", "done")


def test_steps_come_in_the_order_of_the_calendar(client, shelf):
    steps = client.get(f"{shelf}/steps").json()
    assert [one["start"] for one in steps] == sorted(one["start"] for one in steps)
    known = {one["id"] for one in steps}
    assert all(set(one["after"]) <= known for one in steps)


def test_the_rack_is_listed(client):
    assert client.get(f"{BASE}/rack").json() == []
    from evenface.store.rack import Rack, RackItem

    with Rack() as rack:
        rack.receive([RackItem("sheet", "mdf-18", 122_000, 61_000)])
    (item,) = client.get(f"{BASE}/rack").json()
    assert (item["material"], item["length_mm"], item["width_mm"]) == ("mdf-18", 1220.0, 610.0)


@pytest.mark.parametrize("number", ["0", "77", "x", "-1", "1e3", "99999999999999999999", "١"])
def test_a_job_that_is_not_there_is_said(client, number):
    refusal(client.get(f"{BASE}/jobs/{number}"), 404, "not-here")


def test_addresses_and_methods_that_are_not_there_are_said(client, job):
    refusal(client.get(f"{BASE}/nowhere"), 404, "address")
    answer = client.delete(job)
    refusal(answer, 405, "method")
    assert "GET" in answer.headers["allow"]
    both = client.put(f"{job}/plan", json={})
    refusal(both, 405, "method")
    assert {one.strip() for one in both.headers["allow"].split(",")} >= {"GET", "POST", "DELETE"}


@pytest.mark.parametrize(
    ("sent", "status"),
    [
        ({"content": b"{}", "headers": {"Content-Type": "text/plain"}}, 415),
        ({"data": {"version": "0"}}, 415),
        ({"content": b"{", "headers": {"Content-Type": "application/json"}}, 422),
        ({"json": {"version": "0"}}, 422),
        ({"json": {"version": -1}}, 422),
        ({"json": {"version": 0, "more": 1}}, 422),
        ({"json": []}, 422),
        ({"content": b"\xff", "headers": {"Content-Type": "application/json"}}, 422),
        ({"content": b"[" * 100_000, "headers": {"Content-Type": "application/json"}}, 422),
        ({"content": b"x" * (LARGEST_BODY + 1), "headers": {"Content-Type": "application/json"}}, 413),
        ({"content": iter([b"{}"]), "headers": {"Content-Type": "application/json"}}, 411),
    ],
)
def test_what_is_sent_is_taken_exactly(client, job, sent, status):
    answer = client.post(f"{job}/undo", **sent)
    assert answer.status_code == status
    assert answer.headers["content-type"] == "application/problem+json"


@pytest.mark.parametrize(
    "headers",
    [
        {"Origin": "http://evil.example"},
        {"Origin": "null"},
        {"Host": "evil.example"},
        {"Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-site"},
    ],
)
def test_foreign_pages_are_refused_reading_and_changing(client, job, headers):
    refusal(client.get(job, headers=headers), 403, "refused")
    refusal(client.post(f"{job}/undo", json={"version": 0}, headers=headers), 403, "refused")


def test_answers_carry_the_headers_of_the_pages(client, job):
    for answer in (client.get(job), client.get(f"{BASE}/nowhere")):
        assert answer.headers["x-content-type-options"] == "nosniff"
        assert "default-src 'none'" in answer.headers["content-security-policy"]
        assert answer.headers["cache-control"] == "no-store"


def test_the_description_lists_every_operation_and_only_those(client):
    described = client.get(f"{BASE}/openapi.json").json()
    assert described["openapi"] == "3.1.0"
    listed = {(way.upper(), path) for path, ways in described["paths"].items() for way in ways}
    assert listed == {(one.method, BASE + one.path) for one in OPERATIONS}
    names = [one["operationId"] for ways in described["paths"].values() for one in ways.values()]
    assert len(set(names)) == len(names)
    known = set(described["components"]["schemas"])
    used = set(re.findall(r'"#/components/schemas/([^"]+)"', json.dumps(described)))
    assert used <= known


def test_the_page_for_programs_lists_them_in_words(client):
    page = client.get("/api")
    assert page.status_code == 200
    assert all(one.summary in page.text for one in OPERATIONS)
