"""The calendar file: lines as RFC 5545 wants them, every working minute of the plan in it, names that last."""

import re
from dataclasses import replace
from datetime import date, datetime

import jobs_by_hand as by_hand
import pytest
from hypothesis import given
from hypothesis import strategies as st
from workplan.random_panels import made

from evenface.documents.calendar_file import calendar_ics, escaped, folded
from evenface.documents.day_plan import day_plan_table
from evenface.piece.calendar_records import Person, ShopCalendar, week_of
from evenface.piece.records import Side
from evenface.workplan import derive_steps
from evenface.workplan.calendar import plan_shop

MONDAY = date(2027, 1, 11)
STEPS = derive_steps(made(by_hand.panel(by_hand.edge(Side.FRONT), by_hand.edge(Side.LEFT))))
LUNCH = week_of(((480, 720), (750, 930)))
SHOP = ShopCalendar(people=(Person("Ottoline", LUNCH), Person("Bo", LUNCH, frozenset({date(2027, 1, 12)}))))


@pytest.fixture(scope="module")
def plan():
    return plan_shop(STEPS, SHOP, MONDAY)


def events(text):
    """Each event's properties, unfolded by the standard's own rule."""
    lines = text.replace("\r\n ", "").split("\r\n")
    found, current = [], None
    for line in lines:
        if line == "BEGIN:VEVENT":
            current = {}
        elif line == "END:VEVENT":
            found.append(current)
            current = None
        elif current is not None:
            name, _, value = line.partition(":")
            assert name not in current
            current[name] = value
    return found


def test_every_working_minute_is_an_event_and_none_else(plan):
    text = calendar_ics("Glaze room", plan, {}, MONDAY).decode()
    minutes = 0.0
    for one in events(text):
        start, end = (datetime.strptime(one[key], "%Y%m%dT%H%M%S") for key in ("DTSTART", "DTEND"))
        assert start.date() == end.date()
        minutes += (end - start).total_seconds() / 60.0
    assert minutes == sum(task.minutes for task in plan.plan.problem.tasks)


def test_lines_are_ended_and_folded_as_the_standard_says(plan):
    raw = calendar_ics("Gläze; room, " * 9, plan, {"1.1": "1.1 Böard " * 20}, MONDAY, date(2027, 3, 1))
    assert raw.endswith(b"END:VCALENDAR\r\n")
    assert all(len(line) <= 75 for line in raw.split(b"\r\n"))
    assert b"\n" not in raw.replace(b"\r\n", b"")
    text = raw.decode()
    for name in ("BEGIN:VCALENDAR", "VERSION:2.0"):
        assert text.count(f"{name}\r\n") == 1
    for one in events(text):
        assert {"UID", "DTSTAMP", "SUMMARY"} <= set(one)
        assert re.fullmatch(r"\d{8}T000000Z", one["DTSTAMP"])
        assert not re.search(r"(?<!\\)[,;]", one["SUMMARY"])


def test_the_day_wanted_is_a_whole_day(plan):
    (due,) = [
        e
        for e in events(calendar_ics("a", plan, {}, MONDAY, date(2027, 3, 1)).decode())
        if "Wanted" in e["SUMMARY"]
    ]
    assert due["DTSTART;VALUE=DATE"] == "20270301"


def test_names_last_over_a_new_plan_and_differ_between_jobs(plan):
    def names(*given):
        return [one["UID"] for one in events(calendar_ics(*given).decode())]

    later = plan_shop(STEPS, replace(SHOP, people=SHOP.people[:1]), date(2027, 2, 1))
    first, again, other = (
        names("a", plan, {}, MONDAY),
        names("a", later, {}, MONDAY),
        names("b", plan, {}, MONDAY),
    )
    assert len(set(first)) == len(first)
    assert len(set(first) & set(again)) >= len(STEPS)
    assert not set(first) & set(other)
    assert calendar_ics("a", plan, {}, MONDAY) == calendar_ics("a", plan, {}, MONDAY)


@given(st.text(max_size=200))
def test_folding_loses_nothing(text):
    line = "SUMMARY:" + escaped(text)
    parts = folded(line)
    assert all(len(part.encode()) <= 75 for part in parts)
    assert parts[0] + "".join(part[1:] for part in parts[1:]) == line
    assert all(part[0] == " " for part in parts[1:])


@given(st.text(st.sampled_from("ab\\;,\n"), max_size=30))
def test_escaping_can_be_taken_back(text):
    back = re.sub(r"\\(.)", lambda m: "\n" if m[1] == "n" else m[1], escaped(text))
    assert back == text


def test_the_table_names_a_day_once_and_says_who(plan):
    shown = day_plan_table(plan, {"1.1": "1.1 board"})
    days = [row[0] for row in shown.rows if row[0]]
    assert len(days) == len(set(days))
    assert [column.title for column in shown.columns][6] == "who"
    assert {row[6] for row in shown.rows} <= {"Ottoline", "Bo", "Ottoline, Bo"}
    assert len(shown.rows) == len(STEPS)
    assert "not counted" in shown.note
