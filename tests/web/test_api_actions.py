"""What the pages can do, programs can do too: the two lists held against each other, and each action tried."""

import time
import tomllib
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from evenface.interfaces.web.actions import example_text
from evenface.interfaces.web.api import BASE, OPERATIONS
from evenface.interfaces.web.app import ROUTES, build_app
from evenface.interfaces.web.background import Planner

HOME = "http://127.0.0.1:8000"
EXAMPLES = Path(__file__).parents[2] / "examples"
SHELF = (EXAMPLES / "one-shelf.toml").read_text(encoding="utf-8")
SAME = {
    "/jobs": {"beginJob"},
    "/units": set(),  # of a program: ?units=
    "/language": set(),  # what programs read is in one language
    "/jobs/{job}/parts/{part}": {"changeEntries", "tryChanges"},
    "/jobs/{job}/pieces/{piece}": {"changeEntries", "tryChanges"},
    "/jobs/{job}/job": {"changeEntries", "tryChanges"},
    "/jobs/{job}/buildups": {"changeEntries"},
    "/jobs/{job}/aims": {"setAims"},
    "/jobs/{job}/hours": {"changeEntries", "tryChanges"},
    "/jobs/{job}/stock": {"changeEntries", "tryChanges"},
    "/jobs/{job}/lines": {"addStockLine", "removeStockLine", "addDamage", "removeDamage"},
    "/jobs/{job}/brief": {"changeEntries", "tryChanges"},
    "/jobs/{job}/rates": {"changeEntries", "tryChanges"},
    "/jobs/{job}/extras": {"addExtra", "changeEntries"},
    "/jobs/{job}/pieces/{piece}/all": {"changeEntries", "tryChanges"},
    "/jobs/{job}/parts/{part}/all": {"changeEntries", "tryChanges"},
    "/jobs/{job}/tables": {"copyTable", "changeEntries"},
    "/jobs/{job}/variants": {"changeEntries", "tryChanges"},
    "/jobs/{job}/differences": {"changeEntries"},
    "/jobs/{job}/people": {"addPerson", "removePerson", "layHours", "holdStep"},
    "/jobs/{job}/keep": {"takeRemedy"},
    "/jobs/{job}/cutting": {"beginPlan", "cancelPlan"},
    "/jobs/{job}/text": {"writeText"},
    "/jobs/{job}/file": {"writeFile", "takeFile"},
    "/jobs/{job}/step/{way}": {"undo", "redo"},
    "/jobs/{job}/price": {"fillInPrices"},
    "/jobs/{job}/offers": {"writeOffer"},
    "/jobs/{job}/alternatives": {
        "adoptVariant",
        "removeVariant",
        "addVariant",
        "compareVariants",
        "stopComparing",
    },
    "/new": {"beginFromPattern"},
    "/jobs/{job}/new": {"addPiece"},
    "/jobs/{job}/pieces": {"removePiece", "removePart", "copyPart"},
    "/jobs/{job}/copy": {"copyJob"},
    "/jobs/{job}/away": {"putAway"},
    "/jobs/{job}/making/{step}": {"tickStep", "untickStep", "setTimer"},
    "/jobs/{job}/buying": {"planFromRack", "stopPlanFromRack"},
    "/rack": {"receiveStock", "undoRack"},
    "/rack/{code}": {"changeItem"},
    "/jobs/{job}/add/{part}": {"addFeature", "removeFeature"},
}
SEEN = {
    "/": {"listJobs", "listAway"},
    "/jobs/{job}": {"readJob", "listPieces", "listParts"},
    "/jobs/{job}/parts/{part}": {"readPart", "listDrawings", "readDrawing"},
    "/jobs/{job}/check": {"listFindings", "readSketch"},
    "/jobs/{job}/try": {"tryRemedy"},
    "/jobs/{job}/cutting": {"readPlan", "readResult"},
    "/jobs/{job}/job": {"readJob"},
    "/jobs/{job}/hours": {"readJob", "listSteps"},
    "/jobs/{job}/stock": {"readJob"},
    "/jobs/{job}/variants": {"listVariants"},
    "/jobs/{job}/pieces/{piece}/all": {"readJob"},
    "/jobs/{job}/parts/{part}/all": {"readJob"},
    "/jobs/{job}/rates": {"readJob"},
    "/jobs/{job}/brief": {"readJob"},
    "/jobs/{job}/text": {"readJob", "readFile"},
    "/jobs/{job}/outside": {"readJob"},
    "/jobs/{job}/price": {"readPrice", "listOffers"},
    "/jobs/{job}/offers/{number}/{name}": {"readOffer"},
    "/jobs/{job}/alternatives": {"listVariants", "compareVariants"},
    "/jobs/{job}/choice": {"choose"},
    "/new": {"listPatterns"},
    "/jobs/{job}/new": {"listPatterns"},
    "/jobs/{job}/making": {"listSteps"},
    "/jobs/{job}/calendar": {"listSteps"},
    "/jobs/{job}/making/{step}": {"readStep"},
    "/jobs/{job}/buying": {"readResult", "readPlanFromRack"},
    "/rack": {"listRack"},
    "/rack/labels.pdf": {"readLabel"},
    "/rack/rack.csv": {"readRackTable"},
    "/rack/{code}": {"readItem"},
    "/jobs/{job}/flat/{part}": {"readYear"},
    "/jobs/{job}/backers/{part}": {"compareBackers"},
    "/jobs/{job}/limits": {"askWidths"},
    "/jobs/{job}/effect": {"readEffect"},
    "/jobs/{job}/add/{part}": {"listFeatures"},
    "/jobs/{job}/solid/{piece}": {"readSolid", "readBows"},
    "/jobs/{job}/pieces/{piece}": {"listPieces", "readResult"},
    "/jobs/{job}/paper": {"listPapers"},
    "/jobs/{job}/paper/{name:path}": {"readPaper", "readPacket"},
}


