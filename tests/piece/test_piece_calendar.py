"""`[calendar]` of a job file and `[[done]]` of a made file: what is read, and what is refused where."""

from datetime import date, datetime

import pytest

from evenface.construction.kinds import KINDS
from evenface.errors import FileError
from evenface.materials import load_catalogue
from evenface.piece.calendar_records import USUAL_CALENDAR, Person
from evenface.piece.reader import read_job, read_made

HEAD = """format = 1
[job]
name = "one"
[buildup.plain]
carrier = "mdf-19"
glue = "pva-d3"
[[piece]]
name = "shelf"
  [[piece.panel]]
  name = "board"
  buildup = "plain"
  size = [600, 300]
"""
CATALOGUE = load_catalogue()


def calendar(text):
    return read_job(HEAD + text, "job.toml", CATALOGUE, KINDS).calendar


def test_without_the_table_one_person_works_seven_hours_from_monday_to_friday():
    assert calendar("") == USUAL_CALENDAR
    (person,) = USUAL_CALENDAR.people
    assert [sum(end - start for start, end in day) for day in person.week] == [420] * 5 + [0, 0]


def test_people_hours_free_days_and_limits_are_read():
    found = calendar(
        """[calendar]
start = 2027-01-11
hours = ["12:30-15:30", "08:00-12:00"]
holidays = ["2027-04-01", "2027-12-30..2028-01-02"]
clamps = 24
press = ["2.6 m", 1300]
  [[calendar.person]]
  name = "Ottoline"
  [[calendar.person]]
  name = "Bo"
  hours = { mon = "08:00-10:00", thursday = ["08:00-12:00"] }
  absent = 2027-02-08
[calendar.locked]
"1.1-09" = 2027-02-03
"1.1-10" = "2027-02-04 09:30"
"""
    )
    assert found.start == date(2027, 1, 11)
    assert found.people[0].week[4] == ((480, 720), (750, 930))
    assert found.people[1].week == (((480, 600),), (), (), ((480, 720),), (), (), ())
    assert found.people[1].absent == {date(2027, 2, 8)}
    assert len(found.closed) == 5
    assert date(2028, 1, 2) in found.closed
    assert (found.clamps, found.press_mm, found.presses, found.benches) == (24, (2600.0, 1300.0), 1, None)
    assert [(one.begin, one.to_the_minute) for one in found.locked] == [
        (datetime(2027, 2, 3), False),
        (datetime(2027, 2, 4, 9, 30), True),
    ]


@pytest.mark.parametrize(
    ("line", "key"),
    [
        ('hours = "8 to 4"', "calendar.hours"),
        ('hours = ["08:00-12:00", "11:00-15:00"]', "calendar.hours"),
        ('hours = "15:00-08:00"', "calendar.hours"),
        ('hours = { mo = "08:00-12:00", moonday = "08:00-12:00" }', "calendar.hours"),
        ('holidays = "2027-02-30"', "calendar.holidays"),
        ('holidays = "2027-05-01..2027-04-01"', "calendar.holidays"),
        ("clamps = 0", "calendar.clamps"),
        ("press = 1300", "calendar.press"),
        ('locked = { "1.1-01" = "soon" }', "calendar.locked"),
        ("clamp = 3", "calendar.clamp"),
        ('person = [{ name = "Bo" }, { name = "Bo" }]', "calendar.person"),
    ],
)
def test_what_cannot_be_is_refused_where_it_stands(line, key):
    with pytest.raises(FileError, match=key):
        calendar(f"[calendar]\n{line}\n")


def test_a_day_whose_hours_overlap_is_no_person():
    with pytest.raises(ValueError, match="one after another"):
        Person("Bo", (((480, 720), (700, 800)),) * 7)


def test_ticks_are_read_with_day_time_and_minutes():
    text = 'format = 1\n[[done]]\nstep = "all-01"\n[[done]]\nstep = "1.1-01"\nminutes = 25\nday = "2027-01-12 09:30"\n'
    bare, full = read_made(text, "made.toml").done
    assert (bare.minutes, bare.day, bare.at_min) == (None, None, None)
    assert (full.step, full.minutes, full.day, full.at_min) == ("1.1-01", 25.0, date(2027, 1, 12), 570)


def test_a_step_is_ticked_once():
    with pytest.raises(FileError, match="done"):
        read_made('format = 1\n[[done]]\nstep = "a"\n[[done]]\nstep = "a"\n', "made.toml")
