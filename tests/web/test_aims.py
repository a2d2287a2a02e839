"""The aims of a good layout on the page of the job: moved, taken out, added, undone; the file keeps its comments."""

import re
import tomllib

import pytest
from starlette.testclient import TestClient

from evenface.interfaces.web.aims import moved
from evenface.interfaces.web.api import BASE
from evenface.interfaces.web.app import build_app
from evenface.interfaces.web.background import Planner
from evenface.interfaces.web.site import NoSuchPage
from evenface.piece.cutting_records import USUAL_AIMS

PAGE = "/jobs/1/job"
BARE = """format = 1
[job]
name = "One"
[buildup.b]
carrier = "mdf-19"
glue = "pva-d3"
[[piece]]
name = "P"
[[piece.panel]]
name = "top"
buildup = "b"
size = [500, 300]
"""


def aims(screens):
    return tomllib.loads(screens.store.job(1).text).get("cutting", {}).get("aims")


def ask(screens, version, do, **more):
    return screens.post("/jobs/1/aims", version=version, do=do, **more)


def test_an_aim_is_moved_taken_out_and_put_back_with_every_comment_kept(screens, glaze):
    before = glaze.text
    answer = ask(screens, 0, "up fewest sheets")
    assert answer.headers["location"] == f"{PAGE}?did=order#aim-1"
    assert aims(screens)[:2] == ["fewest sheets", "least money"]
    assert ask(screens, 1, "down fewest sheets").status_code == 303
    assert screens.store.job(1).text == before
    assert ask(screens, 2, "out offcuts first").status_code == 303
    assert "offcuts first" not in aims(screens)
    assert len(aims(screens)) == 5
    assert ask(screens, 3, "add", aim="offcuts first").headers["location"].endswith("#aim-6")
    assert aims(screens)[-1] == "offcuts first"
    comments = [re.findall("#.*", text) for text in (before, screens.store.job(1).text)]
    assert comments[0] == comments[1]
    for version in range(4, 0, -1):
        screens.post("/jobs/1/step/undo", version=4 + (4 - version), back=PAGE)
    assert screens.store.job(1).text == before


def test_the_usual_order_is_written_only_once_it_is_changed(screens):
    job = screens.store.add("One", BARE)
    page = screens.get(PAGE).text
    assert "This is the usual order." in page
    assert 'value="usual"' not in page
    assert ask(screens, 0, "down least money").status_code == 303
    assert aims(screens) == [USUAL_AIMS[1], USUAL_AIMS[0], *USUAL_AIMS[2:]]
    assert 'value="usual"' in screens.get(PAGE).text
    assert ask(screens, 1, "usual").status_code == 303
    assert aims(screens) is None
    assert screens.store.job(job.id).text.startswith(BARE)


def test_what_cannot_be_is_refused_and_nothing_is_changed(screens, glaze):
    assert ask(screens, 0, "up nonsense").status_code == 404
    assert ask(screens, 0, "sideways least money").status_code == 404
    assert ask(screens, 0, "add", aim="least money").status_code == 404
    for version, gone in enumerate(aims(screens)[:-1]):
        assert ask(screens, version, f"out {gone}").status_code == 303
    last = aims(screens)
    assert ask(screens, 5, f"out {last[0]}").status_code == 422
    assert aims(screens) == last


def test_two_windows_lose_nothing(screens, glaze):
    assert ask(screens, 0, "up fewest sheets").status_code == 303
    late = ask(screens, 0, "out least money")
    assert late.status_code == 409
    assert "another window" in late.text
    assert aims(screens)[:2] == ["fewest sheets", "least money"]


def test_after_a_live_edit_the_buttons_beside_the_form_still_fit(screens, glaze):
    fields = {"version": "0", "about": "job", "saw.kerf": "2.8"}
    answer = screens.client.post(PAGE, data=fields, headers={"X-Live": "1"}).text
    for beside in ("aims", "buildups"):
        assert re.search(rf'id="version-{beside}" value="1" data-swap', answer)


@pytest.mark.parametrize("name", USUAL_AIMS)
def test_up_and_down_are_the_reverse_of_each_other(name):
    down = moved(USUAL_AIMS, "down", name)
    assert sorted(down) == sorted(USUAL_AIMS)
    if name != USUAL_AIMS[-1]:
        assert moved(down, "up", name) == list(USUAL_AIMS)
    with pytest.raises(NoSuchPage):
        moved([], "up", name)


def test_in_swedish_no_aim_stays_english(screens, glaze):
    screens.client.cookies.set("evenface_language", "sv")
    page = screens.get(PAGE).text
    assert "Ta så få skivor som möjligt" in page
    assert "fewest sheets</" not in page
    assert ">Take out<" not in page


def test_programs_set_the_aims_whole(store):
    api = TestClient(build_app(store, Planner(0.0)), base_url="http://127.0.0.1:8000" + BASE)
    job = f"jobs/{store.add('One', BARE).id}"
    answer = api.post(f"{job}/aims", json={"version": 0, "aims": ["fewest cuts", "least money"]})
    assert tomllib.loads(answer.json()["text"])["cutting"]["aims"] == ["fewest cuts", "least money"]
    shorter = api.post(f"{job}/aims", json={"version": 1, "aims": ["least money"]})
    assert tomllib.loads(shorter.json()["text"])["cutting"]["aims"] == ["least money"]
    assert api.post(f"{job}/aims", json={"version": 1, "aims": []}).status_code == 409
    twice = api.post(f"{job}/aims", json={"version": 2, "aims": ["least money", "least money"]})
    assert twice.status_code == 422
    usual = api.post(f"{job}/aims", json={"version": 2, "aims": []}).json()["text"]
    assert "aims" not in tomllib.loads(usual).get("cutting", {})
