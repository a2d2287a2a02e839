"""A sketch that remembers the one before it must say exactly what a fresh one says."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.construction.kinds import KINDS
from evenface.errors import FileError
from evenface.finding import Change
from evenface.job.memory import Memory
from evenface.job.opening import Opened
from evenface.job.sketch import sketch
from evenface.materials import load_catalogue
from evenface.piece import read_job
from evenface.piece.editing import apply_changes
from evenface.piece.records import NOTHING_MADE

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


@settings(max_examples=20)
@given(edits=st.lists(EDIT, min_size=1, max_size=6))
def test_remembered_and_fresh_sketches_are_equal(edits):
    memory, text = Memory(), EXAMPLE
    sketch(opened(text), with_band=False, memory=memory)
    for edit in edits:
        text = apply_changes(text, [edit])
        try:
            now = opened(text)
        except FileError:
            return
        assert sketch(now, with_band=False, memory=memory) == sketch(now, with_band=False)


def test_flatness_is_remembered_too_and_the_same():
    memory = Memory()
    sketch(opened(EXAMPLE), memory=memory)
    now = opened(apply_changes(EXAMPLE, [Change("piece[1].panel[0].size[0]", "", "1444")]))
    before = memory.misses
    remembered = sketch(now, memory=memory)
    assert memory.misses - before == 5  # one panel: built, part, checks, year, flatness
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
