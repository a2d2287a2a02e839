"""The page of the layouts: how far they are, then every sheet, reached from one line at its head."""

import re

from evenface.interfaces.web.background import Planner, Work
from evenface.layouts.solve import Progress


def test_the_last_material_of_three_is_the_third_of_three(screens, glaze, monkeypatch):
    step = Progress("mdf-19", 3, 3, 1, False, 0.4)

    def under_way(planner, view):
        return Work(view, "running", step)

    monkeypatch.setattr(Planner, "start", under_way)
    for page in ("cutting", "buying", "paper/drawings"):
        assert "3 / 3: mdf-19" in screens.get(f"/jobs/1/{page}").text, page


def test_sheets_are_reached_by_their_material_and_what_to_buy_by_a_link(screens, glaze):
    page = screens.settled("/jobs/1/cutting").text
    links = re.findall(r'href="#(sheet-[0-9]+)">([^<]+)<', page)
    places = dict(re.findall(r'<section id="(sheet-[0-9]+)"><h2>([^<]+), 1 / [0-9]+</h2>', page))
    assert dict(links) == places
    assert len(links) > 5
    assert len(links) == len(dict(links).values())
    assert page.count("<table") == 1 + page.count(
        "<summary>Cuts in order"
    )  # what to buy stands on its own page
    assert 'href="/jobs/1/buying"' in page.split("</nav>")[1]
