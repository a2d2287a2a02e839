"""A sketch that remembers the one before it must say exactly what a fresh one says."""

import os
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.construction.kinds import KINDS
from evenface.errors import FileError
from evenface.finding import Change
from evenface.job.memory import Memory, Remembering
from evenface.job.opening import Opened
from evenface.job.sketch import sketch
from evenface.materials import load_catalogue
from evenface.piece import read_job
from evenface.piece.editing import apply_changes
from evenface.piece.records import NOTHING_MADE, Job

EXAMPLE = (Path(__file__).parents[2] / "examples" / "glaze-room.toml").read_text(encoding="utf-8")
CATALOGUE = load_catalogue(None)
PATHS = {
    "piece[0].panel[0].size[0]": st.integers(900, 1900).map(str),
    "piece[1].panel[2].size[1]": st.integers(90, 200).map(str),
    "piece[2].panel[0].count": st.integers(1, 5).map(str),
    "piece[0].panel[0].corners.radius": st.integers(0, 120).map(str),
    "buildup.bench.edging.width": st.integers(6, 40).map(str),
    "buildup.door.carrier": st.sampled_from(["mdf-19", "birch-ply-18"]),
    "job.shop_humidity": st.sampled_from(["35 %", "60 %"]),
    "job.name": st.sampled_from(["Glaze room", "Kiln room"]),
    "saw.trim": st.integers(0, 20).map(str),
    "shop.cutter": st.sampled_from(["8", "12.7"]),
    "piece[2].panel[2].name": st.sampled_from(["shelf", "top shelf"]),
}
EDIT = st.sampled_from(sorted(PATHS)).flatmap(lambda path: PATHS[path].map(lambda new: Change(path, "", new)))


def opened(text):
    return Opened(read_job(text, "", CATALOGUE, KINDS), NOTHING_MADE, CATALOGUE, {})


def remembered_and_fresh_are_equal(text, edits):
    """After each edit, until one leaves a job that cannot be read."""
    memory = Memory()
    sketch(opened(text), with_band=False, memory=memory)
    for edit in edits:
        text = apply_changes(text, [edit])
        try:
            now = opened(text)
        except FileError:
            return
        assert sketch(now, with_band=False, memory=memory) == sketch(now, with_band=False)


@settings(max_examples=20)
@given(edits=st.lists(EDIT, min_size=1, max_size=6))
def test_remembered_and_fresh_sketches_are_equal(edits):
    remembered_and_fresh_are_equal(EXAMPLE, edits)


def test_flatness_is_remembered_too_and_the_same():
    memory = Memory()
    sketch(opened(EXAMPLE), memory=memory)
    now = opened(apply_changes(EXAMPLE, [Change("piece[1].panel[0].size[0]", "", "1444")]))
    before = memory.misses
    remembered = sketch(now, memory=memory)
    assert memory.misses - before == 6  # its piece, and of the panel: built, part, checks, year, flatness
    assert remembered == sketch(now)


def test_an_unchanged_job_costs_nothing():
    memory = Memory()
    first = sketch(opened(EXAMPLE), with_band=False, memory=memory)
    before = memory.misses
    assert sketch(opened(EXAMPLE), with_band=False, memory=memory) == first
    assert memory.misses == before


@pytest.mark.parametrize("path", ["saw.trim", "allowances.overhang", "shop.cutter", "job.shop_humidity"])
def test_a_change_of_what_every_panel_rests_on_forgets_all(path):
    memory = Memory()
    sketch(opened(EXAMPLE), with_band=False, memory=memory)
    hits = memory.hits
    sketch(
        opened(apply_changes(EXAMPLE, [Change(path, "", "4" if "humidity" not in path else "44 %")])),
        with_band=False,
        memory=memory,
    )
    assert memory.hits == hits


ROOM = (Path(__file__).parents[2] / "examples" / "whole-room.toml").read_text(encoding="utf-8")
ROOM_PATHS = {
    "piece[0].panel[0].size[0]": st.integers(1500, 1900).map(str),
    "piece[1].size[0]": st.integers(1500, 1800).map(str),
    "piece[2].size[0]": st.integers(1400, 1800).map(str),
    "piece[2].name": st.sampled_from(["Wall cupboard", "Cupboard at the wall"]),
    "piece[2].count": st.sampled_from(["1", "2"]),
    "piece[3].size[1]": st.integers(690, 760).map(str),
    "job.room": st.sampled_from(["heated-home", "workshop"]),
}
ROOM_EDIT = st.sampled_from(sorted(ROOM_PATHS)).flatmap(
    lambda path: ROOM_PATHS[path].map(lambda new: Change(path, "", new))
)


@settings(max_examples=6, deadline=None)
@given(edits=st.lists(ROOM_EDIT, min_size=2, max_size=4))
def test_whole_pieces_are_remembered_and_the_same(edits):
    remembered_and_fresh_are_equal(ROOM, edits)


def test_a_piece_that_was_left_alone_for_a_while_still_knows_its_panels():
    memory, text = Memory(), ROOM
    sketch(opened(text), with_band=False, memory=memory)
    for size in ("1710", "1720", "1730"):
        text = apply_changes(text, [Change("piece[0].panel[0].size[0]", "", size)])
        sketch(opened(text), with_band=False, memory=memory)
    text = apply_changes(text, [Change("piece[2].bay[0].row[0].shelves", "", "3")])
    before = memory.misses
    now = opened(text)
    assert sketch(now, with_band=False, memory=memory) == sketch(now, with_band=False)
    assert memory.misses - before == 4  # the piece, and of its one shelf: built, part, checks


def test_a_log_written_anew_beside_the_job_is_seen(tmp_path):
    file = tmp_path / "room.toml"
    log = tmp_path / "log.csv"
    log.write_text("first")
    job = Job(1, "", {}, (), file=str(file), logger="log.csv")
    state = Opened(job, NOTHING_MADE, CATALOGUE, {})
    memory = Memory()
    Remembering(memory, state)
    memory.recall("anything", 1, lambda: 1)
    Remembering(memory, state)
    assert memory.recall("anything", 1, lambda: 2) == 1
    os.utime(log, ns=(1, 1))
    Remembering(memory, state)
    assert memory.recall("anything", 1, lambda: 3) == 3
