"""`evenface steps` as a maker meets it."""

from pathlib import Path

import pytest
from typer.testing import CliRunner

from evenface.errors import FileError
from evenface.interfaces.command_line import app
from evenface.job.opening import open_with_all
from evenface.job.plan import plan
from evenface.job.pricing import price_job, prices_for
from evenface.pricing import Group

EXAMPLES = Path(__file__).parents[2] / "examples"


def call(*arguments):
    return CliRunner().invoke(app, ["steps", *map(str, arguments)])


@pytest.mark.parametrize("job", ["one-shelf.toml", "glaze-room.toml", "notice-panel.toml", "lined-tray.toml"])
def test_the_examples_are_ordered_without_a_breach_and_written(job, tmp_path):
    answer = call(EXAMPLES / job, "--start", "2027-01-11", "--out", tmp_path / "cards")
    assert answer.exit_code == 0, answer.output
    assert (tmp_path / "cards" / "bench-cards.pdf").read_bytes().startswith(b"%PDF")
    told = " ".join(answer.output.split())
    assert ("no shorter plan exists" in told) != ("no plan is done before" in told)
    assert (tmp_path / "cards" / "order-of-work.ics").read_bytes().startswith(b"BEGIN:VCALENDAR\r\n")


def test_care_and_hand_over_sheets_and_the_moisture_log(tmp_path):
    job = tmp_path / "one-shelf.toml"
    job.write_text((EXAMPLES / "one-shelf.toml").read_text(encoding="utf-8"), encoding="utf-8")
    opened = open_with_all(job, None)
    piece = opened.job.pieces[0].name
    board = opened.job.buildups[opened.job.pieces[0].description[0].buildup].layers
    carrier = next(layer.material for layer in board if layer.role == "carrier")
    (tmp_path / "one-shelf.made.toml").write_text(
        "format = 1\n"
        f'[[moisture]]\nwhat = "board"\nof = "{carrier}"\nvalue = "8 %"\nday = 2027-01-09\nsince = 2027-01-05\n'
        f'[[flat]]\npiece = "{piece}"\npanel = "shelf"\nbow = 0.4\n',
        encoding="utf-8",
    )
    answer = call(job, "--start", "2027-01-11", "--out", tmp_path / "cards")
    told = " ".join(answer.output.split())
    assert answer.exit_code == 0, told
    assert "Moisture log" in told
    assert "has lain 4 days in the shop" in told
    for name in ("care.pdf", "hand-over.pdf"):
        assert (tmp_path / "cards" / name).read_bytes().startswith(b"%PDF")


def test_without_a_folder_nothing_is_written(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert call(EXAMPLES / "one-shelf.toml", "--start", "2027-01-11").exit_code == 0
    assert not list(tmp_path.iterdir())


def test_stock_that_has_lain_is_done_sooner():
    def done(*more):
        told = " ".join(call(EXAMPLES / "one-shelf.toml", "--start", "2027-01-11", *more).output.split())
        return told.split("done ")[1].split(";")[0].split(" ")[1]

    assert done("--days-lain", "13") < done()


@pytest.mark.parametrize("wrong", [("--start", "soon"), ("--hours", "30"), ("--per-page", "3")])
def test_what_cannot_be_is_refused(wrong):
    answer = call(EXAMPLES / "one-shelf.toml", *wrong)
    assert isinstance(answer.exception, FileError)


def moved(tmp_path, step, after):
    """The notice panel with one step moved."""
    text = (EXAMPLES / "notice-panel.toml").read_text(encoding="utf-8")
    job = tmp_path / "moved.toml"
    job.write_text(f'{text}\n[[order.move]]\nstep = "{step}"\nafter = "{after}"\n', encoding="utf-8")
    return job


def test_a_step_moved_by_hand_is_followed_and_what_it_breaks_is_told(tmp_path):
    answer = call(moved(tmp_path, "1-04", "fit-01"), "--start", "2027-01-11")
    told = " ".join(answer.output.split())
    assert answer.exit_code == 1
    assert "1-04: put in loose: panel: Not everything is assembled yet." in told
    assert "Take the move of 1-04 out again" in told


def test_a_step_nobody_knows_is_answered_with_the_nearest(tmp_path):
    answer = call(moved(tmp_path, "1-4", "fit-01"), "--start", "2027-01-11")
    assert isinstance(answer.exception, FileError)
    assert "order.move[0].step: expected a step of the work plan; given '1-4'" in str(answer.exception)
    assert "Did you mean '1-04'" in str(answer.exception)


def test_own_times_beside_the_job_are_on_the_cards_as_in_the_price(tmp_path):
    job = tmp_path / "notice-panel.toml"
    job.write_text((EXAMPLES / "notice-panel.toml").read_text(encoding="utf-8"), encoding="utf-8")

    def hours():
        told = " ".join(call(job, "--start", "2027-01-11").output.split())
        return float(told.split(" steps, ")[1].split(" hours")[0])

    usual = hours()
    times = '[[time]]\njob = "before"\nwork = "pack"\nusual = 10\nminutes = 100\n'
    (tmp_path / "own-times.toml").write_text(f"format = 1\n{times}", encoding="utf-8")
    own = hours()
    assert own > usual
    opened = open_with_all(job)
    result = plan(opened)
    priced = price_job(opened, result, prices_for(opened))
    in_price = sum(line.quantity for line in priced.lines if line.group is Group.LABOUR)
    assert own == pytest.approx(float(in_price), abs=0.051)  # shown to a tenth of an hour