@pytest.fixture
def api(store):
    return TestClient(build_app(store, Planner(0.0)), base_url=HOME + BASE)


@pytest.fixture
def glaze(store):
    return f"jobs/{store.add('Glaze room', example_text()).id}"


@pytest.fixture
def shelf(store):
    return f"jobs/{store.add('Shelf', SHELF).id}"


def done(ask):
    """The answer of a reckoning once it is done."""
    until = time.monotonic() + 120
    while (answer := ask().json())["state"] in ("running", "none"):
        assert time.monotonic() < until
        time.sleep(0.05)
    assert answer["state"] == "done", answer
    return answer


def planned(api, job):
    api.post(f"{job}/plan", json={})
    return done(lambda: api.get(f"{job}/plan"))


@pytest.mark.parametrize(("way", "same"), [("POST", SAME), ("GET", SEEN)])
def test_every_page_and_action_of_the_screens_is_there_for_programs(way, same):
    pages = {path for method, path, _ in ROUTES if method == way}
    assert pages == same.keys(), (
        "a page or action that programs do not have yet, or a name of one that is gone"
    )
    known = {one.name for one in OPERATIONS}
    assert set().union(*same.values()) <= known


def test_a_job_is_begun_from_a_pattern_and_gets_a_piece_more(api):
    sorts = {one["name"]: one for one in api.get("patterns").json()}
    assert {"top", "shelf", "cupboard"} <= sorts.keys()
    assert "length" in [one["key"] for one in sorts["top"]["figures"]]
    begun = api.post("patterns/top", json={"job": "Kiln room", "figures": {"length": "1400", "radius": "60"}})
    assert begun.status_code == 201
    job = begun.json()
    assert begun.headers["location"] == f"{BASE}/jobs/{job['id']}"
    assert tomllib.loads(job["text"])["piece"][0]["panel"][0]["size"] == [1400, 600]
    more = api.post(
        f"jobs/{job['id']}/patterns/shelf", json={"version": job["version"], "figures": {"name": "Shelf"}}
    ).json()
    assert [one["name"] for one in tomllib.loads(more["text"])["piece"]] == ["Top", "Shelf"]
    less = api.post(f"jobs/{job['id']}/pieces/1/remove", json={"version": more["version"]}).json()
    assert [one["name"] for one in tomllib.loads(less["text"])["piece"]] == ["Shelf"]
    refused = api.post("patterns/top", json={"figures": {"length": "a mile", "name": "Top"}})
    assert refused.status_code == 422
    assert refused.json()["reasons"][0]["where"].endswith("length")
    assert api.post("patterns/castle", json={}).status_code == 404


def test_parts_and_features_come_and_go(api, glaze):
    version = api.get(glaze).json()["version"]
    copied = api.post(f"{glaze}/parts/1.2/copy", json={"version": version}).json()
    before, after = (tomllib.loads(one)["piece"][0]["panel"] for one in (example_text(), copied["text"]))
    assert len(after) == len(before) + 1
    stands = api.get(f"{glaze}/parts/1.2/features").json()
    assert "grip" in stands["may_be_added"]
    figures = {"name": "finger pull", "x": "300", "y": "60", "long": "90", "depth": "8", "diameter": "25"}
    body = {"version": copied["version"], "what": "grip", "figures": figures}
    more = api.post(f"{glaze}/parts/1.2/features", json=body).json()
    (path,) = set(api.get(f"{glaze}/parts/1.2/features").json()["standing"]) - set(stands["standing"])
    less = api.post(f"{glaze}/parts/1.2/features/remove", json={"version": more["version"], "path": path})
    assert less.status_code == 200
    assert api.get(f"{glaze}/parts/1.2/features").json() == stands
    stale = api.post(f"{glaze}/parts/1.2/remove", json={"version": version})
    assert stale.status_code == 409
    assert stale.json()["now"]["version"] == less.json()["version"]


