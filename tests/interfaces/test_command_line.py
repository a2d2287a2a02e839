"""The command line as a maker meets it: exit codes, plain sentences, whole files."""

import json
import subprocess
import sys
from pathlib import Path

import pytest
from typer.testing import CliRunner

from evenface import __version__
from evenface.interfaces.command_line import app, run

EXAMPLES = Path(__file__).parents[2] / "examples"
SHELF = EXAMPLES / "one-shelf.toml"


def call(*arguments: str) -> tuple[int, str]:
    answer = CliRunner().invoke(app, list(arguments))
    return answer.exit_code, answer.output


def called_as_a_program(*arguments: str, monkeypatch: pytest.MonkeyPatch) -> int:
    monkeypatch.setattr(sys, "argv", ["evenface", *arguments])
    with pytest.raises(SystemExit) as ended:
        run()
    return int(ended.value.code or 0)


def test_version_is_answered_without_opening_the_house() -> None:
    code = (
        "import sys; sys.argv = ['evenface', '--version']; from evenface.__main__ import main; main();"
        "heavy = {'typer', 'rich', 'numpy', 'pydantic'} & sys.modules.keys(); sys.exit(bool(heavy))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout) == (0, f"evenface {__version__}\n")


def test_checking_a_sound_job_ends_with_0() -> None:
    code, output = call("check", str(SHELF))
    assert code == 0
    assert "note" in output


def test_a_job_that_cannot_be_made_ends_with_1(tmp_path: Path) -> None:
    broken = tmp_path / "job.toml"
    broken.write_text(SHELF.read_text(encoding="utf-8").replace("800, 250", "800, 5"), encoding="utf-8")
    code, output = call("check", str(broken))
    assert code == 1
    assert "Stop" in output
    assert "no carrier is left" in " ".join(output.split())


def test_a_job_that_cannot_be_made_is_still_printed_with_the_reason(tmp_path: Path) -> None:
    broken = tmp_path / "job.toml"
    broken.write_text(SHELF.read_text(encoding="utf-8").replace("800, 250", "800, 5"), encoding="utf-8")
    code, _ = call("plan", str(broken), "--out", str(tmp_path / "out"))
    assert code == 1
    result = json.loads((tmp_path / "out" / "result.json").read_text(encoding="utf-8"))
    assert "carrier.none_left" in {finding["code"] for finding in result["findings"]}
    assert (tmp_path / "out" / "packet.pdf").stat().st_size > 1000


def test_a_file_that_cannot_be_read_ends_with_2_in_one_line(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "out"
    missing = str(tmp_path / "none.toml")
    assert called_as_a_program("plan", missing, "--out", str(out), monkeypatch=monkeypatch) == 2
    told = capsys.readouterr().err
    assert told.count("\n") == 1
    assert "nothing of that name" in told
    assert not out.exists()


def test_every_complaint_of_a_file_is_a_line_of_its_own(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    broken = tmp_path / "job.toml"
    text = SHELF.read_text(encoding="utf-8").replace('"ash"', '"ahs"').replace("pva-d3", "pva-d9")
    broken.write_text(text, encoding="utf-8")
    assert called_as_a_program("check", str(broken), monkeypatch=monkeypatch) == 2
    lines = capsys.readouterr().err.splitlines()
    assert len(lines) == 2
    assert all("line " in line and "job.toml" in line for line in lines)


def test_findings_as_json_are_nothing_but_json() -> None:
    code, output = call("check", str(SHELF), "--json")
    told = json.loads(output)
    assert code == 0
    assert {"code", "severity", "where", "message", "remedies"} <= told["findings"][0].keys()


def test_planning_writes_the_whole_packet(tmp_path: Path) -> None:
    code, output = call("plan", str(SHELF), "--out", str(tmp_path / "out"))
    assert code == 0
    assert "packet.pdf" in output
    out = tmp_path / "out"
    assert (out / "packet.pdf").read_bytes().startswith(b"%PDF")
    result = json.loads((out / "result.json").read_text(encoding="utf-8"))
    (part,) = result["parts"]
    # by heart: 800 × 250, 10 mm of ash in front, 0.8 laminate on both faces of 17.7 mm plywood
    assert part["finished_mm"] == [800, 250, pytest.approx(17.7 + 2 * 0.9)]
    by_role = {(layer["role"], layer["edge"]): layer for layer in part["layers"]}
    assert by_role["carrier", None]["net_mm"][:2] == [800, 240]
    assert by_role["face", None]["net_mm"][:2] == [800, 250]
    assert by_role["face", None]["blank_mm"][:2] == [810, 260]
    assert by_role["edging", "front"]["net_mm"] == [800, 10, pytest.approx(17.7)]
    assert (out / "parts.csv").read_text(encoding="utf-8-sig").count("\n") >= 5
    assert list((out / "drawings").glob("*.svg"))


def test_what_was_made_is_read_beside_the_job(tmp_path: Path) -> None:
    job = tmp_path / "shelf.toml"
    job.write_text(SHELF.read_text(encoding="utf-8"), encoding="utf-8")
    (tmp_path / "shelf.made.toml").write_text(
        "format = 1\n[thickness]\nbirch-ply-18 = 17.3\n", encoding="utf-8"
    )
    call("plan", str(job), "--out", str(tmp_path / "out"))
    result = json.loads((tmp_path / "out" / "result.json").read_text(encoding="utf-8"))
    assert result["parts"][0]["finished_mm"][2] == pytest.approx(17.3 + 1.8)


def test_the_maker_s_own_materials_are_read_beside_the_job(tmp_path: Path) -> None:
    job = tmp_path / "shelf.toml"
    text = SHELF.read_text(encoding="utf-8").replace('"birch-ply-18"', '"my-board"')
    job.write_text(text, encoding="utf-8")
    figure = '{ value = 18.2, unit = "mm", status = "measured", source = "my calliper" }'
    own = f'[carrier."my-board"]\nlike = "mdf-18"\nthickness = {figure}\n'
    (tmp_path / "materials.toml").write_text(own, encoding="utf-8")
    code, output = call("check", str(job))
    assert code == 0, output


def test_a_folder_that_cannot_be_written_is_a_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("in the way", encoding="utf-8")
    assert called_as_a_program("plan", str(SHELF), "--out", str(blocked), monkeypatch=monkeypatch) == 2
    told = capsys.readouterr().err
    assert "Traceback" not in told
    assert str(blocked) in told.replace("\n", "")


def test_inches_are_shown_when_asked_for(tmp_path: Path) -> None:
    large = tmp_path / "job.toml"
    large.write_text(SHELF.read_text(encoding="utf-8").replace("800, 250", "5080, 5080"), encoding="utf-8")
    _, output = call("check", str(large), "--units", "inch")
    told = " ".join(output.split())
    assert "200 25/64 in" in told  # 5080 mm and 5 over at each end
    assert "5090 mm" not in told


def test_materials_are_listed_and_explained() -> None:
    code, output = call("materials", "--kind", "glue")
    assert code == 0
    assert "pva-d3" in output
    code, output = call("materials", "hpl-0.8")
    assert code == 0
    assert "memory" in output


def test_an_unknown_material_names_the_nearest(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    assert called_as_a_program("materials", "hpl-0.88", monkeypatch=monkeypatch) == 2
    assert "hpl-0.8" in capsys.readouterr().err


@pytest.mark.parametrize("command", [[], ["plan"], ["check"], ["materials"]])
def test_help_teaches_every_command_and_option(command: list[str]) -> None:
    code, output = call(*command, "--help")
    assert code == 0
    assert len(output.split()) > 20
