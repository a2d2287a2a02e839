"""Who works when, typed in beside the calendar: hours, free days, people, means, steps held to a day."""

import re
import tomllib
from datetime import date
from html import unescape
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from evenface.interfaces.web.api import BASE
from evenface.interfaces.web.app import build_app
from evenface.interfaces.web.background import Planner
from evenface.interfaces.web.desk import Desk
from evenface.interfaces.web.hours_entries import hours_entries
from evenface.words import ENGLISH

PAGE = "/jobs/1/hours"
SHELF = (Path(__file__).parents[2] / "examples" / "one-shelf.toml").read_text(encoding="utf-8")
CALENDAR = """
[calendar]   # as agreed in spring
start    = "2027-01-11"
hours    = ["08:00-12:00", "12:30-15:30"]   # with a break
holidays = [
  "2027-03-25..2027-03-29",   # Easter
  "2027-05-06",               # Ascension
]
clamps   = 30
press    = [2600, 1300]  # plate
person   = [{ name = "Sunniva" }, { name = "Bo", hours = { mon = "08:00-12:00" }, absent = "2027-02-08" }]  # two
locked   = { "all-02" = 2027-03-11 }
"""


@pytest.fixture
def shop(screens):
    """A shelf with a calendar as job number 1."""
    return screens.store.add("Shelf", SHELF + CALENDAR)


@pytest.fixture
def plain(screens):
    """The same without a calendar."""
    return screens.store.add("Shelf", SHELF)


def calendar(screens):
    return tomllib.loads(screens.store.job(1).text).get("calendar", {})


def comments(text):
    return re.findall("#.*", text)


def edit(screens, version, typed, live=True, **more):
    fields = {"version": str(version), "about": "hours"} | typed | more
    return screens.client.post(PAGE, data=fields, headers={"X-Live": "1"} if live else {})


def ask(screens, version, do, **more):
    return screens.post("/jobs/1/people", version=version, do=do, **more)


@pytest.mark.parametrize(
    ("path", "typed", "written"),
    [
        ("calendar.start", "2027-02-01", "2027-02-01"),
        ("calendar.hours", "07:00-11:00, 11:30-15:00", ["07:00-11:00", "11:30-15:00"]),
        ("calendar.hours", "07:00-14:00", ["07:00-14:00"]),
        ("calendar.holidays", "2027-05-06", ["2027-05-06"]),
        ("calendar.holidays", "2027-03-25..2027-03-29, 2027-05-07, 2027-06-25",
         ["2027-03-25..2027-03-29", "2027-05-07", "2027-06-25"]),
        ("calendar.clamps", "12", 12),
        ("calendar.benches", "2", 2),
        ("calendar.presses", "2", 2),
        ("calendar.press", "3000x1300", [3000, 1300]),
        ("calendar.press_hours", "2,5", 2.5),
        ('calendar.locked.all-02', "2027-03-10 09:30", "2027-03-10 09:30"),
    ],
)  # fmt: skip
def test_what_is_typed_is_written_where_it_belongs_with_every_comment_that_still_has_its_line(
    screens, shop, path, typed, written
):
    answer = edit(screens, 0, {path: typed})
    assert answer.status_code == 200, answer.text
    found = calendar(screens)
    for key in path.split(".")[1:]:
        found = found[key]
    assert found == written
    gone = set(comments(shop.text)) - set(comments(screens.store.job(1).text))
    assert gone <= {"# Easter"}  # its own line went
    screens.post("/jobs/1/step/undo", version=1, back=PAGE)
    assert screens.store.job(1).text == shop.text
    told = unescape(re.search(r'<p id="did"[^>]*>(.*?)</p>', screens.get(f"{PAGE}?did=undo").text)[1])
    assert "→" in told
    assert "calendar." not in told


@pytest.mark.parametrize(
    ("path", "typed"),
    [
        ("calendar.start", "in spring"),
        ("calendar.hours", "8 to 15"),
        ("calendar.hours", "08:00-12:00, 11:00-15:00"),
        ("calendar.holidays", "2027-03-25, 2027-03-32"),
        ("calendar.clamps", "a few"),
        ("calendar.press", "2600"),
        ("calendar.press", "2600 x wide"),
        ("calendar.press_hours", "0"),
        ("calendar.person[0].name", ""),
        ("calendar.person[1].absent", "2027-02-30"),
        ("calendar.person[1].hours.mon", "never"),
        ("calendar.locked.all-02", "soon"),
    ],
)
def test_a_slip_stays_in_its_field_with_the_reason_and_the_rest_is_kept(screens, shop, path, typed):
    answer = edit(screens, 0, {path: typed, "calendar.benches": "3"}, live=False)
    assert answer.status_code == 422
    found = re.search(rf'<input id="[^"]*" name="{re.escape(path)}" value="([^"]*)"[^>]*>', answer.text)
    assert unescape(found[1]) == typed
    assert 'aria-invalid="true"' in found[0]
    assert re.search(r"<strong>[^<]*Expected", answer.text)
    assert calendar(screens) == tomllib.loads(CALENDAR)["calendar"] | {"benches": 3}
    later = screens.get(PAGE).text  # it waits there
    assert unescape(re.search(rf'name="{re.escape(path)}" value="([^"]*)"', later)[1]) == typed


