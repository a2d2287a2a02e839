"""`evenface steps` as a maker meets it."""

from pathlib import Path

import pytest
from typer.testing import CliRunner

from evenface.errors import FileError
from evenface.interfaces.command_line import app

EXAMPLES = Path(__file__).parents[2] / "examples"


def call(*arguments):
    return CliRunner().invoke(app, ["steps", *map(str, arguments)])


@pytest.mark.parametrize("job", ["one-shelf.toml", "glaze-room.toml"])
def test_the_examples_are_ordered_without_a_breach_and_written(job, tmp_path):
    answer = call(EXAMPLES / job, "--start", "2027-01-11", "--out", tmp_path / "cards")
    assert answer.exit_code == 0, answer.output
    assert (tmp_path / "cards" / "bench-cards.pdf").read_bytes().startswith(b"%PDF")
    assert "no plan for one person is done before" in " ".join(answer.output.split())


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
