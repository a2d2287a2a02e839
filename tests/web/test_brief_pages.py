"""What the job and its pieces must bear, chosen on their page; what to build from follows it."""

import re
import tomllib
from html import unescape

import pytest

from evenface.interfaces.web.brief_entries import brief_entries
from evenface.interfaces.web.desk import Desk
from evenface.words import ENGLISH

PAGE = "/jobs/1/brief"


def written(screens):
    return tomllib.loads(screens.store.job(1).text)


def edit(screens, version, typed, live=True, **more):
    fields = {"version": str(version), "about": "brief"} | typed | more
    return screens.client.post(PAGE, data=fields, headers={"X-Live": "1"} if live else {})


@pytest.mark.parametrize(
    ("path", "typed", "value"),
    [
        ("brief.for", "writing desk", "writing desk"),
        ("brief.use", "shelf", "shelf"),
        ("brief.heat", "must: hot pots", "must: hot pots"),
        ("brief.heat", "wish", "wish"),
        ("brief.budget", "3", 3),
        ("brief.water", "must", "must"),
        ("brief.repair", "", None),
    ],
)
def test_a_need_is_written_and_undone_by_its_name(screens, glaze, path, typed, value):
    assert edit(screens, 0, {path: typed}).status_code == 200
    assert written(screens)["brief"].get(path.removeprefix("brief.")) == value
    gone = set(re.findall("#.*", glaze.text)) - set(re.findall("#.*", screens.store.job(1).text))
    assert gone <= {"# a use with a name; what is written here goes before it"}
    screens.post("/jobs/1/step/undo", version=1, back=PAGE)
    assert screens.store.job(1).text == glaze.text
    told = unescape(re.search(r'<p id="did"[^>]*>(.*?)</p>', screens.get(f"{PAGE}?did=undo").text)[1])
    assert "→" in told
    assert "brief." not in told


def test_a_piece_gets_a_brief_of_its_own(screens, glaze):
    typed = {"piece[1].brief.for": "writing desk", "piece[1].brief.repair": "wish"}
    assert edit(screens, 0, typed).status_code == 200
    assert written(screens)["piece"][1]["brief"] == {"for": "writing desk", "repair": "wish"}
    view = Desk().look(screens.store.job(1), flat=False)
    assert view.opened.job.pieces[1].brief.for_ == "writing desk"
    assert "piece: Drawing desk" in screens.get("/jobs/1/choice").text


def test_what_cannot_be_stays_with_its_reason_and_two_windows_lose_nothing(screens, glaze):
    answer = edit(screens, 0, {"brief.heat": "must: dragons", "brief.children": "wish"}, live=False)
    assert answer.status_code == 422
    assert re.search(r'name="brief.heat"[^>]*aria-invalid="true"', answer.text)
    assert ">must: dragons</option>" in answer.text
    assert written(screens)["brief"]["children"] == "wish"
    assert written(screens)["brief"]["heat"] == "must: hot dishes"
    late = edit(screens, 0, {"brief.children": "must"}, **{"was:brief.children": ""})
    assert late.status_code == 409
    assert written(screens)["brief"]["children"] == "wish"


def test_what_a_use_brings_is_told_beside_each_need(screens, glaze):
    entries = {one.path: one for one in brief_entries(Desk().look(glaze, flat=False), ENGLISH)}
    assert entries["brief.water"].usual == "must: often"
    assert entries["piece[0].brief.water"].usual == ""
    assert len({one.id for one in entries.values()}) == len(entries)
    assert len({(one.label, one.whose) for one in entries.values()}) == len(entries)
    assert "by its use: must: often" in screens.get(PAGE).text


def test_a_weight_of_the_file_stays_and_names_are_escaped(screens, glaze):
    text = glaze.text.replace("budget    = 2\n", "budget    = 1.5\n")
    text = text.replace('name = "Drawing desk"', 'name = "Desk <b>"')
    screens.store.save(1, 0, text)
    page = screens.get(PAGE).text
    assert "<option selected>1.5</option>" in page
    assert "Desk <b>" not in page
    assert edit(screens, 1, {"brief.budget": "1.5", "brief.food": "wish"}).status_code == 200
    assert written(screens)["brief"]["budget"] == 1.5


def test_in_swedish_every_need_is_spoken(screens, glaze):
    screens.client.cookies.set("evenface_language", "sv")
    page = screens.get(PAGE).text
    for word in ("Vad det måste tåla", "krav: varma fat", "inte efterfrågat", "önskan"):
        assert word in page
    for word in ("wish,", "scratches", "not asked", "must:"):
        assert word not in re.sub(r'value="[^"]*"', "", page)