def test_two_windows_lose_nothing_and_say_so_at_the_field(screens, shop):
    assert edit(screens, 0, {"calendar.holidays": "2027-05-06"}).status_code == 200
    late = edit(
        screens, 0, {"calendar.holidays": "2027-06-25", "calendar.clamps": "8"},
        **{"was:calendar.holidays": "2027-03-25..2027-03-29, 2027-05-06", "was:calendar.clamps": "30"},
    )  # fmt: skip
    assert late.status_code == 409
    assert "2027-05-06" in late.text
    assert calendar(screens)["holidays"] == ["2027-05-06"]
    assert calendar(screens)["clamps"] == 8  # nobody else was at it
    assert ask(screens, 0, "add", person="Ada").status_code == 409


def test_one_word_becomes_a_list_and_nothing_takes_it_out(screens, shop):
    path = "calendar.person[1].absent"
    assert edit(screens, 0, {path: "2027-02-08, 2027-02-15"}).status_code == 200
    assert calendar(screens)["person"][1]["absent"] == ["2027-02-08", "2027-02-15"]
    assert edit(screens, 1, {path: ""}).status_code == 200
    assert "absent" not in calendar(screens)["person"][1]
    assert edit(screens, 2, {"calendar.locked.all-02": ""}).status_code == 200
    assert calendar(screens)["locked"] == {}


def test_people_come_and_go_and_a_calendar_is_begun(screens, plain):
    assert "calendar" not in tomllib.loads(plain.text)
    assert ask(screens, 0, "add", person=" Ada  Brand ").headers["location"] == f"{PAGE}?did=added#did"
    assert calendar(screens) == {"person": [{"name": "Ada Brand"}]}
    assert screens.store.job(1).text.startswith(plain.text.rstrip())
    again = ask(screens, 1, "add", person="Ada Brand")
    assert again.status_code == 422
    assert 'value="Ada Brand"' in again.text
    assert "a name that nobody else has here" in again.text
    assert ask(screens, 1, "add", person="").status_code == 422
    assert ask(screens, 1, "add", person='Bo <script>"').status_code == 303
    page = screens.get(PAGE).text
    assert "<script>&#34;" not in page
    assert "Bo &lt;script&gt;" in page
    assert ask(screens, 2, "out 0").status_code == 303
    assert [one["name"] for one in calendar(screens)["person"]] == ['Bo <script>"']
    assert ask(screens, 3, "out 0").status_code == 303
    assert "person" not in calendar(screens)
    assert ask(screens, 4, "out 0").status_code == 404
    screens.post("/jobs/1/step/undo", version=4, back=PAGE)
    assert len(calendar(screens)["person"]) == 1


def test_hours_by_weekday_and_alike_again(screens, shop):
    assert ask(screens, 0, "by-day shop").status_code == 303
    day = ["08:00-12:00", "12:30-15:30"]
    days = ("monday", "tuesday", "wednesday", "thursday", "friday")
    assert calendar(screens)["hours"] == dict.fromkeys(days, day)
    assert "# with a break" in screens.store.job(1).text
    typed = {"calendar.hours.friday": "", "calendar.hours.saturday": "09:00-12:00"}
    assert edit(screens, 1, typed).status_code == 200
    assert calendar(screens)["hours"]["saturday"] == "09:00-12:00"
    assert "friday" not in calendar(screens)["hours"]
    view = Desk().look(screens.store.job(1), flat=False)
    assert view.sketch.job.calendar.people[0].week[4:] == ((), ((540, 720),), ())
    assert ask(screens, 2, "alike shop").status_code == 303
    assert calendar(screens)["hours"] == day
    assert ask(screens, 3, "alike 1").status_code == 303
    assert calendar(screens)["person"][1]["hours"] == "08:00-12:00"
    assert ask(screens, 4, "by-day 0").status_code == 303
    assert set(calendar(screens)["person"][0]["hours"]) == set(days)
    assert ask(screens, 5, "by-day 7").status_code == 404
    assert ask(screens, 5, "sideways").status_code == 404


