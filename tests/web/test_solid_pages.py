"""A piece in three dimensions: its page, its triangles and its bows."""

import re
from pathlib import Path

import pytest
from jobs_as_text import BARE_BELOW

EXAMPLES = Path(__file__).parents[2] / "examples"


def test_the_parts_lead_to_a_page_with_a_title_and_nothing_inline(screens, glaze):
    parts = screens.get("/jobs/1").text
    links = re.findall(r'href="(/jobs/1/solid/\d+)"', parts)
    assert links == ["/jobs/1/solid/1", "/jobs/1/solid/2", "/jobs/1/solid/3"]
    titles = set()
    for link in links:
        page = screens.get(link).text
        assert page.count("<h1>") == 1
        assert not re.search(r"<script(?![^>]*\bsrc=)|\sstyle=|\son\w+=|<style", page)
        titles.add(re.search("<title>(.*?)</title>", page)[1])
        assert page.count("<svg ") > 1  # drawn too, for browsers that show nothing in 3-D
    assert len(titles) == 3


def test_a_whole_piece_is_drawn_taken_apart_beside_its_canvas(screens):
    example = screens.store.add("Cupboard", (EXAMPLES / "wall-cupboard.toml").read_text())
    page = screens.get(f"/jobs/{example.id}/solid/1").text
    assert page.count("<figure") == 1
    assert 'role="img"' in page
    told = screens.get(f"/api/v1/jobs/{example.id}/pieces/1/solid").json()
    assert not told["loose"]
    assert told["low"] == [0, 0, 0]
    assert told["high"] == [1600, 340, 720]
    assert any(any(one["apart"]) for one in told["placed"])


def test_triangles_are_numbers_of_points_and_every_colour_is_told(screens, glaze):
    told = screens.get("/api/v1/jobs/1/pieces/2/solid").json()
    assert told["loose"]
    assert len(told["placed"]) == len(told["parts"]) == 6
    for part in told["parts"]:
        for body in part["bodies"]:
            points = len(body["positions"]) // 3
            assert len(body["positions"]) == 3 * points
            assert 0 <= min(body["triangles"]) <= max(body["triangles"]) == points - 1
            assert len(body["triangles"]) % 3 == len(body["lines"]) % 6 == len(body["covered"]) % 6 == 0
            assert re.fullmatch("#[0-9a-f]{6}", told["colours"][body["colour"]]["tone"])
    roles = {body["role"] for body in told["parts"][0]["bodies"]}
    assert roles == {"carrier", "edging", "face", "back"}


def test_a_panel_that_is_bare_below_bows_through_the_year(screens):
    screens.store.add("Bare below", BARE_BELOW.replace("Counter", "Counter <b>"))
    (top,) = screens.get("/api/v1/jobs/1/pieces/1/bows").json()
    assert len(top["along"]) == len(top["across"]) == 12
    assert max(top["along"]) - min(top["along"]) > 1.0
    assert max(map(abs, top["along"])) > 2 * max(map(abs, top["across"]))
    page = screens.get("/jobs/1/solid/1").text
    assert "<b>" not in page.replace("<b>1.1 top</b>", "")


@pytest.mark.parametrize("number", ["0", "4", "x", "99999999", "-1", "1.5"])
def test_a_piece_that_is_not_there_is_said_so(screens, glaze, number):
    assert screens.get(f"/jobs/1/solid/{number}").status_code == 404
    assert screens.get(f"/api/v1/jobs/1/pieces/{number}/solid").status_code == 404
    assert screens.get(f"/api/v1/jobs/1/pieces/{number}/bows").status_code == 404
