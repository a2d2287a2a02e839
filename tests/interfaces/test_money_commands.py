"""`evenface price`, `offer`, `after`, `change` from the command line to the files they leave."""

import shutil
from pathlib import Path

import pytest
from typer.testing import CliRunner

from evenface.interfaces import offering, pricing
from evenface.interfaces.command_line import app

EXAMPLES = Path(__file__).parents[2] / "examples"
JOB = """format = 1
[job]
name = "Tool board"
currency = "DKK"
due = "2027-01-20"
[buildup.board]
face = "hpl-0.8"
back = "hpl-0.8"
carrier = "mdf-19"
glue = "pva-d3"
edging = { wood = "beech", width = 8, section = "flush" }
[[piece]]
name = "Board"
  [[piece.panel]]
  name = "back"
  buildup = "board"
  size = [900, 600]
"""


@pytest.fixture
def run(tmp_path, monkeypatch):
    for module in (pricing, offering):
        monkeypatch.setattr(module, "LAYOUT_SECONDS", 0.3)
    monkeypatch.setenv("COLUMNS", "200")
    monkeypatch.chdir(tmp_path)
    (tmp_path / "job.toml").write_text(JOB, encoding="utf-8")
    shutil.copy(EXAMPLES / "prices.toml", tmp_path / "prices.toml")
    return lambda *words: CliRunner().invoke(app, [str(word) for word in words])


def test_a_whole_price_is_shown_with_margin_and_mark_up(run):
    told = run("price", "job.toml")
    assert told.exit_code == 0, told.output
    assert "20 % of the price = 25 % on the cost" in told.output
    assert "What an hour has to earn" in told.output
    assert "Not priced" not in told.output


def test_without_prices_everything_that_is_missing_is_named(run, tmp_path):
    (tmp_path / "prices.toml").unlink()
    told = run("price", "job.toml")
    assert told.exit_code == 1
    for wanted in (
        "Hourly rate",
        "Margin",
        'material."hpl-0.8"',
        'material."beech"',
        "job.toml, line 8",
        "at least",
    ):
        assert wanted in told.output


def test_no_offer_for_half_a_price_but_a_draft_when_asked(run, tmp_path):
    (tmp_path / "prices.toml").write_text("format = 1\nmargin = 0.2\n", encoding="utf-8")
    assert run("offer", "job.toml").exit_code == 1
    assert not (tmp_path / "offers").exists()
    draft = run("offer", "job.toml", "--anyway")
    assert draft.exit_code == 1
    assert (tmp_path / "offers" / "0001-offer" / "offer.pdf").is_file()


def test_papers_follow_each_other_under_numbers_with_the_job_as_it_was(run, tmp_path):
    first = run("offer", "job.toml", "--start", "2027-01-11")
    assert first.exit_code == 0, first.output
    assert "later than wanted: 2027-01-20" in first.output
    assert run("offer", "job.toml", "--paper", "confirmation", "--to", "0001").exit_code == 0
    assert run("offer", "job.toml", "--paper", "delivery-note").exit_code == 0
    assert run("offer", "job.toml", "--paper", "invoice", "--out", "offers").exit_code == 0
    names = sorted(one.name for one in (tmp_path / "offers").iterdir())
    assert names == ["0001-offer", "0002-confirmation", "0003-delivery-note", "0004-invoice"]
    assert (tmp_path / "offers" / "0001-offer" / "job.toml").read_text(encoding="utf-8") == JOB
    assert run("offer", "job.toml", "--paper", "poster").exit_code != 0


def test_a_change_shows_size_price_and_day_and_keeps_both_versions(run, tmp_path):
    (tmp_path / "new.toml").write_text(JOB.replace("[900, 600]", "[1900, 600]"), encoding="utf-8")
    told = run("change", "job.toml", "new.toml", "--out", "offers", "--to", "0001", "--start", "2027-01-11")
    assert told.exit_code == 0, told.output
    assert "1900 × 600" in told.output
    place = tmp_path / "offers" / "0001-change"
    assert {one.name for one in place.iterdir()} == {"change-order.pdf", "old.toml", "new.toml"}


def test_what_was_noted_becomes_own_times_and_the_next_price_uses_them(run, tmp_path):
    before = run("price", "job.toml").output
    log = 'format = 1\n[[time]]\nwork = "bond the facings"\nminutes = 100\n[[taken]]\nmaterial = "mdf-19"\namount = 2\n'
    (tmp_path / "job.taken.toml").write_text(log, encoding="utf-8")
    told = run("after", "job.toml", "--write")
    assert told.exit_code == 0, told.output
    assert "loses money" in told.output
    assert "MDF 19 mm" in told.output
    own = (tmp_path / "own-times.toml").read_text(encoding="utf-8")
    after = run("price", "job.toml").output
    assert "own time, from 1 job" in after
    assert "own time, from 1 job" not in before
    assert run("after", "job.toml", "--write").exit_code == 0
    assert (tmp_path / "own-times.toml").read_text(encoding="utf-8") == own  # a job written twice counts once
    assert (tmp_path / "past-jobs.csv").read_text(encoding="utf-8").count("Tool board") == 1


def test_a_first_answer_needs_three_past_jobs(run, tmp_path):
    none = run("price", "job.toml", "--quick")
    assert none.exit_code != 0
    head = "job,area_m2,edging_m,corners,grips,price,currency\n"
    rows = "A,1,4,0,0,2100,DKK\nB,2,7,0,0,4000,DKK\nC,0.5,3,0,0,1100,DKK\n"
    (tmp_path / "past-jobs.csv").write_text(head + rows, encoding="utf-8")
    told = run("price", "job.toml", "--quick")
    assert told.exit_code == 0, told.output
    assert "From 3 past jobs" in told.output


@pytest.mark.parametrize(
    ("file", "text", "told"),
    [
        ("prices.toml", "format = 1\nmargin = 1.0\n", r"prices.toml, line 2, column 1, margin"),
        ("prices.toml", 'format = 1\ncurrency = "EUR"\n', "expected DKK"),
        (
            "prices.toml",
            'format = 1\nrisk = { "bond the facing" = 0.1 }\n',
            "prices.toml, line 2, risk.bond the facing",
        ),
        ("own-times.toml", "format = 2\n", "own-times.toml"),
        ("job.taken.toml", 'format = 1\n[[time]]\nstep = "7.7-01"\nminutes = 5\n', "job.taken.toml, line 3"),
        ("job.taken.toml", 'format = 1\n[[taken]]\nmaterial = "oak"\namount = 5\n', "job.taken.toml, line 3"),
        ("job.taken.toml", "format = 1\n[[time]]\nminutes = 5\n", "work or step"),
    ],
)
def test_a_slip_in_any_of_the_files_is_named(run, tmp_path, file, text, told):
    (tmp_path / file).write_text(text, encoding="utf-8")
    found = run("after" if "taken" in file else "price", "job.toml")
    assert found.exit_code != 0
    assert told in str(found.exception)


def test_the_example_is_priced_whole(run):
    told = run("price", EXAMPLES / "glaze-room.toml")
    assert told.exit_code == 0, told.output
