"""Edging along free outlines: lengths, mitres, carrier and pieces of arcs, against sums by hand."""

from math import atan2, cos, degrees, pi, radians, sin, sqrt, tan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jobs_by_hand import built, edge, job, panel

from evenface.construction import BuiltPanel
from evenface.construction.free_outlines import roundings_of, sides_of
from evenface.piece.records import Corner, CornerAt, Edge, Profile, Side
from evenface.shape.build import circle, rounded_rectangle
from evenface.shape.corner_pieces import bent_strips, ring_segments
from evenface.shape.outline import Outline

ALIKE = tuple(edge(side, 14.0) for side in Side)
UNEQUAL = tuple(edge(side) for side in Side)  # front 14, rear 20, left 12, right 9


def made(outline: Outline, *edges: Edge, **other: object) -> BuiltPanel:
    length, width = outline.size
    one = panel(*(edges or ALIKE), outline=outline, length_mm=length, width_mm=width, **other)
    panels, _ = built(job(one))
    return panels[0]


def test_a_rectangle_drawn_as_an_outline_is_edged_like_a_rectangle() -> None:
    """Unequal widths: the carrier 600 − 12 − 9 by 400 − 14 − 20, mitres atan(w/neighbour)."""
    one = made(rounded_rectangle(600, 400, 0), *UNEQUAL)
    assert one.carrier_outline is not None
    assert one.carrier_outline.bounds == pytest.approx((12, 14, 591, 380))
    front, right, rear, left = one.edge_pieces
    assert [piece.outer_mm for piece in one.edge_pieces] == pytest.approx([600, 400, 600, 400])
    assert [piece.inner_mm for piece in one.edge_pieces] == pytest.approx([579, 366, 579, 366])
    assert front.ends_deg == pytest.approx((degrees(atan2(14, 12)), degrees(atan2(14, 9))))
    assert rear.ends_deg == pytest.approx((degrees(atan2(20, 9)), degrees(atan2(20, 12))))
    assert (front.direction_deg, right.direction_deg, left.direction_deg) == (0, 90, 90)


def test_a_hexagon_is_mitred_at_sixty() -> None:
    """Six sides of 300, 14 wide: 60° between joint and edge, each side 2·14/tan 60° shorter inside."""
    corners = [(300 * cos(k * pi / 3) + 300, 300 * sin(k * pi / 3) + 150 * sqrt(3)) for k in range(6)]
    one = made(Outline.of(corners))
    assert len(one.edge_pieces) == 6
    for piece in one.edge_pieces:
        assert piece.outer_mm == pytest.approx(300)
        assert piece.inner_mm == pytest.approx(300 - 28 / tan(radians(60)))
        assert piece.ends_deg == pytest.approx((60, 60))


def test_in_a_hollow_corner_strips_are_longer_inside() -> None:
    """An L: at the inward corner both strips run 14 further along the carrier than along the show edge."""
    ell = Outline.of([(0, 0), (600, 0), (600, 200), (250, 200), (250, 500), (0, 500)])
    one = made(ell)
    lengths = {piece.number: (piece.outer_mm, piece.inner_mm) for piece in one.edge_pieces}
    assert lengths[3] == pytest.approx((350, 350 - 14 + 14))
    assert lengths[4] == pytest.approx((300, 300 + 14 - 14))
    assert lengths[1] == pytest.approx((600, 600 - 28))
    assert one.carrier_outline is not None
    wood = sum((p.outer_mm + p.inner_mm) / 2 * p.width_mm for p in one.edge_pieces)
    assert one.carrier_outline.area_mm2 + wood == pytest.approx(ell.area_mm2)


def test_small_roundings_are_worked_into_straight_edging() -> None:
    """R 20 behind 14: 20 − √2·6 = 11.5 left; strips run on to the sharp corner, the carrier keeps one."""
    one = made(rounded_rectangle(600, 400, 20))
    assert [piece.what for piece in one.edge_pieces] == ["line"] * 4
    assert [piece.outer_mm for piece in one.edge_pieces] == pytest.approx([600, 400, 600, 400])
    assert [piece.ends_deg for piece in one.edge_pieces] == [pytest.approx((45, 45))] * 4
    assert [rounding.left_mm for rounding in roundings_of(one)] == pytest.approx([20 - 6 * sqrt(2)] * 4)
    assert one.carrier_outline is not None
    assert one.carrier_outline.area_mm2 == pytest.approx(572 * 372)


def test_a_deep_profile_asks_for_pieces_where_the_arc_alone_would_not() -> None:
    """R 40 behind 14 leaves 40 − √2·26 = 3.23; a cove of 3 reaches 2.05 deep at the carrier, so 4.05 are wanted."""
    arc = rounded_rectangle(600, 400, 40)
    assert {piece.kind for piece in made(arc).edge_pieces} == {"strip"}
    cove = Profile(tuple(Side), "chamfer", depth_mm=3.0, height_mm=8.0, origin="profile")
    assert {piece.kind for piece in made(arc, profiles=(cove,)).edge_pieces} == {"strip", "segments"}