def test_a_step_is_held_to_a_day_and_the_calendar_follows(screens, plain):
    page = screens.get(PAGE).text
    steps = re.findall(r'<option value="([^"]+)">\1 ', page)
    assert len(steps) > 8
    assert ask(screens, 0, "hold", step=steps[-1], day="soon").status_code == 422
    assert ask(screens, 0, "hold", step="9.9-99", day="2027-03-11").status_code == 422
    assert ask(screens, 0, "hold", step=steps[-1], day="").status_code == 422
    assert ask(screens, 0, "hold", step=steps[-1], day="2027-03-11").status_code == 303
    assert calendar(screens)["locked"] == {steps[-1]: "2027-03-11"}
    assert edit(screens, 1, {"calendar.start": "2027-01-11"}).status_code == 200
    shown = screens.get("/jobs/1/calendar").text
    assert "could not be planned" not in shown
    assert "2027-03-11" in shown or "11 March 2027" in shown or "11.03.2027" in shown


def test_an_entry_of_a_job_without_a_calendar_begins_it(screens, plain):
    typed = {"calendar.holidays": "2027-03-25", "calendar.press": "2600 x 1300"}
    assert edit(screens, 0, typed).status_code == 200
    assert calendar(screens) == {"holidays": "2027-03-25", "press": [2600, 1300]}
    assert edit(screens, 1, {"calendar.holidays": "2027-03-25, 2027-03-26"}).status_code == 200
    assert calendar(screens)["holidays"] == ["2027-03-25", "2027-03-26"]
    view = Desk().look(screens.store.job(1), flat=False)
    assert view.sketch.job.calendar.closed == {date(2027, 3, 25), date(2027, 3, 26)}


def test_in_inches_what_is_not_touched_stays_and_what_is_typed_is_in_inches(screens, shop):
    screens.client.cookies.set("evenface_units", "inch")
    shown = unescape(re.search(r'name="calendar.press" value="([^"]*)"', screens.get(PAGE).text)[1])
    assert edit(screens, 0, {"calendar.press": shown}).status_code == 200
    assert screens.store.job(1).text == shop.text
    width = shown.split(" x ")[1]
    assert edit(screens, 0, {"calendar.press": f"98 1/2 x {width}"}).status_code == 200
    assert calendar(screens)["press"] == ["98 1/2 in", 1300]


def test_every_entry_has_a_path_an_id_and_a_label_of_its_own(shop):
    entries = hours_entries(Desk().look(shop, flat=False), ENGLISH)
    assert len(entries) > 15
    for told in (lambda one: one.path, lambda one: one.id, lambda one: (one.label, one.whose)):
        assert len({told(one) for one in entries}) == len(entries)


def test_in_swedish_every_label_is_spoken(screens, shop):
    screens.client.cookies.set("evenface_language", "sv")
    page = screens.get(PAGE).text
    for word in (
        "Vem arbetar när",
        "Stängt",
        "Tvingar",
        "Arbetstid, måndag till fredag",
        "Borta (Bo)",
        "måndag (Bo)",
    ):
        assert word in page
    for word in ("Closed on", "Monday", "Take out", "such as", "Hold it"):
        assert word not in page
    assert "Ta ut" in page


def test_programs_do_the_same(store):
    api = TestClient(build_app(store, Planner(0.0)), base_url="http://127.0.0.1:8000" + BASE)
    job = f"jobs/{store.add('Shelf', SHELF + CALENDAR).id}"
    more = api.post(f"{job}/people", json={"version": 0, "name": "Ada"}).json()
    assert [one["name"] for one in tomllib.loads(more["text"])["calendar"]["person"]][-1] == "Ada"
    less = api.post(f"{job}/people/1/remove", json={"version": 1}).json()
    assert [one["name"] for one in tomllib.loads(less["text"])["calendar"]["person"]] == ["Bo", "Ada"]
    assert api.post(f"{job}/people/7/remove", json={"version": 2}).status_code == 404
    laid = api.post(f"{job}/hours", json={"version": 2, "way": "by day"}).json()
    assert len(tomllib.loads(laid["text"])["calendar"]["hours"]) == 5
    assert api.post(f"{job}/hours", json={"version": 3, "way": "alike", "person": 9}).status_code == 404
    step = api.get(f"{job}/steps").json()[0]["id"]
    held = api.post(f"{job}/held", json={"version": 3, "step": step, "day": "2027-02-01 08:00"}).json()
    assert tomllib.loads(held["text"])["calendar"]["locked"][step] == "2027-02-01 08:00"
    assert api.post(f"{job}/held", json={"version": 4, "step": "x", "day": "2027-02-01"}).status_code == 422
    assert api.post(f"{job}/people", json={"version": 0, "name": "Eva"}).status_code == 409
