"""`evenface choose` and `evenface compare` as they are called."""

import json
from pathlib import Path

from typer.testing import CliRunner

from evenface.interfaces.command_line import app

EXAMPLE = Path(__file__).parents[2] / "examples" / "glaze-room.toml"
RUN = CliRunner()


def test_a_named_use_needs_no_job():
    told = RUN.invoke(app, ["choose", "--for", "wet room"])
    assert told.exit_code == 0
    assert "ruled out" in told.output


def test_the_page_for_clients_is_written(tmp_path):
    told = RUN.invoke(app, ["choose", "--explain", "--out", str(tmp_path)])
    assert told.exit_code == 0
    assert (tmp_path / "what-is-what.pdf").read_bytes().startswith(b"%PDF")


def test_the_variants_of_the_example_are_compared(tmp_path):
    told = RUN.invoke(
        app,
        [
            "compare",
            str(EXAMPLE),
            "--piece",
            "Glazing bench",
            "--seconds",
            "0.2",
            "--out",
            str(tmp_path),
            "--json",
        ],
    )
    rows = json.loads(told.stdout)["variants"]
    assert rows[0]["name"] == "as it is"
    assert len(rows) == 4
    assert {one.name for one in tmp_path.iterdir()} == {"variants.json", "variants.pdf", "variants.svg"}


def test_remedies_are_tried_and_the_one_that_clears_most_stands_first(tmp_path, monkeypatch):
    text = Path("examples/glaze-room.toml").read_text(encoding="utf-8")
    (tmp_path / "job.toml").write_text(
        text.replace('width = 22, cut = "quarter"', 'width = 14, cut = "quarter"'), encoding="utf-8"
    )
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "200")
    told = CliRunner().invoke(app, ["check", "job.toml", "--try"])
    assert told.exit_code == 1
    table = told.output[told.output.index("Remedies tried, the best first") :].splitlines()
    assert "wide" in table[2]
    assert "Glazing bench, top" in table[2]
    assert any("Clip the carrier" in line for line in table[3:])
