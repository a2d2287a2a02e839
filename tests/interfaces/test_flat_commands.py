"""`flat`, `backers`, `limit` and `calibrate` as a maker meets them: exit codes, tables, files, plain sentences."""

import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from evenface.documents.result_json import read_result, result_text
from evenface.errors import EvenfaceError
from evenface.interfaces.command_line import app
from evenface.job.opening import open_with_all
from evenface.job.plan import plan
from evenface.job.sketch import sketch
from evenface.materials import load_catalogue

BENCH = """format = 1
[job]
name = "Glaze room"
place = "copenhagen"
room = "heated-home"
currency = "DKK"
[[stock]]
material = "birch-ply-18"
size = [2500, 1250]
price = 625
[[stock]]
material = "hpl-0.8"
size = [3050, 1300]
price = 793
[buildup.bench]
face = "hpl-0.8"
carrier = "birch-ply-18"
glue = "pva-d3"
[buildup.even]
face = "hpl-0.8"
back = "hpl-0.8"
carrier = "mdf-18"
glue = "polyurethane"
[[piece]]
name = "Glazing bench"
  [[piece.panel]]
  name = "top"
  use = "top"
  buildup = "bench"
  size = [1800, 650]
  [[piece.panel]]
  name = "loose shelf"
  use = "shelf"
  buildup = "even"
  size = [760, 310]
"""


@pytest.fixture
def bench(tmp_path: Path) -> Path:
    file = tmp_path / "bench.toml"
    file.write_text(BENCH, encoding="utf-8")
    return file


def call(*arguments: object) -> tuple[int, str]:
    answer = CliRunner().invoke(app, [str(one) for one in arguments], env={"COLUMNS": "200"})
    return answer.exit_code, answer.output


def refused(*arguments: object) -> str:
    answer = CliRunner().invoke(app, [str(one) for one in arguments])
    assert isinstance(answer.exception, EvenfaceError), answer.output
    return str(answer.exception)


# --- flat ------------------------------------------------------------------------------------------------


def test_flat_ends_with_1_when_a_part_may_go_beyond_and_0_when_not(bench: Path) -> None:
    code, output = call("flat", bench)
    assert code == 1
    assert "Glazing bench, top" in output
    assert "test panel decides" in " ".join(output.split())
    code, output = call("flat", bench, "--part", "loose shelf")
    assert code == 0
    assert "Sep 1" in output
    assert "Glazing bench, top" not in output


def test_flat_as_json_has_three_rows_a_part_and_nothing_else(bench: Path) -> None:
    code, output = call("flat", bench, "--json")
    told = json.loads(output)
    assert code == 1
    assert told["schema"] == "evenface-flatness-1"
    rows = told["flatness"]
    assert [row["direction"] for row in rows] == ["bow", "cup", "twist"] * 2
    keys = "piece part direction gauge_mm nominal_mm worst_mm month low_mm high_mm limit_mm evidence held force_n"
    assert list(rows[0]) == keys.split()
    assert rows[2]["nominal_mm"] is None
    assert rows[0]["worst_mm"] in (rows[0]["low_mm"], rows[0]["high_mm"])
    assert rows[0]["limit_mm"] == pytest.approx(2.0 * 1.8**2)


def test_a_chart_is_drawn_as_svg_or_png_and_as_nothing_else(bench: Path, tmp_path: Path) -> None:
    for name, begins in (("year.svg", b"<"), ("year.png", b"\x89PNG")):
        call("flat", bench, "--part", "top", "--plot", tmp_path / name)
        assert (tmp_path / name).read_bytes().startswith(begins)
    assert ".svg or .png" in refused("flat", bench, "--part", "top", "--plot", tmp_path / "year.pdf")
    assert "named by --part" in refused("flat", bench, "--plot", tmp_path / "two.svg")
    assert not (tmp_path / "year.pdf").exists()


def test_a_part_nobody_knows_is_named_with_the_nearest(bench: Path) -> None:
    assert "Glazing bench, top" in refused("flat", bench, "--part", "Glazing bench, tip")
    assert "no part" in refused("backers", bench, "--part", "lid")


# --- backers ---------------------------------------------------------------------------------------------


