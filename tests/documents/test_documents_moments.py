"""Days in the reader's language."""

from datetime import date, datetime

from evenface.documents.moments import day_text, moment_text
from evenface.words import Manner

SWEDISH = Manner(translate=lambda word: {"Tue": "tis"}.get(word, word), language="sv")


def test_a_day_is_told_in_the_reader_s_language():
    assert day_text(date(2027, 1, 12)) == "Tue 2027-01-12"
    assert day_text(date(2027, 1, 12), SWEDISH) == "tis 2027-01-12"
    assert moment_text(datetime(2027, 1, 12, 8, 5), SWEDISH) == "tis 2027-01-12 08:05"


def test_every_weekday_stands_where_the_almanac_has_it():
    week = [day_text(date(2027, 1, day))[:3] for day in range(11, 18)]
    assert week == ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"]
