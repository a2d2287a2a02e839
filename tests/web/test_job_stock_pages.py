"""What can be bought for a job, typed in line by line beside the buying list; the file keeps its words."""

import re
import tomllib
from html import unescape
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from evenface.interfaces.web.api import BASE
from evenface.interfaces.web.app import build_app
from evenface.interfaces.web.background import Planner
from evenface.interfaces.web.desk import Desk
from evenface.interfaces.web.job_stock_entries import stock_entries
from evenface.words import ENGLISH

PAGE = "/jobs/1/stock"
SHELF = re.sub(
    r"(?ms)^\[\[stock\]\].*?(?=^\[(?!\[stock))", "",
    (Path(__file__).parents[2] / "examples" / "one-shelf.toml").read_text(encoding="utf-8"),
)  # fmt: skip
STOCK = """
# What the merchant has.
[[stock]]
material = "birch-ply-18"   # by the lorry
size     = [2500, 1250]
price    = 80

[[stock]]
material  = "ash"
form      = "board"
size      = [2600, 210]     # at the butt
price     = 185
far_width = 180
thickness = 34
wane      = 15              # both edges
  [[stock.defect]]
  at   = [900, 60]          # a knot
  size = [60, 40]

[[stock]]
material = "linoleum-2"
width    = 1830         # a roll
"""


@pytest.fixture
def job(screens):
    """A shelf with three lines of stock as job number 1."""
    return screens.store.add("Shelf", SHELF + STOCK)


@pytest.fixture
def bare(screens):
    """The same with none."""
    return screens.store.add("Shelf", SHELF)


def lines(screens):
    return tomllib.loads(screens.store.job(1).text).get("stock", [])


def edit(screens, version, typed, live=True, **more):
    fields = {"version": str(version), "about": "stock"} | typed | more
    return screens.client.post(PAGE, data=fields, headers={"X-Live": "1"} if live else {})


def ask(screens, version, do, **more):
    return screens.send("/jobs/1/lines", {"version": str(version), "do": do} | more)


@pytest.mark.parametrize(
    ("at", "key", "typed", "written"),
    [
        (0, "material", "birch-ply-21", "birch-ply-21"),
        (0, "size", "3000 x 1500", [3000, 1500]),
        (0, "size", "2500x1500", [2500, 1500]),
        (0, "price", "82,50", 82.5),
        (0, "copies", "4", 4),
        (0, "form", "offcut", "offcut"),
        (0, "batch", "by the east wall", "by the east wall"),
        (1, "far_width", "190", 190),
        (1, "thickness", "36", 36),
        (1, "wane", "0; 12", [0, 12]),
        (1, "wane", "10", 10),
        (1, "wane", "", None),
        (2, "width", "2000", 2000),
        (2, "price", "395", 395),
    ],
)
def test_what_is_typed_is_written_where_it_belongs_and_undo_names_it(screens, job, at, key, typed, written):
    answer = edit(screens, 0, {f"stock[{at}].{key}": typed})
    assert answer.status_code == 200, answer.text
    assert lines(screens)[at].get(key) == written
    gone = set(re.findall("#.*", job.text)) - set(re.findall("#.*", screens.store.job(1).text))
    assert gone <= ({"# both edges"} if written is None else set())
    screens.post("/jobs/1/step/undo", version=1, back=PAGE)
    assert screens.store.job(1).text == job.text
    told = unescape(re.search(r'<p id="did"[^>]*>(.*?)</p>', screens.get(f"{PAGE}?did=undo").text)[1])
    assert "→" in told
    assert "stock[" not in told


@pytest.mark.parametrize(
    ("path", "typed"),
    [
        ("stock[0].material", "birch-plie"),
        ("stock[0].size", "2500"),
        ("stock[0].size", ""),
        ("stock[0].width", "1250"),  # both size and width
        ("stock[0].price", "cheap"),
        ("stock[0].price", "-3"),
        ("stock[0].copies", "0"),
        ("stock[1].wane", "1; 2; 3"),
        ("stock[1].far_width", "narrow"),
        ("stock[1].defect[0].at[0]", "there"),
        ("stock[1].defect[0].size[1]", ""),
    ],
)
def test_a_slip_stays_in_its_field_with_the_reason_and_the_rest_is_kept(screens, job, path, typed):
    answer = edit(screens, 0, {path: typed, "stock[2].price": "395"}, live=False)
    assert answer.status_code == 422
    field = re.search(rf'name="{re.escape(path)}"(?: value="([^"]*)")?[^>]*aria-invalid="true"', answer.text)
    assert field is not None
    assert field[1] in (typed, None)  # a choice shows it as a word of its own
    assert f">{typed}</option>" in answer.text or field[1] == typed
    assert "Expected" in re.search(r"<strong>([^<]*)", answer.text)[1]
    assert lines(screens)[2]["price"] == 395
    assert lines(screens)[:2] == tomllib.loads(STOCK)["stock"][:2]
    assert 'aria-invalid="true"' in screens.get(PAGE).text  # it waits there


