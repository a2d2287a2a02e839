"""Sizes of corner pieces, inserts and linings, against sums by hand with the allowances stated here."""

import pytest
from jobs_by_hand import built, edge, job, panel

from evenface.parts import LayerSizes, part_of
from evenface.piece.records import Allowances, Corner, CornerAt, Cutout, Insert, Role, Side
from evenface.shape.build import circle, rounded_rectangle
from evenface.words import say

ALLOWANCES = Allowances(
    overhang_mm=dict.fromkeys(Side, 5.0), proud_under_mm=0.8, proud_flush_mm=0.2, end_mm=1.6
)
ALIKE = tuple(edge(side, 14.0) for side in Side)


def pieces(role: Role, count: int = 1, **other: object) -> tuple[LayerSizes, ...]:
    panels, _ = built(job(panel(*ALIKE, **other), allowances=ALLOWANCES, count=count))
    return tuple(layer for layer in part_of(panels[0], "1.1").layers if layer.role is role)


def corner(kind: str, **other: object) -> Corner:
    return Corner(CornerAt.FRONT_RIGHT, "radius", 60.0, kind, **other)  # type: ignore[arg-type]


def test_a_block_is_as_long_as_the_radius_and_five_over() -> None:
    (block,) = pieces(Role.CORNER, corners=(corner("block"),))
    assert block.net_mm == pytest.approx((60, 60, 17.6))
    assert block.blank_mm == pytest.approx((65, 65, 17.6 + 1.6))
    assert block.bought_mm == pytest.approx((77.5, 70, 24.2))


def test_segments_are_counted_and_mitred() -> None:
    """Three segments of 30°: 15° off square at each end."""
    (ring,) = pieces(Role.CORNER, corners=(corner("ring", pieces=3),))
    assert ring.count == 3
    assert ring.angles_deg == pytest.approx((75, 75))
    assert ring.net_mm == pytest.approx((31.058, 15.567, 17.6), abs=0.001)


def test_strips_are_as_long_as_the_outer_one_and_left_long() -> None:
    """Outermost of 14 strips of 1.0 mm: mean radius 59.5, a quarter turn."""
    (bend,) = pieces(Role.CORNER, corners=(corner("strips"),))
    assert bend.count == 14
    assert bend.net_mm == pytest.approx((59.5 * 1.570796, 1.0, 17.6), abs=0.001)
    assert bend.blank_mm[0] == pytest.approx(bend.net_mm[0] + 3.2)
    assert any("spring back" in say(reason) for reason in bend.reasons)


def test_straight_edging_that_meets_a_corner_piece_is_fitted_there() -> None:
    """Front: 1000 less 60 at the block; mitred and left long at the other end only."""
    front = next(
        layer for layer in pieces(Role.EDGING, corners=(corner("block"),)) if layer.side is Side.FRONT
    )
    assert front.net_mm[0] == pytest.approx(940)
    assert front.inner_mm == pytest.approx(940 - 14)
    assert front.blank_mm[0] == pytest.approx(941.6)


def test_edging_cut_off_with_the_carrier_is_left_long_at_both_ends() -> None:
    front = next(
        layer for layer in pieces(Role.EDGING, corners=(corner("clipped"),)) if layer.side is Side.FRONT
    )
    assert front.blank_mm[0] == pytest.approx(front.net_mm[0] + 3.2)


def insert(**other: object) -> Insert:
    given = {
        "depth_mm": 12.0,
        "clearance_mm": 0.15,
        "outline": rounded_rectangle(150, 44, 10).moved(200, 100),
    }
    return Insert("wood", wood="beech", **{**given, **other})  # type: ignore[arg-type]


def test_an_insert_is_its_recess_less_the_clearance_on_each_side() -> None:
    (piece,) = pieces(Role.INSERT, inserts=(insert(),))
    assert piece.net_mm == pytest.approx((149.7, 43.7, 12))
    assert piece.blank_mm == pytest.approx((149.7, 43.7, 12.8))
    assert piece.bought_mm is not None
    assert piece.bought_mm[0] == pytest.approx(400)


def test_grain_across_turns_length_and_width_of_the_piece() -> None:
    (piece,) = pieces(Role.INSERT, inserts=(insert(grain_deg=90.0),))
    assert piece.net_mm[:2] == pytest.approx((43.7, 149.7))


def test_an_insert_right_through_is_as_high_as_what_is_there_when_it_goes_in() -> None:
    """Carrier 17.6 before the facing; after it 0.5 + 0.1 + 17.6 + 0.1 + 0.8, flushed on both faces."""
    (before,) = pieces(Role.INSERT, inserts=(insert(depth_mm=None),))
    assert before.net_mm[2] == pytest.approx(17.6)
    assert before.blank_mm[2] == pytest.approx(17.6 + 1.6)
    (after,) = pieces(Role.INSERT, inserts=(insert(depth_mm=None, when="after facing"),))
    assert after.net_mm[2] == pytest.approx(19.1)
    assert after.blank_mm[2] == pytest.approx(19.1 + 0.4)


def test_four_inserts_share_one_safe_stick() -> None:
    """4 × (149.7 + 6.2) is longer than 400: no more than that is bought for each."""
    (piece,) = pieces(Role.INSERT, count=4, inserts=(insert(),))
    assert piece.bought_mm is not None
    assert piece.bought_mm[0] == pytest.approx(155.9)


def test_a_lining_runs_once_round_its_opening() -> None:
    hole = Cutout("hole", circle(60, (300, 200)), lining="ash", lining_width_mm=10.0)
    (lining,) = pieces(Role.LINING, cutouts=(hole,))
    assert lining.net_mm == pytest.approx((188.496, 10, 17.6), abs=0.001)


@pytest.mark.parametrize(
    ("kind", "words"), [("block", "notched 46 mm along the length"), ("ring", "rounded to 46 mm")]
)
def test_the_carrier_is_told_what_its_corner_becomes(kind: str, words: str) -> None:
    (carrier,) = pieces(Role.CARRIER, corners=(corner(kind),))
    assert any(words in say(reason) for reason in carrier.reasons)