def test_jobs_are_copied_put_away_and_brought_back(api, glaze):
    twin = api.post(f"{glaze}/copy", json={})
    assert twin.status_code == 201
    assert twin.json()["name"].endswith("(copy)")
    gone = f"jobs/{twin.json()['id']}/away"
    api.post(gone, json={"away": True})
    assert twin.json()["id"] in [one["id"] for one in api.get("away").json()]
    assert twin.json()["id"] not in [one["id"] for one in api.get("jobs").json()]
    api.post(gone, json={"away": False})
    assert api.get("away").json() == []


def test_a_job_is_written_to_its_file_and_taken_from_it(api, store, tmp_path):
    place = tmp_path / "shelf.toml"
    place.write_text(SHELF, encoding="utf-8")
    job = f"jobs/{store.add('Shelf', SHELF, place).id}"
    assert api.get(f"{job}/file").json() == {"file": "shelf.toml", "state": "same"}
    changes = [{"path": "job.name", "new": "Two shelves"}]
    version = api.post(f"{job}/changes", json={"version": 0, "changes": changes}).json()["version"]
    place.write_text(SHELF + "# by hand\n", encoding="utf-8")
    refused = api.post(f"{job}/file/write", json={"version": version})
    assert refused.status_code == 409
    assert "Say which one stands" in refused.json()["given"]
    taken = api.post(f"{job}/file/take", json={"version": version}).json()
    assert taken["text"].endswith("# by hand\n")
    version = api.post(f"{job}/changes", json={"version": taken["version"], "changes": changes}).json()[
        "version"
    ]
    assert api.post(f"{job}/file/write", json={"version": version}).json()["state"] == "same"
    assert "Two shelves" in place.read_text(encoding="utf-8")
    alone = f"jobs/{store.add('Shelf', SHELF).id}"
    assert api.post(f"{alone}/file/write", json={"version": 0}).status_code == 409
    place.unlink()
    gone = api.post(f"{job}/file/take", json={"version": version})
    assert gone.status_code == 503
    assert str(tmp_path) not in gone.text


def test_steps_are_ticked_and_timed(api, shelf):
    first = api.get(f"{shelf}/steps").json()[0]["id"]
    assert api.post(f"{shelf}/steps/{first}/timer", json={"do": "start"}).json()["timer_runs"] is True
    rested = api.post(f"{shelf}/steps/{first}/timer", json={"do": "rest"}).json()
    assert rested["timer_runs"] is False
    assert rested["timer_minutes"] >= 0
    ticked = api.post(f"{shelf}/steps/{first}/tick", json={"minutes": 12.5}).json()
    assert (ticked["done"], ticked["took_minutes"], ticked["timer_minutes"]) == (True, 12.5, None)
    assert api.post(f"{shelf}/steps/{first}/untick", json={}).json()["done"] is False
    for way in ("tick", "untick"):
        assert api.post(f"{shelf}/steps/9.9-99/{way}", json={}).status_code == 404


def test_stock_is_booked_in_reserved_cut_and_undone(api):
    body = {"material": "birch-ply-18", "size": "2500x1250", "copies": 2, "price": "80", "currency": "EUR"}
    both = api.post("rack", json=body).json()
    assert [one["length_mm"] for one in both] == [2500, 2500]
    one = f"rack/{both[0]['code']}"
    seen = api.get(one).json()["last_action"]
    held = api.post(one, json={"do": "reserve", "job": "Kiln room", "seen": seen}).json()
    assert held["reserved_for"] == "Kiln room"
    late = api.post(one, json={"do": "spoil", "seen": seen})
    assert late.status_code == 409
    assert "meanwhile" in late.json()["given"]
    cut = api.post(one, json={"do": "cut", "rests": "600x400"}).json()
    assert len(cut["rests"]) == 1
    assert api.post("rack-undo", json={}).json()["kind"] == "cut"
    assert api.get(one).json()["rests"] == []
    assert api.get(f"{one}/label.pdf").content.startswith(b"%PDF")
    assert "birch-ply-18" in api.get("rack.csv").text
    assert api.get("rack/0000-0000").status_code == 404
    wrong = api.post("rack", json=body | {"material": "birch-plie"})
    assert wrong.status_code == 422


def test_a_job_is_planned_from_the_rack(api, shelf):
    api.post("rack", json={"material": "birch-ply-18", "size": "2500x1250"})
    assert api.get(f"{shelf}/from-rack").json()["state"] == "none"
    assert api.post(f"{shelf}/from-rack", json={}).status_code == 202
    assert done(lambda: api.get(f"{shelf}/from-rack"))["tables"][0]["columns"]


