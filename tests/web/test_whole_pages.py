"""Everything that can be said of a piece or a part, typed in on a page of its own; the file keeps its words."""

import re
import tomllib
from html import unescape
from pathlib import Path

import pytest

from evenface.interfaces.web.desk import Desk
from evenface.interfaces.web.whole_entries import whole_part, whole_piece
from evenface.words import ENGLISH

EXAMPLES = Path(__file__).parents[2] / "examples"
PART, PIECE = "/jobs/1/parts/1.1/all", "/jobs/1/pieces/1/all"
AT = "piece[0].panel[0]"


def written(screens):
    return tomllib.loads(screens.store.job(1).text)


def about(screens, page):
    return unescape(re.search(r'name="about" value="([^"]*)"', screens.get(page).text)[1])


def edit(screens, page, version, typed, live=True, **more):
    fields = {"version": str(version), "about": about(screens, page)} | typed | more
    return screens.client.post(page, data=fields, headers={"X-Live": "1"} if live else {})


@pytest.mark.parametrize(
    ("key", "typed", "keys", "value"),
    [
        ("size", "1900 x 650", ("size",), [1900, 650]),
        ("edging.front.proud", "0.5", ("edging", "front", "proud"), 0.5),
        ("edging.front.sealed", "yes", ("edging", "front", "sealed"), True),
        ("allowances.overhang.front", "5", ("allowances", "overhang", "front"), 5),
        ("allowances.end", "4", ("allowances", "end"), 4),
        ("profile.edges", "front; left", ("profile", "edges"), ["front", "left"]),
        ("profile.stop", "40", ("profile", "stop"), 40),
        ("cutout[0].service", "gas", ("cutout", 0, "service"), "gas"),
        ("cutout[0].size", "500x380", ("cutout", 0, "size"), [500, 380]),
        ("hold.from_edge.front", "40", ("hold", "from_edge", "front"), 40),
        ("limit.mm", "2", ("limit", "mm"), 2),
        ("same_batch", "tops", ("same_batch",), "tops"),
        ("corners.front_left.radius", "30", ("corners", "front_left", "radius"), 30),
        ("edges", "front", ("edges",), ["front"]),
    ],
)
def test_every_key_of_a_part_is_set_and_undone(screens, glaze, key, typed, keys, value):
    answer = edit(screens, PART, 0, {f"{AT}.{key}": typed})
    assert answer.status_code == 200, answer.text
    found = written(screens)["piece"][0]["panel"][0]
    for step in keys:
        found = found[step]
    assert found == value
    assert re.findall("#.*", screens.store.job(1).text) == re.findall("#.*", glaze.text)
    screens.post("/jobs/1/step/undo", version=1, back=PART)
    assert screens.store.job(1).text == glaze.text


def test_a_slip_stays_in_its_field_with_the_reason_and_two_windows_lose_nothing(screens, glaze):
    typed = {f"{AT}.size": "1900", f"{AT}.same_batch": "tops", f"{AT}.limit.mm": "little"}
    answer = edit(screens, PART, 0, typed, live=False)
    assert answer.status_code == 422
    for key in ("size", "limit.mm"):
        path = re.escape(f"{AT}.{key}")
        assert re.search(
            rf'name="{path}" value="{typed[f"{AT}.{key}"]}"[^>]*aria-invalid="true"', answer.text
        )
    assert written(screens)["piece"][0]["panel"][0]["same_batch"] == "tops"
    late = edit(screens, PART, 0, {f"{AT}.same_batch": "benches"}, **{f"was:{AT}.same_batch": ""})
    assert late.status_code == 409
    assert written(screens)["piece"][0]["panel"][0]["same_batch"] == "tops"


def test_a_part_without_a_table_of_its_own_and_a_piece_that_is_not_there_have_no_such_page(screens):
    screens.store.add("Cupboard", (EXAMPLES / "wall-cupboard.toml").read_text(encoding="utf-8"))
    assert screens.get("/jobs/1/parts/1.1/all").status_code == 404
    assert screens.get("/jobs/1/parts/9.9/all").status_code == 404
    assert screens.get("/jobs/1/pieces/9/all").status_code == 404
    assert screens.get(PIECE).status_code == 200
    assert f'href="{PIECE}"' in screens.get("/jobs/1/pieces/1").text
    assert "/jobs/1/parts/1.1/all" not in screens.get("/jobs/1/parts/1.1").text


