"""`evenface rack ...` and `evenface plan --from-rack`, from the command line to what lies in the rack."""

import json
import re
from decimal import Decimal
from pathlib import Path

import pytest
from interfaces.rack_job import JOB
from typer.testing import CliRunner

from evenface.errors import EvenfaceError, FileError, MissingWord
from evenface.interfaces.command_line import app
from evenface.store import RackError, RackItem, Taken
from evenface.store.rack import Rack

MONEY = {"currency": "DKK"}


@pytest.fixture
def run(tmp_path, monkeypatch):
    """Runs the command line in an empty folder with an empty rack."""
    monkeypatch.setenv("COLUMNS", "200")
    monkeypatch.setenv("EVENFACE_HOME", str(tmp_path / "home"))
    monkeypatch.setenv("EVENFACE_PERSON", "Ida")
    monkeypatch.delenv("EVENFACE_RACK", raising=False)
    monkeypatch.chdir(tmp_path)
    (tmp_path / "job.toml").write_text(JOB, encoding="utf-8")

    def running(*words):
        return CliRunner().invoke(app, [str(word) for word in words])

    return running


@pytest.fixture
def rack(run):
    with Rack() as made:
        yield made


def codes(text):
    return re.findall(r"\b[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}\b", text)


def good(told):
    assert told.exit_code == 0, told.output + repr(told.exception)
    return told.output


def bad(told, error=EvenfaceError):
    assert isinstance(told.exception, error), told.output
    return str(told.exception)


def test_a_sheet_from_delivery_to_offcut_and_back(run):
    assert "Nothing of that is in the rack" in good(run("rack", "list"))
    told = good(
        run(
            "rack",
            "receive",
            "mdf-19",
            "--size",
            "2440x1220",
            "--copies",
            2,
            "--thickness",
            "18.8 mm",
            "--place",
            "bay 1",
        )
    )
    one, other = codes(told)
    assert "2440 × 1220 × 18.8" in told
    good(run("rack", "reserve", "job.toml", one))
    assert "reserved for Tool board" in good(run("rack", "list"))
    assert codes(good(run("rack", "list", "--job", "job.toml"))) == [one]
    assert "is reserved for Tool board" in bad(run("rack", "cut", one, "--nothing-left"), Taken)
    told = good(
        run(
            "rack",
            "cut",
            one,
            "--job",
            "job.toml",
            "--rest",
            "1000x600",
            "--rest",
            "300 x 1220",
            "--place",
            "shelf",
        )
    )
    rests = [code for code in codes(told) if code != one]
    assert len(rests) == 2
    found = good(run("rack", "find", rests[0].lower().replace("-", " ")))
    assert "place: shelf" in found
    assert f"cut from: {one}" in found
    assert "39 3/8 × 23 5/8 in" in good(run("rack", "find", rests[0], "--units", "inch"))
    assert "for Tool board" not in good(run("rack", "list", "--state", "all"))
    good(run("rack", "spoil", other, "--note", "forklift"))
    listed = good(run("rack", "list", "--state", "all"))
    assert "2 rests were booked in" in listed
    assert [
        line.split()[1]
        for line in listed.splitlines()
        if line.startswith(("received", "free", "cut", "spoiled"))
    ] == [*("2", "2", "1", "1")]
    assert "forklift" in good(run("rack", "log"))
    assert f"Undone: spoil of {other}" in good(run("rack", "undo"))
    assert f"Undone: cut of {one}" in good(run("rack", "undo"))
    assert codes(good(run("rack", "list", "--job", "Tool board"))) == [one]
    good(run("rack", "release", one))
    assert "free" in good(run("rack", "find", other))


def test_undo_is_of_ones_own_unless_told_otherwise(run, monkeypatch):
    (one,) = set(codes(good(run("rack", "receive", "mdf-19", "--size", "600x400"))))
    monkeypatch.setenv("EVENFACE_PERSON", "Bo")
    assert "nothing to undo of Bo" in bad(run("rack", "undo"), RackError)
    assert f"Undone: receive of {one}" in good(run("rack", "undo", "--anyone"))


def test_what_is_known_is_put_right_and_cleared(run, tmp_path):
    (one,) = set(
        codes(
            good(
                run(
                    "rack",
                    "receive",
                    "ash",
                    "--form",
                    "board",
                    "--size",
                    "2400x200",
                    "--thickness",
                    34,
                    "--price",
                    "90,50",
                    "--currency",
                    "EUR",
                )
            )
        )
    )
    (tmp_path / "p.png").write_bytes(b"\x89PNG\r\n\x1a\n")
    good(
        run(
            "rack",
            "correct",
            one,
            "--moisture",
            "8.5",
            "--place",
            "loft",
            "--defects",
            "knot 60 x 40 at 900 x 50",
            "--photo",
            "p.png",
        )
    )
    found = good(run("rack", "find", one))
    for told in (
        "moisture: 8.5 %",
        "place: loft",
        "defect: knot at 900, 50 mm",
        "price: €90.50",
        "photo: ",
        "-1.png",
    ):
        assert told in found
    good(run("rack", "correct", one, "--place", "", "--moisture", "", "--defects", ""))
    found = good(run("rack", "find", one))
    assert "place" not in found
    assert "moisture" not in found
    assert "defect" not in found
    assert "at least one option" in bad(run("rack", "correct", one))