def test_a_sheet_becomes_a_roll_when_both_fields_are_set(screens, job):
    assert edit(screens, 0, {"stock[0].size": "", "stock[0].width": "1830"}).status_code == 200
    assert lines(screens)[0] == {"material": "birch-ply-18", "price": 80, "width": 1830}


def test_damage_that_stands_is_changed_added_and_taken_out(screens, job):
    assert edit(screens, 0, {"stock[1].defect[0].at[0]": "950"}).status_code == 200
    new = {"line": "1", "at": "1200 x 0", "size": "80x30", "kind": "split"}
    assert ask(screens, 1, "damage", **new).headers["location"] == f"{PAGE}?did=added#did"
    assert lines(screens)[1]["defect"] == [
        {"at": [950, 60], "size": [60, 40]}, {"at": [1200, 0], "size": [80, 30], "kind": "split"},
    ]  # fmt: skip
    assert "# a knot" in screens.store.job(1).text
    assert ask(screens, 2, "damage", **(new | {"line": "0"})).status_code == 303
    assert len(lines(screens)[0]["defect"]) == 1
    assert ask(screens, 3, "mend 1 0").status_code == 303
    assert [one["kind"] for one in lines(screens)[1]["defect"]] == ["split"]
    assert ask(screens, 4, "mend 1 0").status_code == 303
    assert "defect" not in lines(screens)[1]
    assert ask(screens, 5, "mend 1 0").status_code == 404
    assert ask(screens, 5, "damage", **(new | {"line": "9"})).status_code == 404


@pytest.mark.parametrize(
    ("wrong", "field"),
    [({"at": "900"}, "at"), ({"size": "60 x none"}, "size"), ({"size": ""}, "size"), ({"at": ""}, "at")],
)  # fmt: skip
def test_damage_that_cannot_be_comes_back_with_its_reason(screens, job, wrong, field):
    typed = {"line": "1", "at": "900 x 60", "size": "60 x 40", "kind": "knot"} | wrong
    answer = ask(screens, 0, "damage", **typed)
    assert answer.status_code == 422
    assert re.search(rf'id="why-{field}"><strong>Expected', answer.text)
    assert f'name="{field}" maxlength="200" value="{typed[field]}"' in answer.text
    assert '<option value="1" selected>' in answer.text
    assert lines(screens) == tomllib.loads(STOCK)["stock"]


def test_lines_come_and_go_and_the_first_begins_the_list(screens, bare):
    assert lines(screens) == []
    assert "Nothing is listed yet" in screens.get(PAGE).text
    typed = {"stock[0].material": "birch-ply-18", "stock[0].size": "2500 x 1250", "stock[0].price": "80"}
    assert ask(screens, 0, "add", **typed).status_code == 303
    assert lines(screens) == [{"material": "birch-ply-18", "size": [2500, 1250], "price": 80}]
    assert screens.store.job(1).text.startswith(bare.text.rstrip())
    roll = {"stock[1].material": "linoleum-2", "stock[1].width": "1830", "stock[1].form": "roll"}
    assert ask(screens, 1, "add", **roll).status_code == 303
    assert lines(screens)[1] == {"material": "linoleum-2", "width": 1830, "form": "roll"}
    assert ask(screens, 2, "out 0").status_code == 303
    assert ask(screens, 3, "out 0").status_code == 303
    assert lines(screens) == []
    assert ask(screens, 4, "out 0").status_code == 404
    assert ask(screens, 4, "sell").status_code == 404
    screens.post("/jobs/1/step/undo", version=4, back=PAGE)
    assert len(lines(screens)) == 1


