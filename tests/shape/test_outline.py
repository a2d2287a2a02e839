"""Outlines: area, length, moments and containment in closed form, and what is refused with its place."""

from math import pi, sqrt

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shape.shape_samples import any_outline, polygon

from evenface.shape.build import (
    SQUARE,
    CornerCut,
    Notch,
    bar,
    circle,
    d_shape,
    rectangle,
    rounded_rectangle,
    slot,
)
from evenface.shape.faults import ShapeError
from evenface.shape.outline import Outline
from evenface.shape.validity import checked, problems


def test_rounded_rectangle_has_the_trade_formulas_for_area_and_length():
    """A = LW − (4 − π)R², P = 2(L + W) − (8 − 2π)R."""
    o = rounded_rectangle(600, 400, 60)
    assert o.area_mm2 == pytest.approx(600 * 400 - (4 - pi) * 60**2, rel=1e-13)
    assert o.perimeter_mm == pytest.approx(2 * 1000 - (8 - 2 * pi) * 60, rel=1e-13)
    assert o.bounds == pytest.approx((0, 0, 600, 400))


def test_every_corner_has_its_own_treatment():
    """Square, r 30, chamfer 40 (a triangle of 800 mm² less), r 10."""
    o = rectangle(
        500, 300, [SQUARE, CornerCut("radius", 30), CornerCut("chamfer", 40), CornerCut("radius", 10)]
    )
    gone = (1 - pi / 4) * (30**2 + 10**2) + 40**2 / 2
    assert o.area_mm2 == pytest.approx(500 * 300 - gone, rel=1e-13)
    assert len(o.outer) == 4 + 3


def test_named_shapes_by_hand():
    """Circle πr²; slot = rectangle + circle; D = circular segment R²(θ − sin θ)/2; notch = its own area."""
    assert circle(50).area_mm2 == pytest.approx(pi * 25**2, rel=1e-13)
    assert slot(100, 30).area_mm2 == pytest.approx(70 * 30 + pi * 15**2, rel=1e-13)
    assert bar(120, 24, 6).area_mm2 == pytest.approx(120 * 24 - (4 - pi) * 36, rel=1e-13)
    assert d_shape(100, 50).area_mm2 == pytest.approx(pi * 50**2 / 2, rel=1e-13)
    notch = rectangle(600, 400, notches=[Notch("left", 50, 80, 30, 8)])
    assert notch.area_mm2 == pytest.approx(600 * 400 - (80 * 30 - 2 * (1 - pi / 4) * 64), rel=1e-13)
    assert notch.contains((29, 300)) is False  # left side runs downwards: 50 from the back left corner
    assert notch.contains((29, 380)) is True
    corner = CornerCut("notch", bite_mm=(100, 50), inner_mm=8)
    bite = rectangle(600, 400, [SQUARE, corner, SQUARE, SQUARE])
    assert bite.area_mm2 == pytest.approx(600 * 400 - 5000 + (1 - pi / 4) * 64, rel=1e-13)
    assert bite.contains((510, 30)) is False
    assert bite.contains((490, 30)) is True
    assert bite.contains((501, 49)) is True  # in the rounding of the inner corner


def test_every_corner_may_be_notched_its_own_way():
    """Unequal bites at all four corners, and what cannot be: a bite past the side, a radius past the bite."""
    bites = [(30, 20), (50, 10), (7, 90), (110, 45)]
    o = rectangle(600, 400, [CornerCut("notch", bite_mm=bite) for bite in bites])
    assert o.area_mm2 == pytest.approx(600 * 400 - sum(x * y for x, y in bites), rel=1e-13)
    assert o.mirrored(300).area_mm2 == pytest.approx(o.area_mm2, rel=1e-13)
    with pytest.raises(ShapeError, match="corners of the front"):
        rectangle(75, 400, [CornerCut("notch", bite_mm=bite) for bite in bites])
    with pytest.raises(ShapeError, match="radius"):
        CornerCut("notch", bite_mm=(30, 20), inner_mm=21)


def test_d_with_round_corners_is_tangent_all_round():
    """Corner arcs of 5 touch the flat (y = 0) and the large arc from inside."""
    o = d_shape(100, 30, 5)
    R = (50**2 + 30**2) / 60
    small = o.outer_segments()[1]
    assert small.radius == pytest.approx(5, abs=1e-9)
    assert small.cy == pytest.approx(5, abs=1e-9)
    assert sqrt((small.cx - 50) ** 2 + (small.cy - (30 - R)) ** 2) == pytest.approx(R - 5, abs=1e-9)


def test_second_moments_of_circle_and_rectangle():
    """Circle πr⁴/4; rectangle about its corner L³W/3, LW³/3, L²W²/4; hole subtracts."""
    m = circle(40).moments
    assert m.second_xx == pytest.approx(pi * 20**4 / 4, rel=1e-12)
    assert m.second_yy == pytest.approx(pi * 20**4 / 4, rel=1e-12)
    r = rectangle(70, 30).moments
    assert (r.second_xx, r.second_yy, r.second_xy) == pytest.approx(
        (70**3 * 10, 70 * 9000, 70**2 * 30**2 / 4)
    )
    holed = rectangle(70, 30).with_hole(circle(10, (20, 10))).moments
    assert holed.first_x == pytest.approx(70 * 30 * 35 - 25 * pi * 20, rel=1e-12)


