"""What is seldom set of a part: each edge and corner by itself, how it is held, what it carries."""

import re
import tomllib
from itertools import combinations

import pytest

from evenface.interfaces.web.deeds import DEEDS
from evenface.interfaces.web.desk import Desk
from evenface.interfaces.web.entries import SIDES, changes_of
from evenface.interfaces.web.part_entries import all_entries
from evenface.piece.editing import apply_changes
from evenface.store import KeptJob
from evenface.words import ENGLISH

JOB = """format = 1
[job]
name = "Bench"

[buildup.b]
face = "hpl-0.8"
back = "hpl-0.8"
carrier = "birch-ply-18"
glue = "pva-d3"
edging = {{ wood = "ash", width = 12 }}

[[piece]]
name = "Bench"

  [[piece.panel]]
  name = "top"
  buildup = "b"
  size = [900, 400]
{more}
"""
CHOICES = ["", "none", *(", ".join(some) for number in range(1, 5) for some in combinations(SIDES, number))]
AT = "piece[0].panel[0]"


def view_of(text):
    return Desk().look(KeptJob(1, "", 1, text, None, "", False, False), flat=False)


def entries(text, panel=0):
    view = view_of(text)
    return {one.path: one for one in all_entries(view, view.panels[panel], ENGLISH)}


def typed(text, path, new, panel=0):
    wishes, reasons = changes_of(tuple(entries(text, panel).values()), {path: new}, ENGLISH)
    assert not reasons
    return apply_changes(text, wishes.get(path, []))


@pytest.mark.parametrize("start", ["", "none", "rear", "left, right", "front, rear, left"])
@pytest.mark.parametrize("choice", CHOICES)
def test_every_choice_of_edges_follows_every_other(start, choice):
    first = typed(JOB.format(more=""), f"{AT}.edges", start) if start else JOB.format(more="")
    after = typed(first, f"{AT}.edges", choice)
    written = tomllib.loads(after)["piece"][0]["panel"][0].get("edges")
    assert written == (None if choice == "" else [] if choice == "none" else choice.split(", "))
    assert entries(after)[f"{AT}.edges"].value == choice
    built = {str(one.side) for one in view_of(after).panels[0].panel.edges}
    assert built == ({*SIDES} if choice == "" else {*choice.split(", ")} - {"none"})


def test_each_edge_has_its_own_entries_with_what_holds_in_fact():
    text = JOB.format(more='  edging = { front = { width = 20 } }\n  edges = ["front", "left"]')
    found = entries(text)
    assert found[f"{AT}.edging.front.width"].value == "20"
    assert found[f"{AT}.edging.left.width"].usual == "12"
    assert f"{AT}.edging.rear.width" not in found
    after = typed(typed(text, f"{AT}.edging.left.wood", "oak"), f"{AT}.edging.left.width", "15")
    built = {str(one.side): one for one in view_of(after).panels[0].panel.edges}
    assert (built["left"].wood, built["left"].width_mm) == ("oak", 15.0)
    assert (built["front"].wood, built["front"].width_mm) == ("ash", 20.0)


def test_one_corner_is_set_and_the_others_stay():
    after = typed(JOB.format(more=""), f"{AT}.corners.rear_left.radius", "9")
    assert tomllib.loads(after)["piece"][0]["panel"][0]["corners"] == {"rear_left": {"radius": 9}}


def test_a_part_like_another_says_where_its_edges_are_written():
    text = JOB.format(more='  edges = ["front"]\n\n  [[piece.panel]]\n  name = "second"\n  like = "top"')
    mine = entries(text, 1)[f"{AT}.edges"]
    assert (mine.value, mine.shared) == ("front", "top")
    after = typed(text, f"{AT}.edges", "front, rear", 1)
    assert [len(one.panel.edges) for one in view_of(after).panels] == [2, 2]


def test_the_board_as_measured_is_written_into_its_build_up():
    after = typed(JOB.format(more=""), "buildup.b.carrier.thickness", "17.6")
    carrier = tomllib.loads(after)["buildup"]["b"]["carrier"]
    assert carrier == {"material": "birch-ply-18", "thickness": 17.6}


def test_a_table_set_first_shows_its_other_entries_at_once(screens, glaze):
    page = screens.get("/jobs/1/parts/3.3").text  # the shelf of the cupboard: nothing holds it yet
    at = re.search(r'name="(piece\[2\][^"]*)[.]hold[.]how"', page)[1]
    shape = re.search(r'data-shape="(\w+)"', page)[1]
    assert f'name="{at}.hold.fixings"' not in page
    live = {"X-Live": "1"}
    send = {"version": "0", "shape": shape}
    same = screens.client.post("/jobs/1/parts/3.3", data=send | {f"{at}.span": "730"}, headers=live).text
    assert 'id="fields"' not in same  # the form is as it was: not sent again
    send = {"version": "1", "shape": shape, f"{at}.hold.how": "screwed"}
    more = screens.client.post("/jobs/1/parts/3.3", data=send, headers=live).text
    assert 'id="fields"' in more
    assert f'name="{at}.hold.fixings"' in more
    send = {"version": "2", "shape": re.search(r'data-shape="(\w+)"', more)[1], f"{at}.hold.fixings": "6"}
    assert 'id="fields"' not in screens.client.post("/jobs/1/parts/3.3", data=send, headers=live).text
    assert "hold" in tomllib.loads(screens.store.job(1).text)["piece"][2]["panel"][2]


def test_the_part_leads_to_itself_in_three_dimensions_and_deeds_know_its_entries(screens, glaze):
    assert 'href="/jobs/1/solid/1?part=1.1"' in screens.get("/jobs/1/parts/1.1").text
    field = {"version": "0", f"{AT}.edging.front.width": "25"}
    assert screens.client.post("/jobs/1/parts/1.1", data=field, headers={"X-Live": "1"}).status_code == 200
    screens.post("/jobs/1/step/undo", version=1, back="/jobs/1")
    assert "Undone: top, Edging width, front 25 → nothing." in screens.get("/jobs/1?did=undo").text
    assert DEEDS["undo"] == "Undone."


def test_the_list_of_parts_shows_each_by_its_outline_to_one_scale(screens, glaze):
    page = screens.get("/jobs/1").text
    drawn = re.findall(r'<svg class="small" viewBox="-1 -1 ([0-9.]+) ([0-9.]+)".*?<path d="([^"]+)"', page)
    assert len(drawn) == len(view_of(glaze.text).panels)
    sizes = [(one.length_mm, one.width_mm) for one in view_of(glaze.text).panels]
    scales = [(float(wide) - 2) / long for (wide, _, _), (long, _) in zip(drawn, sizes, strict=True)]
    assert max(scales) - min(scales) < 0.001
    assert drawn[0][2].count("M") == 2  # the bench with its basin
    assert drawn[1][2].count("M") == 1