def test_a_line_that_cannot_be_comes_back_with_its_reason(screens, job):
    typed = {"stock[3].material": "mdf-19", "stock[3].size": "large", "stock[3].price": "310"}
    answer = ask(screens, 0, "add", **typed)
    assert answer.status_code == 422
    assert 'value="large"' in answer.text
    assert 'value="310"' in answer.text
    assert "the reason stands beside the field" in answer.text
    neither = ask(screens, 0, "add", **(typed | {"stock[3].size": ""}))
    assert neither.status_code == 422
    assert "width alone for a roll" in neither.text
    assert len(lines(screens)) == 3


def test_two_windows_lose_nothing(screens, job):
    assert edit(screens, 0, {"stock[0].price": "90"}).status_code == 200
    late = edit(screens, 0, {"stock[0].price": "95"}, **{"was:stock[0].price": "80"})
    assert late.status_code == 409
    assert lines(screens)[0]["price"] == 90
    assert ask(screens, 0, "out 2").status_code == 409
    assert len(lines(screens)) == 3


def test_names_are_escaped_and_the_rack_is_told_apart(screens, job):
    assert edit(screens, 0, {"stock[0].batch": 'east <b>"wall'}).status_code == 200
    page = screens.get(PAGE).text
    assert "<b>&#34;wall" not in page
    assert "east &lt;b&gt;&#34;wall" in page
    assert 'href="/rack"' in page
    assert 'href="/jobs/1/buying"' in page
    assert f'href="{PAGE}"' in screens.get("/jobs/1/buying").text


def test_in_inches_what_is_not_touched_stays(screens, job):
    screens.client.cookies.set("evenface_units", "inch")
    page = screens.get(PAGE).text
    shown = unescape(re.search(r'name="stock\[0\].size" value="([^"]*)"', page)[1])
    assert "such as 98 x 49" in page
    assert edit(screens, 0, {"stock[0].size": shown}).status_code == 200
    assert screens.store.job(1).text == job.text
    assert edit(screens, 0, {"stock[0].size": "98 x 49"}).status_code == 200
    assert lines(screens)[0]["size"] == ["98 in", "49 in"]
    new = {"line": "0", "at": "0 x 0", "size": "4 x 2 1/2", "kind": "other"}
    assert ask(screens, 1, "damage", **new).status_code == 303
    assert lines(screens)[0]["defect"][0]["size"] == ["4 in", "2 1/2 in"]


def test_every_entry_has_a_path_an_id_and_a_label_of_its_own(job):
    entries = stock_entries(Desk().look(job, flat=False), ENGLISH)
    assert len(entries) > 25
    for told in (lambda one: one.path, lambda one: one.id, lambda one: (one.label, one.whose)):
        assert len({told(one) for one in entries}) == len(entries)


def test_in_swedish_every_label_is_spoken(screens, job):
    screens.client.cookies.set("evenface_language", "sv")
    page = screens.get(PAGE).text
    for word in ("Vad som kan köpas", "Vankant", "kvist", "Ta ut raden", "spillbit"):
        assert word in page
    for word in ("Price of one", "Take this line", "knot<", ">offcut", "such as"):
        assert word not in page


def test_programs_do_the_same(store):
    api = TestClient(build_app(store, Planner(0.0)), base_url="http://127.0.0.1:8000" + BASE)
    job = f"jobs/{store.add('Shelf', SHELF + STOCK).id}"

    def send(version, address, **body):
        return api.post(f"{job}/stock{address}", json={"version": version} | body)

    def stock(answer):
        return tomllib.loads(answer.json()["text"])["stock"]

    more = stock(send(0, "", material="mdf-19", size_mm=[2440, 1220], price="310", form="sheet", copies=2))
    assert more[3] == {
        "material": "mdf-19", "size": [2440, 1220], "price": 310, "form": "sheet", "copies": 2,
    }  # fmt: skip
    damaged = stock(send(1, "/4/damage", at_mm=[0, 0], size_mm=[100, 50.5], kind="other"))
    assert damaged[3]["defect"] == [{"at": [0, 0], "size": [100, 50.5], "kind": "other"}]
    assert "defect" not in stock(send(2, "/4/damage/remove", damage=1))[3]
    assert len(stock(send(3, "/1/remove"))) == 3
    assert send(3, "/1/remove").status_code == 409
    assert send(4, "/9/remove").status_code == 404
    assert send(4, "", material="mdf-19").status_code == 422
    assert send(4, "", material="gold", width_mm=10).status_code == 422
