"""Corners built of pieces: strips, carrier and blanks against sums done by hand; mirrored panels alike."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jobs_by_hand import ALL_UNDER, built, edge, job, panel

from evenface.construction import BuiltPanel, EndKind
from evenface.piece.records import Corner, CornerAt, Profile, Side
from evenface.shape.build import circle
from evenface.shape.outline import Outline

ALIKE = tuple(edge(side, 14.0) for side in Side)
KINDS = ("clipped", "block", "ring", "strips")
MIRRORED = {
    CornerAt.FRONT_LEFT: CornerAt.FRONT_RIGHT,
    CornerAt.FRONT_RIGHT: CornerAt.FRONT_LEFT,
    CornerAt.REAR_LEFT: CornerAt.REAR_RIGHT,
    CornerAt.REAR_RIGHT: CornerAt.REAR_LEFT,
}


def corner(kind: str, at: CornerAt = CornerAt.FRONT_LEFT, radius: float = 60.0, **other: object) -> Corner:
    return Corner(at, "radius", radius, kind, origin="corner", **other)  # type: ignore[arg-type]


def made(*corners: Corner, edges: tuple[object, ...] = ALIKE, **other: object) -> BuiltPanel:
    panels, _ = built(job(panel(*edges, corners=corners, **other)))  # type: ignore[arg-type]
    return panels[0]


def end(one: BuiltPanel, side: Side) -> tuple[float, float, float]:
    edging = one.edging(side)
    assert edging is not None
    assert edging.start.kind is EndKind.SHORT
    return edging.start.outer_mm, edging.start.inner_mm, edging.start.angle_deg


def area(one: BuiltPanel) -> float:
    assert one.carrier_outline is not None
    return one.carrier_outline.area_mm2


WHOLE = (1000 - 28) * (500 - 28)


def test_a_clipped_corner_takes_a_leg_of_ten_and_two_tenths() -> None:
    """R 60, w 14, m 2: c = 46 − √(58² − 46²) = 10.674, set to 10.7; the joint stands 14 + 14 + 10.7 out."""
    one = made(corner("clipped"))
    leg = math.ceil(10 * (46 - math.sqrt(58**2 - 46**2))) / 10
    assert leg == pytest.approx(10.7)
    assert end(one, Side.FRONT) == pytest.approx((28 + leg, 14 + leg, 45.0))
    assert end(one, Side.LEFT) == pytest.approx((28 + leg, 14 + leg, 45.0))
    assert area(one) == pytest.approx(WHOLE - leg * leg / 2, abs=0.01)


def test_the_profile_beside_the_carrier_lengthens_the_leg() -> None:
    """A round-over of 4 is 4 − √(16 − 3.1²) deep 0.9 below the face, where the carrier begins."""
    profile = Profile(tuple(Side), "round-over", radius_mm=4.0, origin="profile")
    one = made(corner("clipped"), profiles=(profile,))
    depth = 4 - math.sqrt(16 - 3.1**2)
    assert one.corners[0].wood_mm == pytest.approx(2 + depth, abs=1e-9)
    least = 46 - math.sqrt((60 - 2 - depth) ** 2 - 46**2)
    assert one.corners[0].carrier.x_mm == pytest.approx(math.ceil(10 * least) / 10)


def test_a_clip_on_unequal_edgings_ends_each_at_its_own_width() -> None:
    """Front 14, left 12: the joint meets the square outline at 14 + 12 + leg from the corner on both."""
    one = made(corner("clipped"), edges=ALL_UNDER)
    leg = one.corners[0].carrier.x_mm
    assert end(one, Side.FRONT)[:2] == pytest.approx((26 + leg, 12 + leg))
    assert end(one, Side.LEFT)[:2] == pytest.approx((26 + leg, 14 + leg))


def test_a_block_notches_the_carrier_by_what_the_radius_has_over_the_edging() -> None:
    one = made(corner("block"), edges=ALL_UNDER)
    assert end(one, Side.FRONT) == pytest.approx((60, 60, 90))
    assert end(one, Side.LEFT) == pytest.approx((60, 60, 90))
    assert (one.corners[0].carrier.x_mm, one.corners[0].carrier.y_mm) == pytest.approx((48, 46))
    assert area(one) == pytest.approx((1000 - 21) * (500 - 34) - 48 * 46, abs=0.01)


@pytest.mark.parametrize("kind", ["ring", "strips"])
def test_a_ring_or_bend_rounds_the_carrier_to_the_inner_radius(kind: str) -> None:
    one = made(corner(kind))
    assert end(one, Side.FRONT) == pytest.approx((60, 60, 90))
    assert area(one) == pytest.approx(WHOLE - (1 - math.pi / 4) * 46**2, abs=0.01)


def test_segments_and_strips_are_as_reckoned_by_hand() -> None:
    """Ring of 3: 2·60·sin 15° = 31.058 long, 60 − 46·cos 15° = 15.567 deep; 4 strips of 3.5 lose 1/16."""
    ring = made(corner("ring", pieces=3)).corners[0].blank
    assert ring is not None
    assert (ring.count, ring.length_mm, ring.depth_mm) == pytest.approx((3, 31.058, 15.567), abs=0.001)
    bend = made(corner("strips", strip_mm=3.5)).corners[0].strips
    assert bend is not None
    assert (bend.count, bend.strain) == pytest.approx((4, 3.5 / 106))
    assert (bend.form_inner_mm, bend.form_outer_mm) == pytest.approx((43.125, 56.25))


@pytest.mark.parametrize(
    ("kind", "edges", "radius"),
    [
        ("ring", ALL_UNDER, 60.0),  # unequal widths
        ("strips", ALIKE, 14.0),  # no radius left inside
        ("clipped", ALIKE, 20.0),  # nothing to clip
        ("block", (edge(Side.FRONT),), 60.0),  # one edging only
    ],
)
def test_what_cannot_be_built_says_why_and_leaves_the_panel_as_it_was(
    kind: str, edges: tuple[object, ...], radius: float
) -> None:
    one = made(corner(kind, radius=radius), edges=edges)
    plain = made(edges=edges)
    assert one.corners[0].fault
    assert one.edgings == plain.edgings
    assert one.carrier_outline == plain.carrier_outline


@given(
    st.sampled_from(KINDS),
    st.sampled_from(list(CornerAt)),
    st.floats(30, 150),
    st.floats(8, 24),
)
@settings(max_examples=40)
def test_a_mirrored_corner_is_built_mirrored(kind: str, at: CornerAt, radius: float, width: float) -> None:
    edges = tuple(edge(side, width) for side in Side)
    one = made(corner(kind, at, radius), edges=edges)
    other = made(corner(kind, MIRRORED[at], radius), edges=edges)
    assert one.corners[0].carrier == other.corners[0].carrier
    if one.carrier_outline is None or other.carrier_outline is None:
        assert one.carrier_outline is None
        assert other.carrier_outline is None
    else:
        assert one.carrier_outline.mirrored(500.0).same_as(other.carrier_outline, 1e-6)
    for side, opposite in ((Side.FRONT, Side.FRONT), (Side.LEFT, Side.RIGHT)):
        here, there = one.edging(side), other.edging(opposite)
        assert here is not None
        assert there is not None
        assert here.outer_length_mm == pytest.approx(there.outer_length_mm)
        assert here.inner_length_mm == pytest.approx(there.inner_length_mm)


def test_edging_round_a_circle_leaves_a_smaller_circle() -> None:
    round_table = circle(800.0, (400.0, 400.0))
    one = made(edges=ALIKE, outline=round_table, length_mm=800.0, width_mm=800.0)
    assert area(one) == pytest.approx(math.pi * 386**2, abs=0.01)


def test_unequal_edging_follows_a_free_outline_side_by_side() -> None:
    """A trapezoid: front 14 and rear 20 straight, the sloped ends 12 and 9 square to their own slope."""
    outline = Outline.of([(0, 0), (1000, 0), (900, 500), (100, 500)])
    one = made(edges=ALL_UNDER, outline=outline)
    assert one.carrier_outline is not None
    _, low, _, high = one.carrier_outline.bounds
    assert (low, high) == pytest.approx((14, 480))
