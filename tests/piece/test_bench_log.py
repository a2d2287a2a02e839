"""`[[moisture]]` and `[[flat]]` in the made file: read as written, refused where they cannot be."""

from datetime import date

import jobs_by_hand as by_hand
import pytest

from evenface.errors import FileError
from evenface.materials import load_catalogue
from evenface.piece.reader import read_made

JOB = by_hand.job(by_hand.panel())
READING = '[[moisture]]\nwhat = "wood"\nof = "ash"\nvalue = "8.5 %"\nday = 2027-01-20\n'


def read(text, job=JOB):
    return read_made("format = 1\n" + text, "job.made.toml", job, load_catalogue())


def test_a_reading_is_read_whole():
    (one,) = read(READING + 'where = "left stack"\ninstrument = "pin meter"\nsince = 2027-01-08\n').moisture
    assert (one.what, one.material, one.value) == ("wood", "ash", pytest.approx(0.085))
    assert (one.where, one.instrument, one.day) == ("left stack", "pin meter", date(2027, 1, 20))
    assert one.days_lain == 12


def test_the_room_is_read_with_its_warmth():
    (one,) = read(
        '[[moisture]]\nwhat = "room"\nvalue = 0.48\nday = "2027-01-20"\ntemperature = 19\n'
    ).moisture
    assert (one.value, one.temperature_c, one.days_lain) == (0.48, 19.0, None)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (READING.replace("ash", "asch"), "ash"),
        (READING.replace('of = "ash"\n', ""), "the material that was read"),
        (READING.replace('"wood"', '"room"'), "no material for the room"),
        (READING.replace("8.5 %", "48 %"), "moisture content below 40%"),
        (READING + "since = 2027-02-01\n", "not after 2027-01-20"),
        (READING.replace('"wood"', '"board"'), "a board of the catalogue"),
        ('[[flat]]\npiece = "Bench"\npanel = "tap"\nbow = 1.2\n', "top"),
        ('[[flat]]\npiece = "Bench"\npanel = "top"\nbow = 300\n', "at most 100 mm"),
    ],
)
def test_what_cannot_be_is_refused_with_its_place(text, expected):
    with pytest.raises(FileError) as told:
        read(text)
    assert expected in str(told.value)
    assert told.value.complaints[0].place.line > 1


def test_flatness_as_measured():
    (one,) = read(
        '[[flat]]\npiece = "Bench"\npanel = "top"\nbow = -0.8\ntwist = 1.5\nday = 2027-03-02\nhumidity = "41 %"\n'
    ).flat
    assert (one.bow_mm, one.cup_mm, one.twist_mm) == (-0.8, None, 1.5)
    assert (one.number, one.humidity) == (1, pytest.approx(0.41))