def test_prices_are_filled_in_and_a_paper_is_written(api, shelf):
    assert api.post(f"{shelf}/offers", json={"paper": "offer"}).status_code == 409  # no layouts yet
    planned(api, shelf)
    blanks = [one for one in api.get(f"{shelf}/price").json()["blanks"] if one["field"]]
    assert blanks
    entry = {"field": blanks[0]["field"], "price": "61.5"}
    filled = api.post(f"{shelf}/price", json={"version": 0, "prices": [entry]})
    assert filled.status_code == 200
    assert "61.5" in filled.json()["text"]
    other = {"field": "job.name", "price": "5"}
    assert api.post(f"{shelf}/price", json={"version": 1, "prices": [other]}).status_code in (409, 422)
    planned(api, shelf)
    assert api.post(f"{shelf}/price", json={"version": 1, "prices": [other]}).status_code == 422
    assert api.post(f"{shelf}/offers", json={"paper": "offer"}).status_code == 409  # not all is priced
    paper = api.post(f"{shelf}/offers", json={"paper": "offer", "draft": True, "to": "A client"}).json()
    assert api.get(f"{shelf}/offers").json() == [paper]
    name = next(one for one in paper["files"] if one.endswith(".pdf"))
    assert api.get(f"{shelf}/offers/{paper['number']}/{name}").content.startswith(b"%PDF")
    assert api.get(f"{shelf}/offers/{paper['number']}/..%2f..%2fjob.toml").status_code == 404


def test_variants_are_added_compared_adopted_and_removed(api, glaze):
    known = api.get(f"{glaze}/variants").json()
    body = {"version": 0, "name": "Thin", "buildup": "bench", "different": {"carrier": "mdf-19"}}
    version = api.post(f"{glaze}/variants", json=body).json()["version"]
    listed = api.get(f"{glaze}/variants").json()
    assert [one["name"] for one in listed] == [*(one["name"] for one in known), "Thin"]
    number = listed[-1]["number"]
    adopted = api.post(f"{glaze}/variants/{number}/adopt", json={"version": version}).json()
    assert tomllib.loads(adopted["text"])["buildup"]["bench"]["carrier"]["material"] == "mdf-19"
    removed = api.post(f"{glaze}/variants/{number}/remove", json={"version": adopted["version"]})
    assert api.get(f"{glaze}/variants").json() == known
    wrong = body | {"version": removed.json()["version"], "different": {"colour": "red"}}
    assert api.post(f"{glaze}/variants", json=wrong).status_code == 422


def test_long_reckonings_are_asked_for_until_they_are_done(api, shelf):
    assert api.post(f"{shelf}/alternatives", json={}).status_code == 409  # no variants
    backers = done(lambda: api.post(f"{shelf}/parts/1.1/backers", json={}))
    assert backers["tables"][0]["rows"]
    chosen = done(lambda: api.post(f"{shelf}/choice", json={"use": "writing desk"}))
    assert chosen["tables"]
    assert api.post(f"{shelf}/choice", json={"use": "moon"}).status_code == 422


def test_the_year_of_a_part_and_widths_of_wood(api, glaze):
    year = api.get(f"{glaze}/parts/1.1/year").json()
    assert len(year["months"]["rows"]) >= 12
    assert api.post(f"{glaze}/widths", json={"wood": "oak"}).json()["rows"]
    assert api.post(f"{glaze}/widths", json={"wood": "oke"}).status_code == 422


def test_a_remedy_is_told_in_numbers(api, glaze):
    version = api.get(glaze).json()["version"]
    found = api.get(f"{glaze}/findings").json()
    at, which = next(
        (number, each)
        for number, one in enumerate(found)
        for each, remedy in enumerate(one["remedies"])
        if remedy["changes"]
    )
    body = {"version": version, "finding": at, "remedy": which}
    told = done(lambda: api.post(f"{glaze}/remedies/effect", json=body))
    assert told["tables"][0]["columns"][1:] == ["before", "after", "difference"]


def test_every_paper_that_is_listed_can_be_had(api, shelf):
    listed = api.get(f"{shelf}/papers").json()
    assert {"packet.pdf", "bench-cards.pdf", "parts.csv"} <= {one["name"] for one in listed}
    for one in listed[:4]:
        answer = api.get(one["address"].removeprefix(BASE + "/"))
        assert answer.status_code == 200
        assert answer.content
    assert api.get(f"{shelf}/papers/nothing.pdf").status_code == 404
    assert api.get(f"{shelf}/papers/..%2f..%2fevenface.sqlite3").status_code == 404
