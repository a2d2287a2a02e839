"""Templates, pairs, cutters and passes: offsets by hand, refusals with the cutter that would do, laws."""

from math import atan2, pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.shape.build import (
    Notch,
    circle,
    d_shape,
    rectangle,
    rounded_rectangle,
    slot,
)
from evenface.shape.cutter import (
    Cutter,
    cutter_that_would_do,
    largest_diameter,
    passes,
    reach_left,
    rim_speed_m_per_s,
    rotation_limit,
)
from evenface.shape.faults import ShapeError
from evenface.shape.outline import Outline
from evenface.shape.reserve import reserve_inside
from evenface.shape.ring import ring_of
from evenface.shape.segment import arc_about
from evenface.shape.template import Guide, cut_by, guide_offset, template_for, template_reach, too_tight
from evenface.shape.template_board import base_frame, corner_holes, template_board
from evenface.shape.template_pair import pair_clearance, paired

EIGHT = Cutter(8, 25, name="straight eight")


def test_inside_template_by_hand():
    """Bush 17, cutter 8: o = 4.5; part 100 × 40 r 6 → template 109 × 49 r 10.5."""
    made = template_for(rounded_rectangle(100, 40, 6), "inside", Guide(17), EIGHT)
    assert made.offset_mm == 4.5
    assert made.outline.same_as(rounded_rectangle(109, 49, 10.5).moved(-4.5, -4.5))


def test_outside_template_by_hand():
    """The same guide outside: 91 × 31 r 1.5."""
    made = template_for(rounded_rectangle(100, 40, 6), "outside", Guide(17), EIGHT)
    assert made.outline.same_as(rounded_rectangle(91, 31, 1.5).moved(4.5, 4.5))


def test_a_flush_bearing_makes_the_template_the_part():
    part = rounded_rectangle(100, 40, 6)
    assert template_for(part, "outside", Guide(8, "bearing"), EIGHT).outline.same_as(part)
    assert guide_offset(Guide(12.7, "bearing"), Cutter(9.5, 20)) == pytest.approx(1.6)


@settings(max_examples=40, deadline=None)
@given(
    st.one_of(
        st.builds(rounded_rectangle, st.floats(60, 300), st.floats(40, 55), st.floats(8, 19)),
        st.builds(slot, st.floats(60, 200), st.floats(20, 50)),
        st.builds(d_shape, st.floats(90, 200), st.floats(30, 40), st.floats(8, 9)),
    ),
    st.sampled_from(["inside", "outside"]),
    st.floats(4, 14),
    st.floats(0.5, 15),
)
def test_template_makes_the_part_and_its_mirror_makes_the_mirrored_part(part, work, diameter, wall):
    cutter, guide = Cutter(diameter, 20), Guide(diameter + wall)
    made = template_for(part, work, guide, cutter)
    assert cut_by(made).same_as(part, 1e-5)
    mirrored = template_for(part.mirrored(), work, guide, cutter)
    assert mirrored.outline.same_as(made.outline.mirrored(), 1e-5)


def test_refusal_names_the_cutter_that_would_do():
    """r 3 needs a cutter of at most 6: of 4, 6 and 8 at hand the 6 is named, with the corner's place."""
    hand = (Cutter(4, 15, name="four"), Cutter(6, 20, name="six"), EIGHT)
    with pytest.raises(ShapeError, match="the cutter of 6 mm would do") as error:
        template_for(rounded_rectangle(100, 40, 3), "inside", Guide(17), EIGHT, hand)
    assert error.value.problem == "too_tight"
    assert error.value.value == pytest.approx(6)
    x, y = error.value.place.x_mm, error.value.place.y_mm
    assert (x, y) == pytest.approx((97 + 3 * 2**-0.5, 3 - 3 * 2**-0.5))


def test_refusal_names_the_largest_guide_for_outer_corners():
    """Outside, r 3 and cutter 8: offset at most 3, so a guide of at most 14."""
    with pytest.raises(ShapeError, match="at most 14 mm") as error:
        template_for(rounded_rectangle(100, 40, 3), "outside", Guide(17), EIGHT)
    assert error.value.value == pytest.approx(14)
    assert template_for(rounded_rectangle(100, 40, 3), "outside", Guide(14), EIGHT)


def test_sharp_corners_and_necks():
    with pytest.raises(ShapeError, match="no cutter makes a sharp inner corner"):
        template_for(rectangle(100, 40), "inside", Guide(17), EIGHT)
    assert template_for(rectangle(100, 40), "outside", Guide(8, "bearing"), EIGHT)


