"""`evenface cutting`: rail, knife and shears, merchant, sizes that save a sheet, all by the keys of the job."""

import pytest
from typer.testing import CliRunner

from evenface.interfaces.command_line import app
from evenface.interfaces.cutting import lists_of
from evenface.job.opening import open_with_all
from evenface.job.plan import plan
from evenface.layouts import breakpoints
from evenface.words import ENGLISH

JOB = """format = 1
[job]
name = "Drying rack"
[cutting]
rail = 1400
shears = 900
merchant = { kerf = 4.4, sheet_trim = 12, piece_trim = 6, least_strip = 80 }
[[stock]]
material = "birch-ply-18"
size = [1500, 750]
[[stock]]
material = "linoleum-2"
width = 2000
[buildup.shelf]
carrier = "birch-ply-18"
face = "linoleum-2"
back = "linoleum-2"
glue = "pva-d3"
[[piece]]
name = "Rack"
[[piece.panel]]
name = "shelf"
use = "shelf"
buildup = "shelf"
size = [1400, 370]
count = 2
"""


@pytest.fixture(scope="module")
def result(tmp_path_factory):
    job = tmp_path_factory.mktemp("job") / "rack.toml"
    job.write_text(JOB)
    return plan(open_with_all(job, None), budget_s=0.2)


def rows(result, which):
    return {one.title: one for one in lists_of(result, which, ENGLISH)}


def test_a_rail_cuts_boards_and_is_laid_down_as_often_as_it_is_too_short(result):
    listed = rows(result, "rail")
    assert all("inoleum" not in title for title in listed)
    for table in listed.values():
        for _, tool, _, _, _, start, end, *_ in table.rows:
            longer = float(end) - float(start) > 1400
            assert (tool != "rail") is longer
    assert any(tool == "rail, 2 lengths" for table in listed.values() for _, tool, *_ in table.rows)


def test_knife_and_shears_cut_facings(result):
    listed = rows(result, "shears")
    assert listed
    assert all("inoleum" in title for title in listed)
    for table in listed.values():
        for _, tool, _, _, _, start, end, *_ in table.rows:
            assert tool == ("shears" if float(end) - float(start) <= 900 else "knife")


def test_the_merchant_cuts_larger_all_round_with_his_own_kerf(result):
    (table,) = rows(result, "merchant").values()
    (board,) = [one for one in result.layouts if one.material == "birch-ply-18"]
    piece = board.sheets[0].placed[0]
    told = [(float(long), float(wide)) for _, long, wide, _, _ in table.rows]
    assert told == [(piece.length / 100 + 12, piece.width / 100 + 12)]
    assert [int(row[0]) for row in table.rows] == [2]
    assert "4.4" in table.note
    assert table.rows[0][4] == "Rack: shelf"


def test_the_nearest_size_that_saves_a_sheet(result):
    """Two shelves 370 wide need two sheets of 750 less trims; 730 less a kerf of 3.2, halved, goes on one."""
    table, more = rows(result, "sizes").values()
    assert more.rows == () or {row[3] for row in more.rows}
    (board,) = [one for one in result.layouts if one.material == "birch-ply-18"]
    assert board.bought.count == 2
    trim, width = board.sheets[0].trim / 100, board.sheets[0].placed[0].width / 100
    most = (750 - 2 * trim - 3.2) / 2
    ((_, parts, way, smaller, size, saved, sure),) = [row for row in table.rows if row[2] == "width"]
    assert (parts, saved, sure) == ("Rack: shelf", "1", "no nearer size does it")
    assert float(size) == pytest.approx(most, abs=0.051)
    assert float(smaller) == pytest.approx(width - most, abs=0.051)
    assert way == "width"


def test_the_command_shows_a_list_and_names_an_unknown_one(tmp_path):
    job = tmp_path / "rack.toml"
    job.write_text(JOB)
    runner = CliRunner()
    shown = runner.invoke(app, ["cutting", str(job), "--list", "merchant", "--seconds", "0.2"])
    assert shown.exit_code in (0, 1)
    assert "By the merchant's saw" in shown.output
    wrong = runner.invoke(app, ["cutting", str(job), "--list", "axe"])
    assert wrong.exit_code != 0
    assert "saw, rail, shears, merchant, sizes" in str(wrong.exception)


def test_of_many_sizes_it_is_said_which_were_not_tried(result, monkeypatch):
    monkeypatch.setattr(breakpoints, "MOST_PLANNED", 1)
    notes = [one.note for one in rows(result, "sizes").values()]
    assert not any("largest of" in note for note in notes), "one size alone is always tried"
    monkeypatch.setattr(breakpoints, "_of_one_size", lambda blanks: [[n] for n in range(len(blanks))] * 2)
    notes = [one.note for one in rows(result, "sizes").values()]
    assert all("the 1 largest of 2 sizes are tried." in note for note in notes)


def test_stickers_for_the_parts_are_written_as_pdf(tmp_path):
    job = tmp_path / "rack.toml"
    job.write_text(JOB)
    words = ["cutting", str(job), "--seconds", "0.2", "--labels", str(tmp_path / "labels.pdf")]
    shown = CliRunner().invoke(app, words)
    assert shown.exit_code in (0, 1)
    assert "labels.pdf" in shown.output.replace("\n", "")
    assert (tmp_path / "labels.pdf").read_bytes().startswith(b"%PDF")
    assert CliRunner().invoke(app, [*words, "--skip", "24"]).exit_code != 0
