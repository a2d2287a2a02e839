"""New jobs from a form, pieces added, copied and taken out."""

import re
import tomllib

import pytest

from evenface.finding import Severity
from evenface.interfaces.web.desk import Desk
from evenface.interfaces.web.starting import PATTERNS, offered, read_fields
from evenface.words import ENGLISH, Manner


def job_of(screens, answer):
    assert answer.status_code == 303, re.findall("<strong>(.*?)</strong>", answer.text)
    return screens.store.job(int(answer.headers["location"].split("?")[0].split("/")[2]))


@pytest.mark.parametrize("what", [one.name for one in offered()])
def test_every_sort_of_piece_gives_a_job_without_stops_at_once(screens, what):
    page = screens.get(f"/new?what={what}")
    assert page.status_code == 200
    assert not re.search(r"<script(?![^>]*\bsrc=)|\sstyle=|\son\w+=|<style", page.text)
    job = job_of(screens, screens.post("/new", what=what))
    sketch = Desk().look(job).sketch
    assert [one for one in sketch.findings if one.severity is Severity.STOP] == []
    assert tomllib.loads(job.text)["piece"][0].get("kind", "panels") == PATTERNS[what].kind
    assert screens.get(f"/jobs/{job.id}").status_code == 200


@pytest.mark.parametrize("what", [one.name for one in offered()])
def test_every_sort_of_piece_can_be_added_to_a_job_and_taken_back(screens, glaze, what):
    answer = screens.post("/jobs/1/new", what=what, version=0, name="Added", buildup="bench")
    job = job_of(screens, answer)
    assert job.text.startswith(glaze.text.rstrip())
    assert tomllib.loads(job.text)["piece"][-1]["name"] == "Added"
    screens.post("/jobs/1/step/undo", version=1)
    assert screens.store.job(1).text == glaze.text


def test_the_figures_typed_are_those_of_the_job(screens):
    fields = {
        "what": "top",
        "name": "Bench",
        "length": "1,5 m",
        "width": "60 cm",
        "radius": "40",
        "count": "2",
    }
    fields |= {
        "face": "linoleum-2",
        "back": "nothing",
        "carrier": "mdf-22",
        "edging": "oak",
        "edging_width": "14.5",
    }
    job = job_of(screens, screens.post("/new", **fields, place="copenhagen", job="Counter"))
    written = tomllib.loads(job.text)
    panel = written["piece"][0]["panel"][0]
    assert (panel["size"], panel["corners"], panel["count"]) == (["1,5 m", "60 cm"], {"radius": 40}, 2)
    layers = written["buildup"]["top"]
    assert layers["face"] == "linoleum-2"
    assert "back" not in layers
    assert layers["edging"] == {"wood": "oak", "width": 14.5}
    assert written["job"] == {"name": "Counter", "place": "copenhagen"}
    found = Desk().look(job).sketch.findings
    assert any(one.code.startswith("balance") or one.code == "flat.bow" for one in found)


@pytest.mark.parametrize(
    ("field", "typed"),
    [("length", "wide"), ("count", "two"), ("count", "0"), ("face", "gold"), ("name", ""), ("length", "-5")],
)
def test_what_cannot_be_is_given_back_with_its_reason(screens, field, typed):
    answer = screens.post("/new", **{"what": "top", field: typed})
    assert answer.status_code == 422
    assert "xpected" in answer.text
    assert 'value="1200"' in answer.text or field == "length"
    assert screens.store.jobs() == ()


def test_a_bare_number_is_inches_where_inches_are_shown():
    fields = PATTERNS["shelf"].fields
    given, reasons = read_fields(
        fields, {"length": "31 1/2", "width": "250 mm", "count": "1"}, Manner(system="inch")
    )
    assert given == {"length": "31 1/2 in", "width": "250 mm", "count": 1}
    assert reasons == {}
    assert read_fields(fields, {"length": "31,5"}, ENGLISH)[0]["length"] == 31.5


