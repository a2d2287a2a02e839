"""Buying, the rack, and a plan from the rack, as a browser would ask for them."""

import re

import pytest

from evenface.store.rack import Rack

SHEET = {"do": "receive", "material": "birch-ply-21", "form": "offcut", "size": "1900x700", "place": "A3"}


def codes_in(page):
    return list(dict.fromkeys(re.findall(r'href="/rack/([0-9A-Z]{4}-[0-9A-Z]{4})"', page)))


def received(screens, **more):
    answer = screens.send("/rack", SHEET | more)
    assert answer.status_code == 303
    page = screens.get(answer.headers["location"]).text
    return codes_in(page[page.index("Booked in") : page.index("Labels of these")])


def state(screens, code):
    with Rack(screens.store.folder) as rack:
        return rack.find(code)


@pytest.mark.parametrize("page", ["/jobs/1/buying", "/rack"])
def test_each_page_has_a_title_and_nothing_inline(screens, glaze, page):
    answer = screens.settled(page)
    assert answer.status_code == 200
    assert answer.text.count("<h1>") == 1
    assert not re.search(r"<script(?![^>]*\bsrc=)|\sstyle=|\son\w+=|<style", answer.text)


def test_the_buying_list_has_a_sum_and_names_what_has_no_price(screens, glaze):
    page = screens.settled("/jobs/1/buying").text
    assert "Birch plywood 21 mm" in page
    assert "DKK\xa0720.00" in page
    assert "not priced" in page
    assert "/jobs/1/price" in page[page.index("Something has no price") :]


def test_stock_is_received_and_its_labels_can_be_had(screens):
    codes = received(screens, copies="3")
    assert len(codes) == 3
    assert state(screens, codes[0]).place == "A3"
    assert sorted(codes_in(screens.get("/rack").text)) == sorted(codes)
    labels = screens.get(f"/rack/labels.pdf?codes={'+'.join(codes)}")
    assert labels.content.startswith(b"%PDF")
    assert screens.get("/rack/rack.csv").text.count("birch-ply-21") == 3
    assert screens.post("/rack", do="undo").status_code == 303
    assert codes_in(screens.get("/rack").text) == []


@pytest.mark.parametrize(
    "wrong",
    [
        {"size": "wide"}, {"size": ""}, {"size": "10x10; 20x20"}, {"material": "gold"}, {"form": "lump"},
        {"copies": "0"}, {"copies": "9999"}, {"thickness": "thick"}, {"price": "dear"},
    ],
)  # fmt: skip
def test_stock_that_cannot_be_is_refused(screens, wrong):
    assert screens.send("/rack", SHEET | wrong).status_code == 422
    assert codes_in(screens.get("/rack").text) == []


def test_labels_of_an_empty_rack_are_told(screens):
    assert screens.get("/rack/labels.pdf").status_code == 422
    assert screens.post("/rack", do="undo").status_code == 422


def test_an_item_is_reserved_freed_moved_and_struck(screens, glaze):
    (code,) = received(screens)
    address = f"/rack/{code}"
    screens.post(address, do="reserve", job="Glaze room")
    assert (state(screens, code).state, state(screens, code).reserved_for) == ("reserved", "Glaze room")
    screens.post(address, do="release")
    screens.post(address, do="move", place="B1")
    assert (state(screens, code).state, state(screens, code).place) == ("free", "B1")
    seen = state(screens, code).last_action
    screens.post(address, do="move", place="C1")
    assert screens.post(address, do="spoil", seen=seen).status_code == 422  # looked at before it was moved
    assert screens.post(address, do="spoil").status_code == 303
    assert state(screens, code).state == "spoiled"
    assert "Book it out" not in screens.get(address).text


def test_a_cut_books_its_rests_in_under_codes_of_their_own(screens):
    (code,) = received(screens)
    assert screens.post(f"/rack/{code}", do="cut").status_code == 422  # neither rests nor nothing
    assert screens.post(f"/rack/{code}", do="cut", rests="600x400", nothing="yes").status_code == 422
    assert screens.post(f"/rack/{code}", do="cut", rests="6000x400").status_code == 422
    answer = screens.post(f"/rack/{code}", do="cut", rests="600x400; 300x200")
    page = screens.get(answer.headers["location"]).text
    rests = [one for one in codes_in(page) if one != code]
    assert sorted(state(screens, one).size_mm for one in rests) == [(300.0, 200.0), (600.0, 400.0)]
    assert state(screens, code).state == "cut"


def test_a_plan_from_the_rack_reserves_what_it_takes(screens, glaze):
    (code,) = received(screens)
    assert screens.post("/jobs/1/buying", do="plan").status_code == 303
    page = screens.settled("/jobs/1/buying").text
    assert code in page[page.index("Reserved in the rack") :]
    assert state(screens, code).reserved_for == "Glaze room"
    assert state(screens, code).planned


@pytest.mark.parametrize("code", ["KKKK-KKKK", "x", "..%2F..", "labels.exe"])
def test_codes_nobody_knows_are_told(screens, code):
    assert screens.get(f"/rack/{code}").status_code == 404
    assert screens.post(f"/rack/{code}", do="spoil").status_code == 404


def test_a_hostile_place_is_escaped(screens):
    (code,) = received(screens, place="<script>alert(1)</script>")
    for page in ("/rack", f"/rack/{code}"):
        assert "<script>alert" not in screens.get(page).text
