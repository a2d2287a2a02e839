"""Cards, calendar, ticks and timer, as a browser would ask for them."""

import re
import time
import tomllib
from pathlib import Path

import pytest

from evenface.interfaces.web import making as making_module
from evenface.interfaces.web import making_plan
from evenface.interfaces.web.serving import job_to_open
from evenface.interfaces.web.site import own_page

SHELF = (Path(__file__).parents[2] / "examples" / "one-shelf.toml").read_text(encoding="utf-8")


@pytest.fixture
def shelf(screens):
    return screens.store.add("One shelf", SHELF)


def steps_of(screens):
    return re.findall('id="step-([^"]+)"', screens.get("/jobs/1/making").text)


def made(screens):
    return tomllib.loads((screens.store.folder / "made" / "job-1.made.toml").read_text(encoding="utf-8"))


def work(screens, step, do, **more):
    return screens.post(f"/jobs/1/making/{step}", do=do, **more)


@pytest.mark.parametrize("page", ["making", "calendar", "making/1.1-04"])
def test_each_page_has_a_title_and_nothing_inline(screens, shelf, page):
    answer = screens.get(f"/jobs/1/{page}")
    assert answer.status_code == 200
    assert answer.text.count("<h1>") == 1
    assert "One shelf" in re.search("<title>(.*)</title>", answer.text)[1]
    assert not re.search(r"<script(?![^>]*\bsrc=)|\sstyle=|\son\w+=|<style", answer.text)


def test_the_cards_stand_in_the_order_of_the_calendar(screens, shelf):
    steps = steps_of(screens)
    assert steps[0] == "all-01"
    assert len(steps) == len(set(steps)) > 8
    page = screens.get("/jobs/1/calendar?start=2027-01-11").text
    assert "Monday, 11 January 2027" in page
    assert "Sunday" not in page
    assert screens.get("/jobs/1/calendar?start=monday").status_code == 422


def test_a_step_is_ticked_with_its_minutes_and_the_tick_taken_back(screens, shelf):
    first, second = steps_of(screens)[:2]
    assert work(screens, first, "tick", minutes="12,5").status_code == 303
    assert work(screens, second, "tick").status_code == 303
    kept = made(screens)["done"]
    assert [(one["step"], one.get("minutes")) for one in kept] == [(first, 12.5), (second, None)]
    page = screens.get("/jobs/1/making").text
    assert "done, 12.5 min" in page
    assert f"2 / {len(steps_of(screens))}" in page
    work(screens, first, "tick", minutes="20")  # once more: the newer one stands
    assert [(one["step"], one.get("minutes")) for one in made(screens)["done"]] == [
        (second, None),
        (first, 20),
    ]
    work(screens, first, "untick")
    work(screens, second, "untick")
    assert made(screens).get("done", []) == []
    assert screens.store.job(1).version == 0  # the job itself is another file


def test_the_only_tick_can_be_set_again_and_after_it_was_taken_back(screens, shelf):
    first, second = steps_of(screens)[:2]
    work(screens, first, "tick")
    work(screens, first, "tick", minutes="7")  # a second touch of the same button
    assert [(one["step"], one["minutes"]) for one in made(screens)["done"]] == [(first, 7)]
    work(screens, first, "untick")
    work(screens, second, "tick", minutes="9")
    assert [(one["step"], one["minutes"]) for one in made(screens)["done"]] == [(second, 9)]
    assert screens.get("/jobs/1/making").status_code == 200


def test_a_list_that_was_left_empty_takes_a_tick(screens, shelf):
    place = screens.store.folder / "made" / "job-1.made.toml"
    place.parent.mkdir(parents=True, exist_ok=True)
    place.write_text("format = 1\ndone = []\n", encoding="utf-8")
    first = steps_of(screens)[0]
    work(screens, first, "tick")
    assert [one["step"] for one in made(screens)["done"]] == [first]


@pytest.mark.parametrize("minutes", ["-3", "many", "0", "nan", "inf", "1e9"])
def test_minutes_that_cannot_be_are_refused(screens, shelf, minutes):
    assert work(screens, "1.1-01", "tick", minutes=minutes).status_code == 422
    assert not (screens.store.folder / "made").exists()


def test_a_step_nobody_knows_is_not_ticked(screens, shelf):
    assert work(screens, "9.9-99", "tick").status_code == 404
    assert screens.get("/jobs/1/making/9.9-99").status_code == 404


def test_the_timer_counts_over_rests_and_its_minutes_are_those_of_the_tick(screens, shelf, monkeypatch):
    now = [time.time()]
    monkeypatch.setattr(making_module, "time", lambda: now[0])
    work(screens, "1.1-01", "start")
    now[0] += 600.0
    work(screens, "1.1-01", "start")  # twice is once
    work(screens, "1.1-01", "rest")
    now[0] += 3600.0
    work(screens, "1.1-01", "start")
    now[0] += 300.0
    assert "15 min" in screens.get("/jobs/1/making/1.1-01").text
    assert work(screens, "1.1-01", "tick").status_code == 303
    assert made(screens)["done"][0]["minutes"] == 15
    assert "data-since" not in screens.get("/jobs/1/making").text