@settings(max_examples=40, deadline=None)
@given(any_outline())
def test_moments_agree_with_a_fine_polygon(o):
    """Second opinion: shapely's polygon with chords within 1e-4 mm."""
    p = polygon(o)
    assert o.area_mm2 == pytest.approx(p.area, rel=1e-5)
    assert o.perimeter_mm == pytest.approx(p.length, rel=1e-5)
    assert o.moments.centroid == pytest.approx((p.centroid.x, p.centroid.y), abs=1e-3)


@settings(max_examples=40, deadline=None)
@given(any_outline(), st.floats(0, 1), st.floats(0, 1))
def test_containment_agrees_with_a_fine_polygon(o, u, v):
    left, low, right, high = o.bounds
    point = (left + u * (right - left), low + v * (high - low))
    p = polygon(o)
    if p.boundary.distance(shapely.Point(point)) > 2e-4:
        assert o.contains(point) == p.contains(shapely.Point(point))


@settings(max_examples=30, deadline=None)
@given(any_outline(), st.floats(-100, 100))
def test_mirror_twice_and_full_turn_give_the_outline_back(o, x):
    assert o.mirrored(x).mirrored(x).same_as(o, 1e-6)
    assert o.mirrored(x).area_mm2 == pytest.approx(o.area_mm2, rel=1e-12)
    assert o.rotated(2.0).rotated(-2.0).same_as(o, 1e-6)


def test_winding_is_refused_and_of_turns_it():
    clockwise = ((0.0, 0.0, 0.0), (0.0, 50.0, 0.0), (80.0, 50.0, 0.0), (80.0, 0.0, 0.0))
    with pytest.raises(ShapeError) as error:
        Outline((clockwise,))
    assert error.value.problem == "wrong_winding"
    assert Outline.of(clockwise).area_mm2 == 4000


@pytest.mark.parametrize(
    ("ring", "problem", "at"),
    [
        # a bow tie crosses at (50, 25); larger lobe counter-clockwise
        ([(0, 0), (100, 0), (0, 50), (0, 40), (100, 60), (-50, 60)], "self_crossing", None),
        ([(0, 0), (100, 0), (100, 0), (100, 50)], "zero_length", (100, 0)),
        ([(0, 0), (100, 0), (100, 0.005), (100, 50)], "tiny_segment", (100, 0)),
        ([(0, 0), (100, 0), (100, 50), (140, 50), (100, 50.0), (0, 50)], "self_crossing", None),
    ],
)
def test_flaws_are_named_with_their_place(ring, problem, at):
    found = problems(Outline.of(ring))
    assert problem in [f.problem for f in found]
    flaw = next(f for f in found if f.problem == problem)
    assert flaw.place is not None
    if at:
        assert (flaw.place.x_mm, flaw.place.y_mm) == at


def test_crossing_place_is_where_it_crosses():
    """Lines (0,0)–(100,100) and (100,0)–(0,100) of a tie cross in the middle."""
    ring = [(0, 0), (100, 100), (100, 150), (-20, 150), (-20, 120), (100, 0), (50, -40)]
    flaw = next(f for f in problems(Outline.of(ring)) if f.problem == "self_crossing")
    x, y = flaw.place.x_mm, flaw.place.y_mm
    assert x == pytest.approx(y, abs=1e-9)  # it lies on the diagonal


def test_holes_outside_and_crossing_are_named():
    base = rectangle(100, 60)
    with pytest.raises(ShapeError, match="outside") as error:
        checked(base.with_hole(circle(10, (150, 30))))
    assert error.value.problem == "hole_outside"
    with pytest.raises(ShapeError) as error:
        checked(base.with_hole(circle(10, (98, 30))))
    assert error.value.problem == "rings_cross"


@pytest.mark.parametrize(
    ("build", "problem"),
    [
        (lambda: rectangle(100, 50, [CornerCut("radius", 30)] * 4), "corners_overlap"),
        (lambda: rectangle(100, 50, notches=[Notch("front", 90, 20, 10)]), "notch"),
        (lambda: rectangle(0, 50), "size"),
        (lambda: Outline((((0.0, 0.0, 0.0), (10.0, float("nan"), 0.0), (5.0, 5.0, 0.0)),)), "not_finite"),
        (lambda: Outline((((0.0, 0.0, 0.0), (10.0, 0.0, 0.0)),)), "too_few"),
        (lambda: d_shape(100, 60), "size"),
        (lambda: slot(30, 40), "size"),
    ],
)
def test_impossible_shapes_are_refused(build, problem):
    with pytest.raises(ShapeError) as error:
        build()
    assert error.value.problem == problem


def test_corner_arcs_may_meet_and_leave_no_side():
    """Four corners of 25 on 100 × 50: the short sides vanish, the shape is a slot."""
    o = rectangle(100, 50, [CornerCut("radius", 25)] * 4)
    assert o.area_mm2 == pytest.approx(slot(100, 50).area_mm2)
    assert len(o.outer) == 6


@pytest.mark.parametrize("radius", [1e-6, 0.001, 0.0099])
def test_a_radius_no_tool_cuts_is_a_sharp_corner(radius):
    square = rectangle(300, 200, notches=[Notch("back", 100, 80, 40)])
    rounded = rectangle(300, 200, [CornerCut("radius", radius)] * 4, [Notch("back", 100, 80, 40, radius)])
    assert rounded.same_as(square)
    assert (
        rectangle(
            300, 200, [CornerCut("notch", bite_mm=(50, 40), inner_mm=radius), *[CornerCut()] * 3]
        ).area_mm2
        == 58000
    )
