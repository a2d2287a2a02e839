"""Settings of blades and cutters: sums by hand, and a setting for every step at a machine."""

import math
from pathlib import Path

import jobs_by_hand as by_hand
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from workplan.pieces_by_file import steps_of
from workplan.random_panels import LINOLEUM, cutout, grip, insert, jobs, made

from evenface.construction import construct
from evenface.construction.kinds import KINDS
from evenface.job.opening import open_with_all
from evenface.parts import parts_of
from evenface.piece.records import Profile, Side
from evenface.words import say
from evenface.workplan import Work, derive_steps, panels_to_make, pieces_to_make
from evenface.workplan import cutters as c
from evenface.workplan.machining import machining_of, needs_machine
from evenface.workplan.machining_of_wood import OF_WOOD, joint_cutting

EXAMPLES = sorted(
    path for path in (Path(__file__).parents[2] / "examples").glob("*.toml") if path.name != "prices.toml"
)
CUTTING = ("cut", "rout", "trim", "flush", "mill", "clear", "level", "drill", "profile")
AT_MACHINES = [work for work in Work if work.value.startswith(CUTTING)]


def test_rim_speed_by_hand():
    # READ: 3000 to 6000 turns a minute at 100 mm are 15 to 30 m/s (15.7 and 31.4)
    assert c.rim_speed_m_s(100.0, 3000.0) == pytest.approx(15.708, abs=1e-3)
    assert c.turns_for(c.rim_speed_m_s(35.0, 18_000.0), 35.0) == pytest.approx(18_000.0)


@pytest.mark.parametrize(
    ("diameter", "turns"), [(6.0, 24_000), (25.0, 24_000), (25.1, 18_000), (57.0, 16_000), (89.0, 12_000)]
)
def test_rotation_limits_by_diameter(diameter, turns):
    """READ: a trade article's table."""
    assert c.most_turns(diameter) == turns


def test_beyond_the_table_the_rim_speed_of_its_last_row_is_kept():
    # π · 89 · 12 000 / 60 000 = 55.92 m/s; at 120 mm: 60 000 · 55.92 / (π · 120) = 8900
    assert c.most_turns(120.0) == pytest.approx(8900.0, abs=0.5)


@given(st.floats(1.0, 300.0), st.floats(1.0, 300.0))
@settings(max_examples=60)
def test_a_larger_cutter_never_turns_faster(one, other):
    small, large = sorted((one, other))
    assert c.most_turns(large) <= c.most_turns(small) + 1e-9


def test_feed_by_hand():
    # DERIVED: 0.04 mm × 4500 × 80 / 1000 = 14.4 m a minute
    assert c.feed_m_min(0.04, 4500.0, 80) == pytest.approx(14.4)
    assert c.tooth_mm(14.4, 4500.0, 80) == pytest.approx(0.04)


@pytest.mark.parametrize(
    ("depth", "wide", "count"), [(18.0, 12.0, 3), (9.0, 12.0, 2), (6.0, 12.0, 1), (8.0, 20.0, 1)]
)
def test_passes_are_no_deeper_than_half_the_cutter(depth, wide, count):
    made_of, each = c.passes(depth, wide)
    assert made_of == count
    assert each * made_of == pytest.approx(depth)
    assert each <= wide / 2.0 + 1e-9


def test_impossible_cutters_are_refused():
    with pytest.raises(ValueError, match="expected a diameter above 0"):
        c.Cutter(0.0)


def told(work, panel=None, feature="", **how):
    (one,) = made(panel or by_hand.panel(by_hand.edge(Side.FRONT)), **how)
    return [say(line) for line in machining_of(work, one.panel, feature).lines]


def test_laminate_is_sawn_and_linoleum_is_cut_by_hand():
    assert any("80 teeth" in line for line in told(Work.CUT_FACING))
    assert any("14 m a minute" in line for line in told(Work.CUT_FACING))
    assert any("nothing turns" in line for line in told(Work.CUT_FACING, face=LINOLEUM, back=LINOLEUM))


def test_a_deep_recess_takes_more_passes_than_a_shallow_one():
    panel = by_hand.panel(
        inserts=(insert("deep", "before facing", 100.0, 14.0), insert("flat", "before facing", 400.0, 5.0))
    )
    assert any("14 mm deep: 3 passes" in line for line in told(Work.ROUT_RECESS, panel, "deep"))
    assert any("5 mm deep: in one pass" in line for line in told(Work.ROUT_RECESS, panel, "flat"))