def test_a_timer_is_forgotten_when_it_is_told_to_be(screens, shelf):
    work(screens, "1.1-01", "start")
    work(screens, "1.1-01", "clear")
    assert "data-minutes" not in screens.get("/jobs/1/making").text


def test_ticks_of_a_job_with_a_file_lie_beside_it_and_leave_its_measures_alone(screens, tmp_path):
    file = tmp_path / "shelf.toml"
    file.write_text(SHELF, encoding="utf-8")
    beside = tmp_path / "shelf.made.toml"
    beside.write_text('format = 1\n\n[thickness]\n"birch-ply-18" = 17.6  # two boards\n', encoding="utf-8")
    job = job_to_open(screens.store, file)
    assert screens.post(f"/jobs/{job.id}/making/1.1-01", do="tick", minutes=8).status_code == 303
    text = beside.read_text(encoding="utf-8")
    assert "17.6  # two boards" in text
    assert tomllib.loads(text)["done"][0]["step"] == "1.1-01"
    assert list(tmp_path.glob(".*")) == []
    assert "done, 8 min" in screens.get(f"/jobs/{job.id}/making").text


def test_undo_on_a_card_comes_back_to_it():
    assert own_page("/jobs/1/making/1.1-04") == "/jobs/1/making/1.1-04"
    assert own_page("/jobs/1/making/..") == "/"


def test_the_calendar_goes_by_the_days_of_the_shop(screens):
    text = SHELF + '\n[calendar]\nstart = "2027-01-11"\nholidays = ["2027-01-12"]\n'
    screens.store.add("One shelf", text)
    page = screens.get("/jobs/1/calendar").text
    assert "11 January 2027" in page
    assert "12 January 2027" not in page


def test_a_tick_of_a_step_that_is_no_more_leaves_the_cards_readable(screens, shelf):
    place = screens.store.folder / "made" / "job-1.made.toml"
    place.parent.mkdir()
    place.write_text('format = 1\n[[done]]\nstep = "7.7-01"\n', encoding="utf-8")
    assert screens.get("/jobs/1/making").status_code == 200


def test_the_plan_is_reckoned_once_for_a_state_of_job_and_bench(screens, shelf, monkeypatch):
    reckoned = []
    plain = making_plan._planned
    monkeypatch.setattr(making_plan, "_planned", lambda *given: reckoned.append(1) or plain(*given))
    steps = steps_of(screens)
    for page in ("making", "calendar", f"making/{steps[0]}", "making"):
        assert screens.get(f"/jobs/1/{page}").status_code == 200
    assert len(reckoned) == 1
    work(screens, steps[0], "tick")
    assert "done" in screens.get("/jobs/1/making").text
    assert len(reckoned) == 2
    screens.get("/jobs/1/calendar?start=2027-01-11")
    assert len(reckoned) == 3
    (screens.store.folder / "own-times.toml").write_text("format = 1\n", encoding="utf-8")
    screens.get("/jobs/1/making")
    assert len(reckoned) == 4


def test_a_tick_of_a_step_that_is_no_more_is_told_and_can_be_taken_out(screens, shelf):
    steps = steps_of(screens)
    work(screens, steps[0], "tick")
    place = screens.store.folder / "made" / "job-1.made.toml"
    text = place.read_text(encoding="utf-8")
    place.write_text(text + '\n[[done]]\nstep = "9.9-01"\n', encoding="utf-8")
    for page in ("making", "calendar"):
        answer = screens.get(f"/jobs/1/{page}").text
        assert "no step of this job any more" in answer
        assert "9.9-01" in answer
        assert "plain days" not in answer  # the plan goes by the shop all the same
    assert "done" in screens.get("/jobs/1/making").text
    assert work(screens, "9.9-01", "untick").status_code == 303
    assert "9.9-01" not in screens.get("/jobs/1/making").text
    assert [one["step"] for one in made(screens)["done"]] == [steps[0]]


def test_a_day_locked_for_a_step_that_is_no_more_is_told(screens):
    locked = '\n[calendar.locked]\n"9.9-01" = 2027-01-11\n'
    screens.store.add("One shelf", SHELF + locked)
    answer = screens.get("/jobs/1/making")
    assert answer.status_code == 200
    assert "plain days for one person" in answer.text
    assert "9.9-01" in answer.text


def test_what_goes_before_is_said_in_words(screens, glaze):
    page = screens.get("/jobs/1/making").text
    assert re.search(r'class="quiet">first: <a href="#step-all-01">Lay up to condition, [^<]+</a>', page)
    card = re.search(r'href="(/jobs/1/making/3\.2-01)"', page)[1]
    assert ">Lay up to condition, " in screens.get(card).text.split("must go before")[1][:200]
    assert "<li>Lay up to condition, " in screens.get("/jobs/1/calendar").text