def test_a_table_of_a_piece_that_is_not_there_is_begun(screens):
    text = (EXAMPLES / "wall-cupboard.toml").read_text(encoding="utf-8")
    screens.store.add("Cupboard", text)
    assert "scribe" not in tomllib.loads(text)["piece"][0]
    alone = edit(screens, PIECE, 0, {"piece[0].scribe.left": "30"})
    assert alone.status_code == 422
    assert "a wood of the catalogue" in alone.text
    both = {"piece[0].scribe.left": "30", "piece[0].scribe.wood": "ash"}
    assert edit(screens, PIECE, 0, both).status_code == 200
    assert written(screens)["piece"][0]["scribe"] == {"left": 30, "wood": "ash"}
    assert re.findall("#.*", screens.store.job(1).text) == re.findall("#.*", text)


@pytest.mark.parametrize("name", sorted(one.stem for one in EXAMPLES.glob("*.toml") if one.stem != "prices"))
def test_every_example_opens_with_paths_of_their_own(store, name):
    job = store.add(name, (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8"))
    view = Desk().look(job, flat=False)
    for number in range(len(view.sketch.job.pieces)):
        entries = [one for group in whole_piece(view, number, ENGLISH) for one in group.entries]
        assert len({one.path for one in entries}) == len(entries)
        assert len({one.id for one in entries}) == len(entries)
    for panel in view.panels:
        if re.fullmatch(r"piece\[\d+\]\.panel\[\d+\]", panel.origin):
            entries = [one for group in whole_part(view, panel.origin, ENGLISH) for one in group.entries]
            assert len({one.path for one in entries}) == len(entries) > 60


def test_in_swedish_every_key_is_spoken(screens, glaze):
    screens.client.cookies.set("evenface_language", "sv")
    page = re.sub(r"""(value|name|id|for|href)="[^"]*\"""", "", screens.get(PART).text)
    for word in ("Allt som kan sägas", "Spännvidd", "Kantlist", "Samma parti"):
        assert word in page
    for word in ("Allowances", "Proud", "Same sheet", "Gauge", "Sealed"):
        assert word not in page


def test_a_bay_more_like_another_and_out_again(screens):
    text = (EXAMPLES / "wall-cupboard.toml").read_text(encoding="utf-8")
    screens.store.add("Cupboard", text)
    bays = len(tomllib.loads(text)["piece"][0]["bay"])
    assert 'value="like piece[0].bay[0]"' in screens.get(PIECE).text
    more = screens.post("/jobs/1/tables", version=0, do="like piece[0].bay[0]", back=PIECE)
    assert more.headers["location"] == f"{PIECE}?did=added#did"
    found = written(screens)["piece"][0]["bay"]
    assert len(found) == bays + 1
    assert found[-1] == found[0]
    row = screens.post("/jobs/1/tables", version=1, do=f"like piece[0].bay[{bays}].row[0]", back=PIECE)
    assert row.status_code == 303
    assert len(written(screens)["piece"][0]["bay"][bays]["row"]) == 2
    assert (
        screens.post("/jobs/1/tables", version=2, do=f"out piece[0].bay[{bays}]", back=PIECE).status_code
        == 303
    )
    assert written(screens) == tomllib.loads(text)
    for wrong in (
        "like piece[0].bay[9]",
        "like job",
        "out piece[0]",
        "like piece[0].size[0]",
        "paint piece[0].bay[0]",
    ):
        assert screens.post("/jobs/1/tables", version=3, do=wrong, back=PIECE).status_code == 404
    assert screens.post("/jobs/1/tables", version=0, do="like piece[0].bay[0]").status_code == 409


def test_an_insert_more_gets_a_name_of_its_own(screens, glaze):
    at = "piece[2].panel[0].insert[0]"
    assert screens.post("/jobs/1/tables", version=0, do=f"like {at}").status_code == 303
    names = [one["name"] for one in written(screens)["piece"][2]["panel"][0]["insert"]]
    assert names == ["grip wood", "grip wood 2"]
    assert re.findall("#.*", screens.store.job(1).text) == re.findall("#.*", glaze.text)
    only = "piece[0].panel[0].profile"
    assert screens.post("/jobs/1/tables", version=1, do=f"like {only}").status_code == 303
    assert len(written(screens)["piece"][0]["panel"][0]["profile"]) == 2
