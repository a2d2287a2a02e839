"""Net, blank and bought sizes of every layer, against sums done by hand with the allowances stated here."""

import pytest
from jobs_by_hand import ALL_UNDER, built, edge, flush, job, panel

from evenface.parts import LayerSizes, Part, part_of
from evenface.piece.records import Allowances, Made, MadeSize, Meeting, Order, Panel, Role, Side
from evenface.words import say

ALLOWANCES = Allowances(
    overhang_mm=dict.fromkeys(Side, 5.0), proud_under_mm=0.8, proud_flush_mm=0.2, end_mm=1.6
)


def part(one: Panel, made: Made | None = None, **other: object) -> Part:
    panels, _ = built(job(one, allowances=ALLOWANCES, **other), made or Made())
    return part_of(panels[0], "1.1")


def layer(one: Part, role: Role, side: Side | None = None) -> LayerSizes:
    found = one.layer(role, side)
    assert found is not None
    return found


def test_facing_over_the_edging_is_cut_over_on_every_edge() -> None:
    made = part(panel(*ALL_UNDER))
    assert layer(made, Role.FACE).net_mm == pytest.approx((1000, 500, 0.8))
    assert layer(made, Role.FACE).blank_mm == pytest.approx((1010, 510, 0.8))
    assert layer(made, Role.CARRIER).blank_mm == pytest.approx((979, 466, 17.6))


def test_overhang_can_be_set_for_each_edge() -> None:
    own = Allowances(overhang_mm={Side.FRONT: 2.0, Side.LEFT: 0.0})
    made = part(panel(*ALL_UNDER, allowances=own))
    assert layer(made, Role.FACE).blank_mm == pytest.approx((1000 + 0 + 5, 500 + 2 + 5, 0.8))


def test_fitted_facing_has_no_overhang_where_it_is_fitted() -> None:
    made = part(panel(flush(Side.FRONT), edge(Side.REAR)))
    face = layer(made, Role.FACE)
    assert face.net_mm == pytest.approx((1000, 500 - 14, 0.8))
    assert face.blank_mm == pytest.approx((1010, 500 - 14 + 5, 0.8))
    assert face.fitted


def test_facing_laid_before_its_flush_edging_is_trimmed_to_the_carrier() -> None:
    made = part(panel(*(flush(side, Order.FACING_FIRST) for side in Side)))
    assert layer(made, Role.FACE).blank_mm == pytest.approx((979 + 10, 466 + 10, 0.8))


def test_mitred_strip_is_left_long_at_both_ends_and_proud_on_both_faces() -> None:
    strip = layer(part(panel(*ALL_UNDER)), Role.EDGING, Side.FRONT)
    assert strip.net_mm == pytest.approx((1000, 14, 17.6))
    assert strip.inner_mm == pytest.approx(979)
    assert strip.blank_mm == pytest.approx((1000 + 2 * 1.6, 14, 17.6 + 2 * 0.8))


def test_strip_between_its_neighbours_is_fitted_in_length() -> None:
    strip = layer(part(panel(edge(Side.FRONT), flush(Side.LEFT), flush(Side.RIGHT))), Role.EDGING, Side.FRONT)
    assert strip.blank_mm[0] == pytest.approx(1000 - 12 - 9)


@pytest.mark.parametrize(
    ("order", "height"),
    [
        # flush both faces: 17.6 + 0.8 + 0.5 + 2 × 0.1 = 19.1
        (Order.EDGING_FIRST, 19.1 + 0.8 + 0.8),
        (Order.FACING_FIRST, 19.1 + 0.2 + 0.2),
    ],
)
def test_beside_a_facing_already_laid_only_a_hair_is_left_proud(order: Order, height: float) -> None:
    strip = layer(part(panel(flush(Side.FRONT, order))), Role.EDGING, Side.FRONT)
    assert strip.blank_mm[2] == pytest.approx(height)


def test_flush_above_and_under_below_takes_each_allowance_on_its_own_face() -> None:
    one = edge(Side.FRONT, top=Meeting.FLUSH, order=Order.FACING_FIRST)
    strip = layer(part(panel(one)), Role.EDGING, Side.FRONT)
    assert strip.net_mm[2] == pytest.approx(17.6 + 0.8 + 0.1)
    assert strip.blank_mm[2] == pytest.approx(18.5 + 0.2 + 0.8)


def test_every_deduction_is_said_in_words() -> None:
    made = part(panel(*ALL_UNDER))
    told = [say(reason) for reason in layer(made, Role.CARRIER).reasons]
    assert any("979 mm" in one and "12 mm left" in one and "9 mm right" in one for one in told), told
    assert any("466 mm" in one and "14 mm front" in one and "20 mm rear" in one for one in told), told
    assert any("5 mm over" in say(one) for one in layer(made, Role.FACE).reasons)


def test_what_is_cut_stays_as_it_came_out() -> None:
    size = MadeSize("Bench", "top", Role.CARRIER, None, 978.7, 465.8)
    carrier = layer(part(panel(*ALL_UNDER), Made(sizes=(size,))), Role.CARRIER)
    assert carrier.locked
    assert carrier.blank_mm == pytest.approx((978.7, 465.8, 17.6))


def test_mass_is_that_of_the_layers() -> None:
    made = part(panel())
    panels, _ = built(job(panel(), allowances=ALLOWANCES))
    carrier, (back, face) = panels[0].carrier, panels[0].faces
    per_square_metre = sum(
        layer.thickness.nominal * layer.material.density.nominal / 1000 for layer in (carrier, face, back)
    )
    assert made.mass_kg == pytest.approx(0.5 * per_square_metre)


def test_count_is_panels_times_pieces() -> None:
    assert part(panel(count=3), count=2).count == 6