def test_arcs_become_strips_or_segments_with_the_reckoning_of_a_corner() -> None:
    """R 60 behind 14: 14 strips of 1.0 where strips are asked for, two segments where nothing is said."""
    box = rounded_rectangle(600, 400, 60)
    arcs = [piece for piece in made(box).edge_pieces if piece.what == "arc"]
    assert [piece.kind for piece in arcs] == ["segments"] * 4
    assert arcs[0].blank is not None
    assert arcs[0].blank.count == 2
    assert arcs[0].blank.length_mm == pytest.approx(ring_segments(60, 14, 2, 90).length_mm)
    asked = Corner(CornerAt.FRONT_LEFT, construction="strips", origin="corners")
    bent = [piece for piece in made(box, corners=(asked,)).edge_pieces if piece.what == "arc"]
    assert bent[0].kind == "bent"
    assert bent[0].count == 14
    assert bent[0].strips is not None
    assert bent[0].strips.form_inner_mm == pytest.approx(46 * (1 - 1 / 196))
    straight = [piece for piece in made(box).edge_pieces if piece.what == "line"]
    assert [piece.outer_mm for piece in straight] == pytest.approx([480, 280, 480, 280])
    assert [piece.inner_mm for piece in straight] == pytest.approx([480, 280, 480, 280])


def test_a_hollow_arc_bends_against_the_larger_radius() -> None:
    """A bite of radius 300 into the front: finished 300 inside, against the carrier 314; grain of the ring on 314."""
    bite = Outline.of(
        [(0, 0), (100, 0, -tan(pi / 8)), (100 + 300 * sqrt(2), 0), (700, 0), (700, 400), (0, 400)]
    )
    arc = next(piece for piece in made(bite).edge_pieces if piece.what == "arc")
    assert arc.hollow
    assert arc.radius_mm == pytest.approx(300)
    assert arc.outer_mm == pytest.approx(300 * pi / 2)
    assert arc.kind == "bent"  # two or three strips do: 1 % on 307
    want = bent_strips(314, 14)
    assert arc.strips is not None
    assert arc.strips.count == want.count == 3
    assert arc.strips.form_outer_mm == pytest.approx(314 * (1 - 1 / 9))


def test_a_round_table_is_bent_all_round() -> None:
    """Radius 400, 14 of edging at 1 %: the mean radius of 393 bears strips of 7.86, so two of 7."""
    one = made(circle(800, (400, 400)))
    assert [(piece.kind, piece.count) for piece in one.edge_pieces] == [("bent", 2), ("bent", 2)]
    assert [piece.outer_mm for piece in one.edge_pieces] == pytest.approx([400 * pi] * 2)
    assert [piece.inner_mm for piece in one.edge_pieces] == pytest.approx([386 * pi] * 2)


def test_named_sides_decide_whose_edging_a_stretch_carries() -> None:
    """A gable: its two slopes face left and right more than up, but are said to be the rear."""
    gable = Outline.of([(0, 0), (400, 0), (400, 200), (200, 600), (0, 200)])
    guessed = made(gable, *UNEQUAL)
    assert sides_of(guessed) == (Side.FRONT, Side.RIGHT, Side.RIGHT, Side.LEFT, Side.LEFT)
    named = (Side.FRONT, Side.RIGHT, Side.REAR, Side.REAR, Side.LEFT)
    one = made(gable, *UNEQUAL, outline_sides=named)
    assert [piece.width_mm for piece in one.edge_pieces] == [14, 9, 20, 20, 12]
    assert one.carrier_outline is not None


def test_an_edge_left_bare_ends_its_neighbours_square_on_it() -> None:
    three = tuple(edge(side, 14.0) for side in (Side.FRONT, Side.LEFT, Side.RIGHT))
    one = made(rounded_rectangle(600, 400, 0), *three)
    right = next(piece for piece in one.edge_pieces if piece.side is Side.RIGHT)
    assert right.ends_deg == pytest.approx((45, 90))
    assert right.inner_mm == pytest.approx(386)


def test_edging_that_cannot_follow_gives_no_pieces_and_no_carrier() -> None:
    """Tangent arcs and lines with edging of different widths do not meet."""
    asked = Corner(CornerAt.FRONT_LEFT, construction="ring", origin="corners")
    one = made(rounded_rectangle(600, 400, 60), *UNEQUAL, corners=(asked,))
    assert one.carrier_outline is None
    assert one.edge_pieces == ()


@given(st.lists(st.floats(0.7, 1.0), min_size=5, max_size=9), st.floats(4.0, 25.0), st.floats(0.0, 1.0))
@settings(max_examples=40)
def test_wood_and_carrier_fill_any_outline_and_its_mirror_alike(
    reach: list[float], width: float, turn: float
) -> None:
    """Straight stretches with mitres: trapezoids and carrier add up to the outline; the mirror has the same."""
    count = len(reach)
    points = [
        (600 + 600 * r * cos(2 * pi * (k + turn) / count), 600 + 600 * r * sin(2 * pi * (k + turn) / count))
        for k, r in enumerate(reach)
    ]
    outline = Outline.of(points)
    alike = tuple(edge(side, width) for side in Side)
    one, other = made(outline, *alike), made(outline.mirrored(600), *alike)
    assert one.carrier_outline is not None
    wood = sum((p.outer_mm + p.inner_mm) / 2 * p.width_mm for p in one.edge_pieces)
    assert one.carrier_outline.area_mm2 + wood == pytest.approx(outline.area_mm2, rel=1e-9)
    assert sorted(p.outer_mm for p in one.edge_pieces) == pytest.approx(
        sorted(p.outer_mm for p in other.edge_pieces)
    )
    assert sorted(p.inner_mm for p in one.edge_pieces) == pytest.approx(
        sorted(p.inner_mm for p in other.edge_pieces)
    )