def test_backers_are_one_table_with_weight_and_cost_where_it_is_known(bench: Path) -> None:
    code, output = call("backers", bench, "--part", "top")
    assert code == 0
    rows = {line.split("  ")[0]: line for line in output.splitlines()}
    assert "DKK\xa0400.00" in rows["As it is"]  # 625 / 3.125 + 793 / 3.965
    assert "DKK\xa0600.00" in rows["The same sheet on both faces, in the same direction"]
    assert "no price" in rows["Linoleum on both faces"]
    wanted = (
        "turned",
        "0.6 mm on the back",
        "Backing laminate",
        "Balancing paper",
        "thicker",
        "MDF",
        "Condition",
    )
    assert all(any(word in row for row in rows) for word in wanted)


def test_laminate_under_linoleum_gets_its_answer_in_mm(bench: Path) -> None:
    bench.write_text(
        BENCH.replace('face = "hpl-0.8"\ncarrier = "birch', 'face = "linoleum-2"\ncarrier = "birch'),
        encoding="utf-8",
    )
    code, output = call("backers", bench, "--part", "top")
    assert code == 0
    assert any("Backing laminate 0.8 mm on the back" in line and "…" in line for line in output.splitlines())


# --- limit -----------------------------------------------------------------------------------------------


def test_limit_says_how_wide_which_reason_binds_and_what_the_trade_does() -> None:
    code, output = call("limit", "ash", "--thickness", "12", "--change", "-3")
    told = " ".join(output.split())
    assert code == 0
    for words in ("cup", "open mitre", "nothing that grows", "Common practice", "-3 %", "at any width"):
        assert words in told
    assert "ash" in refused("limit", "ashh")
    assert "quarter" in refused("limit", "ash", "--cut", "askew")
    assert "1 to 200 mm" in refused("limit", "ash", "--thickness", "0")
    assert "0.1 to 15 %" in refused("limit", "ash", "--change", "40")
    assert "atlantis" in refused("limit", "ash", "--place", "atlantis")


# --- calibrate -------------------------------------------------------------------------------------------

STRIPS = [
    "--carrier",
    "mdf-6",
    "--length",
    "600",
    "--along",
    "-4.7",
    "--across",
    "5.9",
    "--from",
    "33",
    "--to",
    "75",
    "--days",
    "14",
]


def test_calibrate_prints_an_entry_and_stores_it_once(tmp_path: Path) -> None:
    own = tmp_path / "materials.toml"
    own.write_text('[facing."linoleum-2"]\ncautions = ["Mine."]\n', encoding="utf-8")
    code, output = call("calibrate", "hpl-0.8", *STRIPS, "--write", own)
    assert code == 0
    assert '[facing."hpl-0.8"]' in output
    assert own.read_text(encoding="utf-8").startswith('[facing."linoleum-2"]\ncautions = ["Mine."]\n')
    sheet = load_catalogue(own).facing("hpl-0.8")
    assert sheet.expansion_along.status.value == "measured"
    assert sheet.expansion_along.nominal == pytest.approx(0.0035, rel=0.03)
    assert sheet.modulus_along == load_catalogue().facing("hpl-0.8").modulus_along
    before = own.read_bytes()
    assert "no entry for hpl-0.8 yet" in refused("calibrate", "hpl-0.8", *STRIPS, "--write", own)
    assert own.read_bytes() == before
    assert sorted(file.name for file in tmp_path.iterdir()) == ["materials.toml"]


def test_strips_that_have_not_settled_end_with_1() -> None:
    thick = ["birch-ply-18" if word == "mdf-6" else word for word in STRIPS]
    assert call("calibrate", "hpl-0.8", *thick)[0] == 1
    short = ["50" if word == "600" else word for word in STRIPS]
    assert "at least 200 mm" in refused("calibrate", "hpl-0.8", *short)


# --- the sketch and the result ----------------------------------------------------------------------------


def test_the_sketch_may_leave_flatness_for_later(bench: Path) -> None:
    opened = open_with_all(bench)
    later, whole = sketch(opened, with_band=False), sketch(opened)
    assert later.behaviours == ()
    assert len(whole.behaviours) == len(whole.parts) == 2
    assert {one.code for one in whole.findings} - {one.code for one in later.findings} >= {"flat.bow"}


def test_the_result_holds_flatness_and_is_read_back(bench: Path) -> None:
    result = plan(open_with_all(bench), budget_s=0.1)
    read = read_result(result_text(result))
    assert len(read.flatness) == 6
    assert read.flatness[0].direction == "bow"
    assert read.flatness[2].nominal_mm is None
    assert read.flatness[0].held == "free"
    assert read.flatness[0].force_n is None
