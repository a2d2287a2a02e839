"""`evenface steps` with a shop of its own: people, locked days, ticks, and the day of delivery."""

from pathlib import Path

import pytest
from typer.testing import CliRunner

from evenface.errors import FileError
from evenface.interfaces.command_line import app
from evenface.job.afterwards import ticked_minutes
from evenface.job.opening import open_with_all

SHELF = (Path(__file__).parents[2] / "examples" / "one-shelf.toml").read_text(encoding="utf-8")
SHOP = """
[calendar]
start = 2027-01-11
hours = ["08:00-12:00", "12:30-15:30"]
clamps = 12
press = [2600, 1300]
press_hours = 2
  [[calendar.person]]
  name = "Ottoline"
  [[calendar.person]]
  name = "Bo"
  absent = "2027-01-11..2027-01-12"
"""


@pytest.fixture
def job(tmp_path):
    file = tmp_path / "shelf.toml"
    file.write_text(SHELF + SHOP, encoding="utf-8")
    return file


def call(*arguments):
    answer = CliRunner().invoke(app, ["steps", *map(str, arguments), "--seconds", "0"])
    return answer, " ".join(answer.output.split())


def rows_of(answer):
    return [line for line in answer.output.splitlines() if ":" in line]


def test_the_plan_begins_on_the_day_of_the_job_and_names_who_works(job):
    answer, told = call(job)
    assert answer.exit_code == 0, answer.output
    assert "Ottoline" in told
    assert "not counted" not in told


def test_ticks_beside_the_job_are_left_out_and_the_rest_begins_after_them(job):
    _, before = call(job)
    text = 'format = 1\n[[done]]\nstep = "all-01"\nminutes = 50\nday = "2027-01-20 11:15"\n'
    job.with_name("shelf.made.toml").write_text(text, encoding="utf-8")
    answer, told = call(job, "--start", "2027-01-11")
    assert answer.exit_code == 0, answer.output
    assert "Ticked off and not shown: 1." in told
    assert "11:15" in told
    assert "all-01" in before
    assert "all-01" not in told
    assert ticked_minutes(open_with_all(job)) == {"all-01": 50.0}


def test_a_tick_or_lock_of_an_unknown_step_is_refused_with_the_nearest(job):
    job.with_name("shelf.made.toml").write_text('format = 1\n[[done]]\nstep = "all-1"\n', encoding="utf-8")
    answer, _ = call(job)
    assert isinstance(answer.exception, FileError)
    assert "all-01" in str(answer.exception)


def test_a_locked_day_too_soon_is_a_stop(job):
    job.write_text(SHELF + SHOP + '[calendar.locked]\n"fit-01" = 2027-01-12\n', encoding="utf-8")
    answer, told = call(job)
    assert answer.exit_code == 1
    assert "fit-01 is locked on Tue 2027-01-12, but cannot begin before" in told


def test_a_day_that_holds_and_one_no_plan_of_the_shop_can_hold(job):
    answer, told = call(job, "--due", "2027-12-18")
    assert answer.exit_code == 0
    assert "holds, with" in told
    assert "one more person at the same hours" in told
    answer, told = call(job, "--due", "2027-01-15")
    assert answer.exit_code == 1
    assert "No plan of this shop holds it." in told


def test_the_day_of_the_job_is_told_without_being_asked(job):
    text = job.read_text(encoding="utf-8").replace("[job]", '[job]\ndue = "2027-12-18"')
    job.write_text(text, encoding="utf-8")
    answer, told = call(job)
    assert answer.exit_code == 0
    assert "Wanted by Sat 2027-12-18: holds" in told
    assert "What would bring it in" not in told


def test_no_date_is_refused(job):
    answer, _ = call(job, "--due", "Christmas")
    assert isinstance(answer.exception, FileError)


def test_the_packet_holds_the_days_too(job, tmp_path):
    answer = CliRunner().invoke(app, ["plan", str(job), "--out", str(tmp_path / "packet")])
    assert answer.exit_code == 0, answer.output
    text = (tmp_path / "packet" / "order-of-work.ics").read_bytes().decode()
    assert text.count("BEGIN:VEVENT") == text.count("END:VEVENT") > 5
    assert "DTSTART:20270111T080000" in text