def test_slips_are_named_and_nothing_is_booked(run):
    assert "'mdf-19'" in bad(run("rack", "receive", "mdf19", "--size", "600x400"), MissingWord)
    assert "--size: expected two sizes" in bad(run("rack", "receive", "mdf-19", "--size", "600"), FileError)
    assert "--grain: expected one of along, across, none" in bad(
        run("rack", "receive", "mdf-19", "--size", "600x400", "--grain", "lengthways"), FileError
    )
    assert "currency: expected one" in bad(
        run("rack", "receive", "mdf-19", "--size", "600x400", "--price", "1"), RackError
    )
    assert "thickness: expected one for a stick" in bad(
        run("rack", "receive", "ash", "--size", "600x40", "--form", "stick")
    )
    assert "--state" in bad(run("rack", "list", "--state", "lost"), FileError)
    (one,) = set(codes(good(run("rack", "receive", "mdf-19", "--size", "600x400"))))
    assert "No plan says what is left" in bad(run("rack", "cut", one))
    assert "expected one of them" in bad(run("rack", "cut", one, "--rest", "1x1", "--nothing-left"))
    assert "lies inside" in bad(run("rack", "cut", one, "--rest", "601x1"), RackError)
    assert "given twice" in bad(run("rack", "reserve", "Tool board", one, one))
    assert "Nothing in the rack has the code" in bad(run("rack", "find", "K7F3-2MQT"))
    assert "wrong sign" in bad(run("rack", "spoil", "K7F3-2MQX"))
    assert good(run("rack", "log")).count("receive") == 1


@pytest.mark.parametrize("name", ["rack.csv", "rack.xlsx"])
def test_out_and_in_again_with_a_look_before(run, tmp_path, monkeypatch, name):
    good(run("rack", "receive", "mdf-19", "--size", "2440x1220", "--copies", 3, "--place", "=bay"))
    before = good(run("rack", "list"))
    assert "3 items" in good(run("rack", "export", name))
    assert "0 new, 0 corrected, 3 as they are" in good(run("rack", "import", name))
    monkeypatch.setenv("EVENFACE_HOME", str(tmp_path / "other"))
    told = good(run("rack", "import", name))
    assert "3 new, 0 corrected" in told
    assert "Nothing was changed yet" in told
    assert "Nothing of that is in the rack" in good(run("rack", "list"))
    assert "Booked in as action 1" in good(run("rack", "import", name, "--write"))
    assert good(run("rack", "list")) == before
    assert "expected a name that ends in .csv or .xlsx" in bad(run("rack", "export", "rack.ods"), FileError)


def test_an_import_with_a_slip_changes_nothing(run, tmp_path):
    (tmp_path / "in.csv").write_text("form,material,length,width\nsheet,mdf-19,1,1\nsheet,mdf-91,1,1\n")
    assert "in.csv, line 3, column 2, material" in bad(run("rack", "import", "in.csv", "--write"), FileError)
    assert "Nothing of that is in the rack" in good(run("rack", "list"))


def test_labels_and_backup_are_written(run, tmp_path):
    assert "nothing in the rack to print" in bad(run("rack", "labels", "l.pdf"))
    one, _ = codes(good(run("rack", "receive", "mdf-19", "--size", "2440x1220", "--copies", 2)))
    assert "2 labels" in good(run("rack", "labels", "all.pdf"))
    assert "1 labels" in good(run("rack", "labels", "one.pdf", one, "--skip", 5))
    assert (tmp_path / "one.pdf").read_bytes().startswith(b"%PDF")
    told = good(run("rack", "backup", "kept"))
    (made,) = (tmp_path / "kept").iterdir()
    assert made.name in told
    assert (made / "rack.sqlite3").stat().st_size > 0


def test_a_plan_takes_the_rack_and_reserves_it(run, tmp_path, rack):
    sheet, _ = rack.receive(
        [RackItem("sheet", "mdf-19", 244_000, 122_000, 1_880, price=Decimal(310), place="bay 1", **MONEY)] * 2
    )
    told = good(run("plan", "job.toml", "--from-rack", "--out", "out", "--seconds", 0.5))
    assert "Reserved in the rack" in told
    (held,) = rack.items(job="Tool board")
    assert held.material == "mdf-19"
    assert held.planned
    result = json.loads((tmp_path / "out" / "result.json").read_text(encoding="utf-8"))
    assert "rack" in result["hashes"]
    assert not [row for row in result["buying"] if row["material"] == "mdf-19"]  # it is not bought
    told = good(run("rack", "cut", held.code, "--job", "job.toml"))
    assert len(codes(told)) == 1 + len(held.planned)
    rests = [one for one in rack.items(states=("free",)) if one.parent]
    assert {(one.length, one.width) for one in rests} == {(one.length, one.width) for one in held.planned}
    assert sheet.code in {one.code for one in rack.items()}


def test_a_plan_without_the_rack_is_as_it_was(run, rack, tmp_path):
    rack.receive([RackItem("sheet", "mdf-19", 244_000, 122_000, price=Decimal(1), **MONEY)])
    good(run("plan", "job.toml", "--out", "out", "--seconds", 0.3))
    assert not rack.items(states=("reserved",))
    drawings = sorted((tmp_path / "out" / "drawings").iterdir())
    good(run("rack", "export", "out/rack.csv"))
    assert sorted((tmp_path / "out" / "drawings").iterdir()) == drawings  # a table beside them touches none
    assert drawings
    assert "rack" not in json.loads((tmp_path / "out" / "result.json").read_text(encoding="utf-8"))["hashes"]


def test_the_help_names_every_command(run):
    told = good(run("rack", "--help"))
    for word in (
        "list",
        "receive",
        "find",
        "reserve",
        "cut",
        "spoil",
        "undo",
        "import",
        "export",
        "labels",
        "backup",
    ):
        assert f"\n  {word}" in told
    assert Path("job.toml").is_file()
