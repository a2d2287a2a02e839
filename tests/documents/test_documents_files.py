"""Writing: all or nothing, the result last, and a sentence when it cannot be done."""

import json
import os
from datetime import date

import pytest
from documents.glaze_room import SHELF, piece, result_of

from evenface.documents import files
from evenface.documents.files import WritingError, write_files, write_packet
from evenface.documents.pictures import pictures_of

OLD = {"parts.csv": b"old parts", "result.json": b"old result"}
NEW = {"parts.csv": b"new parts", "drawings/a.svg": b"new", "result.json": b"new result"}


def content(folder):
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def test_everything_is_written(tmp_path):
    result = result_of(piece("Rack", SHELF))
    places = write_packet(result, tmp_path / "out", date(2026, 3, 4))
    assert [p.relative_to(tmp_path / "out").as_posix() for p in places] == [
        "drawings/rack-shelf-plan.svg",
        "drawings/rack-shelf-section-front.svg",
        "drawings/rack-shelf-build-up.svg",
        "drawings/layout-birch-ply-1.svg",
        "drawings/layout-ash-1.svg",
        "drawings/layout-birch-ply-1.dxf",
        "drawings/layout-ash-1.dxf",
        "cuts.csv",
        "layouts.xlsx",
        "parts.csv",
        "plan.json",
        "packet.pdf",
        "result.json",
    ]
    written = content(tmp_path / "out")
    assert json.loads(written["result.json"])["files"] == [
        p.relative_to(tmp_path / "out").as_posix() for p in places
    ]
    assert written["packet.pdf"].startswith(b"%PDF")
    assert written["drawings/rack-shelf-plan.svg"].startswith(b"<svg")
    assert len(written) == len(places)


@pytest.mark.parametrize("stop", [KeyboardInterrupt, OSError("no space left on device")])
@pytest.mark.parametrize("at", [0, 1, 2])
def test_stopped_while_writing_the_old_files_stay(tmp_path, monkeypatch, stop, at):
    write_files(OLD, tmp_path)
    calls = []

    def flush(number):
        calls.append(number)
        if len(calls) == at + 1:
            raise stop

    monkeypatch.setattr(os, "fsync", flush)
    with pytest.raises((KeyboardInterrupt, WritingError)):
        write_files(NEW, tmp_path)
    assert content(tmp_path) == OLD


@pytest.mark.parametrize("at", [0, 1, 2])
def test_stopped_while_moving_every_file_is_whole_and_the_result_comes_last(tmp_path, monkeypatch, at):
    write_files(OLD, tmp_path)
    move, calls = os.replace, []

    def replace(source, target):
        calls.append(target)
        if len(calls) == at + 1:
            raise KeyboardInterrupt
        move(source, target)

    monkeypatch.setattr(os, "replace", replace)
    with pytest.raises(KeyboardInterrupt):
        write_files(NEW, tmp_path)
    found = content(tmp_path)
    assert found["result.json"] == b"old result"
    assert all(body in (OLD.get(name), NEW.get(name)) for name, body in found.items())


def test_a_file_held_open_is_a_sentence(tmp_path, monkeypatch):
    write_files(OLD, tmp_path)

    def held(source, target):
        raise PermissionError(13, "used by another process")

    monkeypatch.setattr(os, "replace", held)
    with pytest.raises(WritingError, match="open in another program"):
        write_files(NEW, tmp_path)
    assert content(tmp_path) == OLD


def test_a_file_where_the_folder_should_be(tmp_path):
    (tmp_path / "out").write_text("mine")
    with pytest.raises(WritingError, match="out"):
        write_files(NEW, tmp_path / "out")
    assert content(tmp_path) == {"out": b"mine"}


def test_a_folder_where_a_file_should_be(tmp_path):
    (tmp_path / "parts.csv").mkdir()
    (tmp_path / "result.json").write_bytes(b"old result")
    with pytest.raises(WritingError, match=r"parts\.csv is a folder"):
        write_files(NEW, tmp_path)
    assert content(tmp_path) == {"result.json": b"old result"}


def test_drawings_of_an_earlier_plan_go_and_nothing_else(tmp_path):
    named = ["drawings/gone.svg", "drawings/a.svg", "../outside.svg", "/etc/x.svg", "notes.svg", 7]
    (tmp_path / "out" / "drawings").mkdir(parents=True)
    for name in ("out/drawings/gone.svg", "out/drawings/mine.svg", "outside.svg", "out/notes.svg"):
        (tmp_path / name).write_bytes(b"x")
    (tmp_path / "out" / "result.json").write_text(json.dumps({"files": named}))
    write_files(NEW, tmp_path / "out")
    assert set(content(tmp_path)) == {
        "outside.svg",
        "out/notes.svg",
        "out/drawings/mine.svg",
        *(f"out/{name}" for name in NEW),
    }


def test_papers_name_the_result_last(glaze_room):
    made = files.papers(glaze_room, pictures_of(glaze_room), date(2026, 3, 4))
    assert list(made)[-1] == "result.json"
