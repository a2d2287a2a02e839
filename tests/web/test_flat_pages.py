"""A part through the year, backers, widths of wood, and what a remedy does in numbers."""

import re
from html import unescape

import pytest
from jobs_as_text import BARE_BELOW

PAGES = ["flat/1.1", "backers/1.1", "limits"]


@pytest.mark.parametrize("page", PAGES)
def test_each_page_has_a_title_and_nothing_inline(screens, glaze, page):
    answer = screens.get(f"/jobs/1/{page}")
    assert answer.status_code == 200
    assert answer.text.count("<h1>") == 1
    assert not re.search(r"<script(?![^>]*\bsrc=)|\sstyle=|\son\w+=|<style", answer.text)


def test_the_chart_of_a_part_stands_on_its_page_and_with_what_comes_later(screens, glaze):
    assert screens.get("/jobs/1/flat/1.1").text.count("<svg") == 1
    later = screens.client.get("/jobs/1/parts/1.1", headers={"X-Live": "1"}).text
    chart = re.search(r'<section id="year" data-swap>(.*?)</section>', later, re.S)[1]
    assert "<svg" in chart
    assert "/jobs/1/flat/1.1" in chart
    at_once = screens.get("/jobs/1/parts/1.1").text  # known by now: nothing is left to follow
    assert chart in at_once
    assert screens.get("/jobs/1/flat/9.9").status_code == 404


def test_backers_come_beside_the_page_with_the_part_as_it_is_first(screens, glaze):
    page = screens.settled("/jobs/1/backers/1.1").text
    rows = re.findall(r"<tr><td>(.*?)</td>", page)
    assert rows[0] == "As it is"
    assert len(rows) > 5


def test_widths_of_wood_answer_what_is_asked(screens, glaze):
    oak = screens.get("/jobs/1/limits?wood=oak").text
    thick = screens.get("/jobs/1/limits?wood=oak&thickness=40+mm").text
    assert oak != thick
    assert "In Copenhagen, " in oak
    assert screens.get("/jobs/1/limits?wood=plastic").status_code == 422
    assert screens.get("/jobs/1/limits?thickness=thick").status_code == 422


def test_a_remedy_shows_its_numbers_and_the_year_before_and_after(screens):
    screens.store.add("Bare below", BARE_BELOW)
    tries = [
        unescape(one) for one in re.findall(r'href="(/jobs/1/try\?[^"]+)"', screens.get("/jobs/1/check").text)
    ]
    assert tries
    numbers = [screens.settled(one.replace("/try?", "/effect?")).text for one in tries]
    flatter = [one for one in numbers if one.count("<svg") == 2]
    assert flatter  # a back makes it flat: bow before and after
    assert any("bow [mm]" in one and "kg" in one for one in flatter)
    page = screens.get(tries[0]).text
    assert "/effect?" in page
    assert screens.store.job(1).text == BARE_BELOW


def test_an_older_remedy_has_no_numbers_any_more(screens, glaze):
    assert screens.get("/jobs/1/effect?version=7&finding=0&remedy=0").status_code == 404
