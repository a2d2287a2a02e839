"""Sections across grips: hollow, wood, board and sheets where the records have them, from both faces."""

from dataclasses import replace
from math import acos, pi, sqrt

import pytest
from drawings.sample_panels import built, edges
from drawings.test_drawings_clear import check_clear
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.drawings.grip_section import grip_sections_of
from evenface.drawings.scene import Area, Dimension, Fill, Path, Scene
from evenface.piece.records import Grip, Insert, Panel
from evenface.shape.build import rounded_rectangle
from evenface.shape.ring import ring_area, segments_of
from evenface.words import Manner

WOOD = Insert("wood", rounded_rectangle(150, 44, 10).moved(200, 100), "oak", depth_mm=14.0, when="after facing",
              clearance_mm=0.0, origin="insert")  # fmt: skip
GRIP = Grip("grip", "wood", "ball", 24.0, 9.0, ((235.0, 120.0), (315.0, 120.0)), origin="grip")


def section(grip: Grip = GRIP, insert: Insert = WOOD, core: str = "mdf-16") -> Scene:
    panel = built(
        Panel("door", 1, 700, 330, "b", edges=edges((14,) * 4), inserts=(insert,), grips=(grip,)),
        face="hpl-0.8",
        core=core,
        back="hpl-0.8",
    )
    ((name, scene),) = grip_sections_of(panel)
    assert name == grip.name
    return scene


def wood_of(scene: Scene) -> float:
    """Area of the grip's wood."""
    return sum(abs(ring_area(ring)) for one in scene.primitives for ring in _rings(one))


def _rings(one):
    return (
        one.rings
        if isinstance(one, Area) and one.layer == "hatch" and one.fill in (Fill.END_GRAIN, Fill.LONG_GRAIN)
        else ()
    )


def sizes(scene: Scene) -> list[float]:
    return sorted(one.length_mm for one in scene.primitives if isinstance(one, Dimension))


def test_a_ball_of_24_nine_deep_by_hand():
    """Opening 2·√(12² − 3²) = 23.24; insert 100 to 144, axis at 120: 20 and 24 less half of it; 5 under it."""
    scene = section()
    half = sqrt(144 - 9)
    whole = 16 + 2 * 0.8 + 2 * 0.1
    assert sizes(scene) == pytest.approx(sorted([2 * half, 20 - half, 24 - half, 9, 5, whole]), abs=0.001)
    segment = 144 * acos(3 / 12) - 3 * half
    assert wood_of(scene) == pytest.approx(44 * 14 - segment, abs=0.01)
    arcs = [s for one in scene.primitives if isinstance(one, Path) and one.layer == "outline"
            for s in segments_of(one.vertices) if s.is_arc]  # fmt: skip
    assert {round(s.radius, 6) for s in arcs} == {12.0}
    assert scene.scale == 1.0


@pytest.mark.parametrize(
    ("cutter", "size", "depth", "taken"),
    [
        ("straight", 20.0, 8.0, 160.0),
        ("core-box", 16.0, 11.0, 16 * 3 + pi * 64 / 2),  # deeper than its radius: upright walls of 3
        ("cove", 24.0, 8.0, 24 * 8 - (2 - pi / 2) * 64),  # its two quarters of 8 take that much less
    ],
)
def test_other_cutters_take_their_own_shape(cutter, size, depth, taken):
    scene = section(replace(GRIP, cutter=cutter, cutter_diameter_mm=size, depth_mm=depth))
    assert wood_of(scene) == pytest.approx(44 * 14 - taken, abs=0.01)


def test_from_below_it_is_the_same_upside_down():
    upper = section()
    lower = section(replace(GRIP, from_="under"), replace(WOOD, face="bottom"))
    assert sizes(lower) == pytest.approx(sizes(upper))
    assert wood_of(lower) == pytest.approx(wood_of(upper))


def test_under_a_facing_the_sheet_is_opened_and_the_wood_begins_below_it():
    """Let in before the facing: 0.9 below the face the ball is √(144 − (3 + 0.9)²) half wide."""
    scene = section(insert=replace(WOOD, when="before facing"))
    half = sqrt(144 - 3.9**2)
    assert any(length == pytest.approx(2 * half, abs=0.001) for length in sizes(scene))
    sheets = [one for one in scene.primitives if isinstance(one, Area) and one.fill is Fill.LAMINATE]
    assert len(sheets) == 3  # left and right of the hollow, and the back whole


def test_wood_along_the_cut_is_long_grain_and_across_it_end_grain():
    along = {one.fill for one in section().primitives if isinstance(one, Area) and one.layer == "hatch"}
    across = {one.fill for one in section(insert=replace(WOOD, grain_deg=90.0)).primitives
              if isinstance(one, Area) and one.layer == "hatch"}  # fmt: skip
    assert Fill.END_GRAIN in along
    assert Fill.LONG_GRAIN in across


def test_no_section_where_there_is_no_wood_of_its_own():
    panel = built(Panel("door", 1, 700, 330, "b", edges=edges((14,) * 4), grips=(replace(GRIP, insert=""),)))
    assert not list(grip_sections_of(panel))
    beside = replace(GRIP, path=((235.0, 300.0), (315.0, 300.0)))
    panel = built(Panel("door", 1, 700, 330, "b", edges=edges((14,) * 4), inserts=(WOOD,), grips=(beside,)))
    assert not list(grip_sections_of(panel))


@given(
    st.sampled_from(["ball", "core-box", "cove", "straight"]),
    st.floats(6, 40),
    st.floats(2, 13),
    st.floats(105, 139),
    st.sampled_from(["face", "under"]),
    st.sampled_from(["birch-ply-18", "mdf-16", "blockboard-22"]),
    st.sampled_from(["mm", "inch"]),
)
@settings(max_examples=40, deadline=None)
def test_any_grip_is_drawn_clear(cutter, size, depth, y, from_, core, system):
    grip = replace(
        GRIP,
        cutter=cutter,
        cutter_diameter_mm=size,
        depth_mm=depth,
        from_=from_,
        path=((235.0, y), (315.0, y)),
    )
    face = "top" if from_ == "face" else "bottom"
    panel = built(
        Panel("door", 1, 700, 330, "b", edges=edges((14,) * 4), inserts=(replace(WOOD, face=face),), grips=(grip,)),
        face="hpl-0.8", core=core, back="hpl-0.8",
    )  # fmt: skip
    for _, scene in grip_sections_of(panel, Manner(system)):
        check_clear(scene)
