"""The moisture log held against its gates, and the made file's humidities against each other."""

from dataclasses import replace
from datetime import date

import pytest
from jobs_by_hand import ALL_UNDER, built, job, panel

from evenface.checks import ask_all
from evenface.climate.sorption import wood_moisture
from evenface.construction import Construction
from evenface.finding import Severity
from evenface.parts import part_of
from evenface.piece.bench_records import Reading, latest
from evenface.piece.records import Made
from evenface.words import say

DAY = date(2027, 1, 20)


def wood(value, day=DAY, material="ash", **more):
    return Reading("wood", value, day, material, origin="moisture[0]", **more)


def board(value, day=DAY, **more):
    return Reading("board", value, day, "birch-ply-18", origin="moisture[1]", **more)


def told(*readings, humidities=None, **of_job):
    made = Made(humidities=humidities or {}, moisture=readings)
    order = job(panel(*ALL_UNDER), **of_job)
    panels, _ = built(order, made)
    found = ask_all(order, [Construction(order.pieces[0], panels)], [part_of(panels[0], "1.1")], made=made)
    return {one.code: one for one in found if one.code.startswith("moisture.")}


def middle():
    return float(wood_moisture(0.45, 20.0))


def test_no_readings_no_word():
    assert not told()


@pytest.mark.parametrize(
    ("apart", "severity"), [(0.019, None), (0.021, Severity.WEIGH), (0.041, Severity.STOP)]
)
def test_two_percent_apart_is_the_most(apart, severity):
    found = told(wood(middle()), board(middle() + apart)).get("moisture.read_apart")
    assert (found.severity if found else None) == severity
    if found:
        assert found.value.nominal == pytest.approx(100 * apart)
        assert found.limit == 2.0


def test_only_what_is_glued_together_is_compared():
    assert "moisture.read_apart" not in told(wood(middle() + 0.05, material="oak"), board(middle()))


def test_the_last_reading_counts():
    old = wood(middle() + 0.05, date(2027, 1, 2))
    assert "moisture.read_apart" not in told(old, wood(middle()), board(middle()))
    assert latest((wood(0.1), old))["ash"].value == 0.1


def test_wood_is_held_against_the_year_of_its_room():
    assert "moisture.target" not in told(wood(middle()))
    damp, dry = told(wood(0.16))["moisture.target"], told(wood(0.03))["moisture.target"]
    assert "shrink" in say(damp.why)
    assert "swell" in say(dry.why)
    assert dry.limit < damp.limit


@pytest.mark.parametrize(("kind", "least"), [(wood, 10), (board, 13)])
def test_days_in_the_shop(kind, least):
    """READ: ten days with air round each sheet, three more stacked; wood is not stacked."""
    enough = kind(middle(), since=date(2027, 1, 20 - least))
    short = kind(middle(), since=date(2027, 1, 21 - least))
    assert "moisture.days" not in told(enough)
    found = told(short)["moisture.days"]
    assert (found.value.nominal, found.limit) == (least - 1, least)
    assert "2027-01-21" in say(found.remedies[0].message)


def test_the_air_of_the_shop_is_held_against_the_job():
    room = Reading("room", 0.62, DAY, origin="moisture[2]")
    found = told(room, shop_humidity=0.5)["moisture.shop"]
    assert [(one.path, one.new) for one in found.remedies[0].changes] == [("job.shop_humidity", "0.62")]
    assert "moisture.shop" not in told(replace(room, value=0.55), shop_humidity=0.5)


def test_humidities_of_the_made_file_are_compared_too():
    # MDF of 65 % air under a sheet of 30 %: as wood 12.0 against 6.2 % moisture
    found = told(humidities={"birch-ply-18": 0.65, "hpl-0.8": 0.30})["moisture.apart"]
    assert found.value.nominal == pytest.approx(5.8, abs=0.05)
    assert "moisture.apart" not in told(humidities={"birch-ply-18": 0.50, "hpl-0.8": 0.52})
