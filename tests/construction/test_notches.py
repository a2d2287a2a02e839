"""Notches: outline, carrier, strips that stop at them and pieces that return round them, against sums by hand.

The panel is 1000 × 500 with edgings of 14 front, 20 rear, 12 left and 9 right.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jobs_by_hand import ALL_UNDER, built, edge, job, panel

from evenface.construction import BuiltPanel, EdgePiece
from evenface.construction.notches import notches_of
from evenface.construction.shapes import finished_outline
from evenface.piece.records import Corner, CornerAt, Edge, Notch, Side

HAND = 3.141592653589793
OTHER = {
    CornerAt.FRONT_LEFT: CornerAt.FRONT_RIGHT,
    CornerAt.FRONT_RIGHT: CornerAt.FRONT_LEFT,
    CornerAt.REAR_LEFT: CornerAt.REAR_RIGHT,
    CornerAt.REAR_RIGHT: CornerAt.REAR_LEFT,
}


def made(*edges: Edge, **other: object) -> BuiltPanel:
    panels, _ = built(job(panel(*(edges or ALL_UNDER), **other)))
    return panels[0]


def pipe(side: Side = Side.REAR, **other: object) -> Notch:
    given = {"along_mm": 300.0, "length_mm": 90.0, "depth_mm": 60.0, "origin": "pipe"} | other
    return Notch("pipe", side, **given)  # type: ignore[arg-type]


def bitten(at: CornerAt = CornerAt.FRONT_LEFT, **other: object) -> Corner:
    return Corner(at, "notch", notch_mm=(80.0, 55.0), origin="bitten", **other)  # type: ignore[arg-type]


def by_what(one: BuiltPanel) -> dict[str, EdgePiece]:
    return {piece.what: piece for piece in one.edge_pieces if piece.side is None}


def test_the_finished_outline_goes_round_notches() -> None:
    one = made(corners=(bitten(inner_radius_mm=8.0),), notches=(pipe(inner_radius_mm=10.0),))
    left = 1000 * 500 - (80 * 55 - (1 - HAND / 4) * 64) - (90 * 60 - 2 * (1 - HAND / 4) * 100)
    outline = finished_outline(one)
    assert outline.area_mm2 == pytest.approx(left, rel=1e-12)
    assert not outline.contains((300.0, 450.0))
    assert outline.contains((300.0, 439.0))
    assert sum(notch.outline.area_mm2 for notch in notches_of(one)) == pytest.approx(
        1000 * 500 - left, rel=1e-9
    )


@pytest.mark.parametrize(
    ("side", "inside"),
    [(Side.FRONT, (300, 30)), (Side.REAR, (300, 470)), (Side.LEFT, (30, 300)), (Side.RIGHT, (970, 300))],
)
def test_along_counts_from_the_left_or_front_end_of_every_edge(
    side: Side, inside: tuple[float, float]
) -> None:
    one = made(notches=(pipe(side),))
    outline = finished_outline(one)
    assert not outline.contains(inside)
    assert notches_of(one)[0].outline.contains(inside)
    assert outline.area_mm2 == pytest.approx(1000 * 500 - 90 * 60)


def test_a_notch_cut_through_the_edging_leaves_strips_and_carrier_whole() -> None:
    plain, one = made(), made(notches=(pipe(),), corners=(bitten(),))
    assert one.edgings == plain.edgings
    assert one.edge_pieces == ()
    assert one.carrier_outline == plain.carrier_outline


def test_edging_returned_round_a_notch_in_an_edge() -> None:
    """Rear edging 20 wide, 1000 long with mitres; the notch from 255 to 345, 60 deep, walls 20 thick."""
    one = made(notches=(pipe(returned=True),))
    walls, bottom = by_what(one)["walls"], by_what(one)["bottom"]
    assert (walls.count, walls.outer_mm) == (
        2,
        60 - 20 + 20,
    )  # from the strip's inner face to behind the bottom
    assert bottom.outer_mm == 90
    strips = [piece for piece in one.edge_pieces if piece.side is Side.REAR]
    assert [piece.outer_mm for piece in strips] == [255, 655]
    assert [piece.inner_mm for piece in strips] == [255 - 12, 655 - 9]
    assert one.carrier_outline is not None
    carrier = (1000 - 12 - 9) * (500 - 14 - 20)
    assert one.carrier_outline.area_mm2 == pytest.approx(carrier - (90 + 2 * 20) * 60)


def test_an_inner_radius_asks_for_blocks_in_the_inner_corners() -> None:
    """The strips stop at the blocks: 60 − 20 − 15 and 90 − 2 · 15; each block 15 + 20 square."""
    one = made(notches=(pipe(returned=True, inner_radius_mm=15.0),))
    pieces = by_what(one)
    assert pieces["walls"].outer_mm == 25
    assert pieces["bottom"].outer_mm == 60
    assert (pieces["inner corner"].outer_mm, pieces["inner corner"].width_mm) == (35, 35)
    assert pieces["inner corner"].count == 2


def test_edging_returned_round_a_notched_corner() -> None:
    """Left 12 and front 14 wide: walls 80 − 12 + 12 along the length, 55 − 14 along the width."""
    one = made(corners=(bitten(returned=True),))
    pieces = by_what(one)
    assert pieces["wall along the length"].outer_mm == 80
    assert pieces["wall along the length"].width_mm == 14
    assert pieces["wall along the width"].outer_mm == 41
    assert pieces["wall along the width"].width_mm == 12
    front, left = one.edging(Side.FRONT), one.edging(Side.LEFT)
    assert front is not None
    assert left is not None
    assert (front.start.outer_mm, left.start.outer_mm) == (80, 55)
    assert one.carrier_outline is not None
    assert one.carrier_outline.area_mm2 == pytest.approx((1000 - 21) * (500 - 34) - 80 * 55)


def test_wood_and_carrier_round_a_returned_notch_fill_the_outline() -> None:
    """Seen from above carrier, strips and returned pieces make up the finished outline to the last mm²."""
    for radius in (0.0, 9.0):
        one = made(
            corners=(bitten(CornerAt.REAR_RIGHT, returned=True, inner_radius_mm=radius),),
            notches=(pipe(Side.LEFT, returned=True, inner_radius_mm=radius, along_mm=200.0),),
        )
        assert one.carrier_outline is not None
        in_pieces = {piece.side for piece in one.edge_pieces}
        wood = sum(
            edging.width_mm * (edging.outer_length_mm + edging.inner_length_mm) / 2
            for edging in one.edgings
            if edging.side not in in_pieces
        )
        wood += sum(
            piece.count * piece.width_mm * (piece.outer_mm + piece.inner_mm) / 2 for piece in one.edge_pieces
        )
        corners = 3  # inner corners: what a block has more than its rounding leaves is worked away
        wood -= corners * HAND / 4 * radius**2
        assert one.carrier_outline.area_mm2 + wood == pytest.approx(finished_outline(one).area_mm2, abs=1e-6)


def test_edging_cannot_return_where_there_is_none_or_too_little_depth() -> None:
    no_rear = tuple(edge(side) for side in (Side.FRONT, Side.LEFT))
    assert made(*no_rear, notches=(pipe(returned=True),)).edge_pieces == ()
    shallow = made(notches=(pipe(returned=True, depth_mm=25.0, inner_radius_mm=6.0),))
    assert shallow.edge_pieces == ()


@given(
    st.sampled_from(list(CornerAt)),
    st.sampled_from([Side.FRONT, Side.REAR]),
    st.booleans(),
    st.integers(200, 800),
)
@settings(max_examples=30)
def test_a_mirrored_panel_has_the_mirrored_carrier(
    at: CornerAt, side: Side, returned: bool, along: int
) -> None:
    alike = tuple(edge(each, 14.0) for each in Side)

    def one(corner: CornerAt, middle: float) -> BuiltPanel:
        return made(
            *alike,
            corners=(bitten(corner, returned=returned),),
            notches=(pipe(side, returned=returned, along_mm=middle),),
        )

    here, there = one(at, float(along)), one(OTHER[at], 1000.0 - along)
    assert here.carrier_outline is not None
    assert there.carrier_outline is not None
    assert here.carrier_outline.mirrored(500.0).same_as(there.carrier_outline, 1e-6)
    assert finished_outline(here).mirrored(500.0).same_as(finished_outline(there), 1e-6)
    assert sorted(p.outer_mm for p in here.edge_pieces) == sorted(p.outer_mm for p in there.edge_pieces)
