"""Sizes of corner pieces, inserts and linings, against sums by hand with the allowances stated here."""

import pytest
from jobs_by_hand import built, edge, job, panel

from evenface.parts import LayerSizes, part_of
from evenface.piece.records import Allowances, Corner, CornerAt, Cutout, Insert, Notch, Role, Side
from evenface.shape.build import circle, rounded_rectangle
from evenface.shape.outline import Outline
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
    """Outermost of 14 strips of 1.0 mm: mean radius 59.5, a quarter turn; 60 straight at both ends, 13 higher."""
    (bend,) = pieces(Role.CORNER, corners=(corner("strips"),))
    assert bend.count == 14
    assert bend.net_mm == pytest.approx((59.5 * 1.570796, 1.0, 17.6), abs=0.001)
    assert bend.blank_mm == pytest.approx((bend.net_mm[0] + 2 * 60, 1.0, 17.6 + 13))
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


def shaped(outline: Outline, role: Role = Role.EDGING, **other: object) -> tuple[LayerSizes, ...]:
    length, width = outline.size
    return pieces(role, outline=outline, length_mm=length, width_mm=width, **other)


def test_edging_of_a_free_outline_has_its_own_lengths_and_no_strip_of_the_rectangle() -> None:
    """A gable of 400 × 600: two slopes of √(200² + 400²), and nothing as long as the rectangle's 600."""
    slopes = shaped(Outline.of([(0, 0), (400, 0), (400, 200), (200, 600), (0, 200)]))
    assert len(slopes) == 5
    assert [one.net_mm[0] for one in slopes] == pytest.approx([400, 200, 447.2136, 447.2136, 200], abs=1e-4)
    assert slopes[2].blank_mm[0] == pytest.approx(447.2136 + 3.2, abs=1e-4)
    assert slopes[2].angles_deg == pytest.approx((76.717, 26.565), abs=1e-3)
    assert slopes[2].direction_deg == pytest.approx(116.565, abs=1e-3)


def test_arcs_of_a_free_outline_are_segments_or_strips_on_the_ladder() -> None:
    """Two segments a corner of R 60 behind 14: 2·60·sin 22.5° long, 60 − 46·cos 22.5° deep, 5 over each way."""
    box = rounded_rectangle(600, 400, 60)
    arcs = [one for one in shaped(box) if one.name.startswith("arc")]
    assert [one.count for one in arcs] == [2] * 4
    assert arcs[0].net_mm == pytest.approx((45.922, 17.502, 17.6), abs=1e-3)
    assert arcs[0].blank_mm == pytest.approx((50.922, 22.502, 17.6 + 1.6), abs=1e-3)
    assert arcs[0].angles_deg == pytest.approx((67.5, 67.5))
    bent = shaped(circle(800, (400, 400)))
    assert [(one.count, one.net_mm[1]) for one in bent] == [(2, 7.0), (2, 7.0)]
    assert bent[0].net_mm[0] == pytest.approx(396.5 * 3.14159265, abs=1e-4)
    assert any("spring back" in say(reason) for reason in bent[0].reasons)


def test_returned_edging_stands_on_the_ladder_in_pieces() -> None:
    pipe = Notch("pipe", Side.REAR, 300.0, 90.0, 60.0, 15.0, returned=True, origin="pipe")
    made = pieces(Role.EDGING, notches=(pipe,))
    rear = [one for one in made if one.side is Side.REAR]
    assert [one.net_mm[0] for one in rear] == [255, 655]
    assert [one.inner_mm for one in rear] == [241, 641]
    walls = {one.name: one for one in made if one.side is None}
    assert walls["pipe, walls"].count == 2
    assert walls["pipe, walls"].net_mm == (60 - 14 - 15, 14, 17.6)
    (block,) = pieces(Role.CORNER, notches=(pipe,))
    assert (block.count, block.net_mm) == (2, (29, 29, 17.6))


def test_a_strip_cut_through_by_a_notch_says_so() -> None:
    pipe = Notch("pipe", Side.REAR, 300.0, 90.0, 60.0, 15.0, origin="pipe")
    rear = next(one for one in pieces(Role.EDGING, notches=(pipe,)) if one.side is Side.REAR)
    assert rear.net_mm[0] == 1000
    assert any("notch pipe is cut through" in say(reason) for reason in rear.reasons)


def test_carrier_and_facing_say_what_a_notch_takes() -> None:
    """Returned by 14: the carrier loses 90 + 28 by 60, the facing's blank stays a rectangle."""
    pipe = Notch("pipe", Side.REAR, 300.0, 90.0, 60.0, 15.0, returned=True, origin="pipe")
    (carrier,) = pieces(Role.CARRIER, notches=(pipe,))
    assert any("118 mm along the length and 60 mm along the width" in say(one) for one in carrier.reasons)
    (face,) = pieces(Role.FACE, notches=(pipe,))
    assert face.blank_mm[:2] == (1010, 510)
    assert any("pipe is cut out of it" in say(one) for one in face.reasons)