def test_a_neck_too_narrow_for_the_cutter():
    """Two circles r 20, 60 apart, joined by a neck of 7 between tangent arcs of r 15.52.

    (20 + ρ)² = 30² + (ρ + 3.5)² gives ρ = 512.25/33. Every radius passes an 8 mm cutter, the neck does not.
    """
    rho = 512.25 / 33
    high, a = rho + 3.5, atan2(rho + 3.5, 30)
    waist = Outline((ring_of([
        arc_about(0, 0, 20, a, 2 * pi - 2 * a), arc_about(30, -high, rho, pi - a, 2 * a - pi),
        arc_about(60, 0, 20, a - pi, 2 * pi - 2 * a), arc_about(30, high, rho, -a, 2 * a - pi),
    ]),))  # fmt: skip
    assert too_tight(waist, "inside", Guide(8, "bearing"), EIGHT) == ()
    with pytest.raises(ShapeError) as error:
        template_for(waist, "inside", Guide(8, "bearing"), EIGHT)
    assert error.value.problem == "too_narrow"
    assert template_for(waist, "inside", Guide(6, "bearing"), Cutter(6, 20))


def test_notch_outside_needs_the_cutter_in_its_corners():
    part = rectangle(300, 200, notches=[Notch("back", 100, 80, 40, 3)])
    found = too_tight(part, "outside", Guide(8, "bearing"), EIGHT)
    assert [(t.radius_mm, t.needed_mm) for t in found] == [(pytest.approx(3), 4), (pytest.approx(3), 4)]


def test_cutter_must_pass_its_bush():
    with pytest.raises(ShapeError) as error:
        template_for(rounded_rectangle(100, 40, 6), "inside", Guide(8), EIGHT)
    assert error.value.problem == "bush"


def test_pair_by_hand():
    """D big 24, small 8, cutter 8: no gap. Big 23.9: 0.05 a side; a cutter 0.2 under shifts it by 0.2."""
    assert pair_clearance(Guide(24), Guide(8), EIGHT) == 0
    assert pair_clearance(Guide(23.9), Guide(8), EIGHT) == pytest.approx(0.05)
    assert pair_clearance(Guide(23.9), Guide(8), Cutter(7.8, 25)) == pytest.approx(-0.15)
    made = paired(rounded_rectangle(100, 40, 6), Guide(23.8), Guide(8), EIGHT)
    assert made.insert.same_as(rounded_rectangle(99.8, 39.8, 5.9).moved(0.1, 0.1), 1e-6)
    with pytest.raises(ShapeError, match="at most 24 mm"):
        paired(rounded_rectangle(100, 40, 6), Guide(24.2), Guide(8), EIGHT)


@settings(max_examples=30, deadline=None)
@given(st.floats(60, 200), st.floats(30, 55), st.floats(6, 14), st.floats(0, 0.4))
def test_the_gap_of_a_pair_is_the_same_all_round(length, width, radius, gap):
    made = paired(rounded_rectangle(length, width, radius), Guide(24 - 2 * gap), Guide(8), EIGHT)
    assert made.clearance_mm == pytest.approx(gap)
    assert reserve_inside(made.insert.outer, made.recess.outer).reserve_mm == pytest.approx(gap, abs=1e-6)


def test_board_keeps_the_base_on_it_and_has_room_for_clamps():
    """Hole 109 × 49, base 150, bush 17: swept 109 + 133 by 49 + 133; clamps 60 at both ends: 362 × 200."""
    made = template_for(rounded_rectangle(100, 40, 6), "inside", Guide(17), EIGHT)
    board = template_board(made, 150)
    left, low, right, high = board.board
    assert (right - left, high - low) == (362, 200)
    assert board.swept == pytest.approx((-71, -71, 171, 111))
    assert all(zone[2] - zone[0] == pytest.approx(60) for zone in board.hold_down)


def test_corner_holes_and_base_frame():
    """Holes of the corner's own diameter about its centre; 203 × 152 − 38 → 317, as the formula has it."""
    holes = corner_holes(rounded_rectangle(480, 380, 20))
    assert sorted((h.x_mm, h.y_mm) for h in holes) == [
        pytest.approx(p) for p in ((20, 20), (20, 360), (460, 20), (460, 360))
    ]
    assert {round(h.diameter_mm, 9) for h in holes} == {40}
    assert corner_holes(circle(60)) == ()
    assert base_frame(203, 60, 152, Cutter(38, 30))[0] == 317


@pytest.mark.parametrize(
    ("diameter", "limit"),
    [(8, 24_000), (25, 24_000), (25.1, 18_000), (32, 18_000), (50, 16_000), (89, 12_000), (90, None)],
)
def test_rotation_limits(diameter, limit):
    assert rotation_limit(diameter) == limit


def test_speed_passes_and_reach():
    """20 mm at 18 000: 18.85 m/s. 13 deep by 8 mm: at most 4 a pass, so 4 × 3.25. Reach 25 − 12 − 10 = 3."""
    assert rim_speed_m_per_s(20, 18_000) == pytest.approx(pi * 0.02 * 300)
    assert largest_diameter(20_000) == 25
    assert largest_diameter(25_000) is None
    cut = passes(13, EIGHT)
    assert (cut.count, cut.each_mm) == (4, 3.25)
    assert cut.depths_mm[-1] == 13
    assert passes(12, EIGHT, 12).count == 1
    assert reach_left(EIGHT, 12, 10) == 3
    assert template_reach(EIGHT, 16, 10) == -1
    assert cutter_that_would_do((EIGHT, Cutter(6, 10)), 7, depth_mm=12) is None