def test_the_cutter_of_an_opening_fits_its_inner_radius():
    panel = by_hand.panel(cutouts=(cutout(),))
    assert any("Ø 12 mm" in line for line in told(Work.ROUT_CUTOUT, panel, "basin"))
    assert any("Ø 20 mm or more" in line for line in told(Work.ROUT_CUTOUT, panel, "basin"))


def test_a_wide_profile_turns_slower_than_a_grip_cutter():
    panel = by_hand.panel(
        by_hand.edge(Side.FRONT),
        profiles=(Profile((Side.FRONT,), "round-over", radius_mm=8.0),),
        inserts=(insert("pull", "before facing", 60.0),),
        grips=(grip("grip", "pull"),),
    )
    # 12.7 + 2 × 8 = 28.7 mm: 18 000; ball of 20: 24 000
    assert any("28.7 mm: at most 18000" in line for line in told(Work.PROFILE, panel))
    assert any("20 mm: at most 24000" in line for line in told(Work.ROUT_GRIP, panel, "grip"))
    assert math.isclose(c.rim_speed_m_s(28.7, 18_000.0), 27.05, abs_tol=0.01)


def check_all(panels, pieces=()):
    known = {one.part: one.panel for one in panels}
    worked = {
        one.part: one.worked for one in (*panels, *(board for piece in pieces for board in piece.boards))
    }
    for step in derive_steps(panels, pieces=pieces):
        if not needs_machine(step.work):
            continue
        made_of = (
            joint_cutting(worked[step.part])
            if step.work is Work.CUT_JOINT
            else machining_of(step.work, known[step.part], step.feature)
            if step.part in known
            else OF_WOOD[step.work]
        )
        lines = [say(line) for line in made_of.lines]
        assert len(lines) == 6
        assert all(lines)
        assert {*lines} <= {say(line) for line in step.settings}, step.id


def test_the_works_that_cut_all_have_a_machine():
    assert len(AT_MACHINES) >= 10
    assert all(needs_machine(work) for work in AT_MACHINES), AT_MACHINES


@given(jobs())
@settings(max_examples=30, deadline=None)
def test_every_step_at_a_machine_is_set(panels):
    check_all(panels)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_step_of_the_examples_is_set(path):
    opened = open_with_all(path, None)
    constructions = construct(opened.job, opened.catalogue, KINDS, opened.made)
    panels = panels_to_make(constructions, parts_of(constructions))
    check_all(panels, pieces_to_make(constructions, panels))


@pytest.mark.parametrize(
    ("name", "part", "cutter", "deepest"),
    [
        ("lined-tray", "1.2", "6 mm", "3 mm"),  # groove 8.2, housings 6.2, slots 16.9
        ("lined-tray", "1.4", "6 mm", "3 mm"),  # a halving of 6.2
        ("notice-panel", "1.2", "8 mm", "4 mm"),  # a slot of 9.33; the rebate beside it is open
        ("notice-panel", "1.3", "12 mm", "6 mm"),  # nothing but a rebate and shoulders
    ],
)
def test_the_cutter_goes_into_the_narrowest_joint(name, part, cutter, deepest):
    (step,) = (one for one in steps_of(name) if one.part == part and one.work is Work.CUT_JOINT)
    lines = [say(one) for one in step.settings]
    assert any(line.startswith(f"Cutter Ø {cutter}: at most") for line in lines), lines
    assert any(line.startswith(f"No pass deeper than {deepest};") for line in lines), lines


def test_edging_says_how_proud_it_is_and_that_mitres_are_shot_before_gluing():
    """READ in the job: flush edging put on before its facings is 0.8 proud of them, 26.3 for 24.7; all ends mitred."""
    (milled,) = (one for one in steps_of("glazing-desk") if one.work is Work.MILL_EDGING)
    lines = [say(one) for one in milled.settings]
    assert "Of the height 0.8 mm stand proud at the face and 0.8 mm at the back." in lines
    assert any("× 26.3 mm" in line for line in lines)
    glued = next(one for one in steps_of("glazing-desk") if one.work is Work.GLUE_EDGING)
    lines = [say(one) for one in glued.settings]
    assert any(line.startswith("Mitres shot to fit before glue is spread") for line in lines)
    assert not any("Free ends" in line for line in lines)


def test_linoleum_is_cut_with_a_knife_and_laminate_with_a_saw():
    def tools(name):
        return [
            say(tool) for tool in next(one for one in steps_of(name) if one.work is Work.CUT_FACING).tools
        ]

    assert tools("notice-panel") == ["knife", "steel rule"]
    assert any("saw" in tool for tool in tools("wall-cupboard"))