def test_a_hostile_name_stays_a_name(screens):
    bad = '"]\n[x] <script>'
    assert screens.post("/new", what="top", name=bad).status_code == 422
    job = job_of(screens, screens.post("/new", what="top", name='"] <script>'))
    assert tomllib.loads(job.text)["piece"][0]["name"] == '"] <script>'
    assert "<script>" not in re.sub(
        r'<script type="module" src="[^"]+">', "", screens.get(f"/jobs/{job.id}").text
    )


def test_a_name_twice_and_an_older_state_are_told(screens, glaze):
    assert screens.post("/jobs/1/new", what="top", version=0, name="Glazing bench").status_code == 422
    assert screens.post("/jobs/1/new", what="top", version=7, name="Other").status_code == 409
    assert screens.post("/jobs/1/new", what="nothing", version=0).status_code == 404
    assert screens.store.job(1).text == glaze.text


def test_a_piece_is_taken_out_and_comes_back(screens, glaze):
    screens.post("/jobs/1/new", what="top", version=0, name="Added", buildup="bench")
    count = len(tomllib.loads(screens.store.job(1).text)["piece"])
    answer = screens.post("/jobs/1/pieces", do="remove-piece", version=1, number=count - 1)
    assert answer.status_code == 303
    assert tomllib.loads(screens.store.job(1).text) == tomllib.loads(glaze.text)
    assert screens.post("/jobs/1/pieces", do="remove-piece", version=2, number=99).status_code == 404


def test_a_part_more_is_like_the_other_and_can_be_taken_out(screens, glaze):
    answer = screens.post("/jobs/1/pieces", do="copy-part", version=0, origin="piece[0].panel[0]")
    assert answer.status_code == 303
    panels = tomllib.loads(screens.store.job(1).text)["piece"][0]["panel"]
    assert panels[-1] == {"name": "top 2", "like": "top"}
    origin = f"piece[0].panel[{len(panels) - 1}]"
    assert screens.post("/jobs/1/pieces", do="remove-part", version=1, origin=origin).status_code == 303
    assert tomllib.loads(screens.store.job(1).text) == tomllib.loads(glaze.text)
    assert screens.post("/jobs/1/pieces", do="remove-part", version=2, origin="job").status_code == 404


def test_a_copy_is_a_job_of_its_own(screens, glaze):
    copy = job_of(screens, screens.post("/jobs/1/copy"))
    assert copy.id != glaze.id
    assert copy.name == "Glaze room (copy)"
    assert copy.file is None
    assert copy.text == glaze.text.replace('"Glaze room"', '"Glaze room (copy)"', 1)


def test_a_job_put_away_can_be_brought_back(screens, glaze):
    screens.post("/jobs/1/away")
    assert screens.store.jobs() == ()
    assert "Glaze room" in screens.get("/").text
    screens.post("/jobs/1/away", do="back")
    assert [one.id for one in screens.store.jobs()] == [1]


@pytest.mark.parametrize("what", [one.name for one in offered()])
def test_every_sort_begins_from_its_own_figures_in_inch_and_swedish(screens, what):
    screens.client.cookies.set("evenface_units", "inch")
    screens.client.cookies.set("evenface_language", "sv")
    page = screens.get(f"/new?what={what}").text
    fields = dict(re.findall(r'<input id="f-[^"]*" name="([^"]+)" value="([^"]*)"', page))
    assert not any("mm" in one for one in fields.values())  # the label says inch, and so do the figures
    answer = screens.post("/new", **fields | {"what": what})
    job = job_of(screens, answer)
    assert " in" in job.text
    seen = screens.get(answer.headers["location"])
    assert seen.status_code == 200
    assert "<svg" in seen.text  # the first thing seen of it is a drawing


def test_nothing_is_nothing_in_any_unit(screens):
    screens.client.cookies.set("evenface_units", "inch")
    job = job_of(screens, screens.post("/new", what="top", length="64 1/2", round="0 mm", radius="0 in"))
    assert "profile" not in job.text
    assert "corners" not in job.text
    assert '"64 1/2 in"' in job.text
