"""Templates of a whole panel: sizes by hand, refusals that name what would do, mirrored parts mirrored."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jobs_by_hand import built, edge, job, panel

from evenface.construction import Construction
from evenface.finding import Finding
from evenface.piece.records import Corner, CornerAt, Cutout, Grip, Insert, Notch, Panel, Shop, Side
from evenface.shape.build import circle, d_shape, rounded_rectangle
from evenface.shape.outline import Outline
from evenface.shape.template import cut_by
from evenface.templates import RoutedTemplate, templates_of
from evenface.words import say

ALIKE = tuple(edge(side, 14.0) for side in Side)


def made(one: Panel, shop: Shop | None = None) -> tuple[tuple[RoutedTemplate, ...], tuple[Finding, ...]]:
    whole = job(one, shop=shop or Shop())
    panels, _ = built(whole)
    return templates_of(whole, [Construction(whole.pieces[0], panels)])


def the(one: Panel, shop: Shop | None = None) -> RoutedTemplate:
    (found,), refused = made(one, shop)
    assert not refused
    return found


def refused(one: Panel, shop: Shop | None = None) -> Finding:
    _, (found,) = made(one, shop)
    return found


def hole(outline: Outline) -> Panel:
    return panel(*ALIKE, cutouts=(Cutout("hole", outline, origin="cutout"),))


BASIN = rounded_rectangle(480, 380, 20).moved(200, 60)


def test_a_cut_out_is_made_larger_by_half_of_bush_less_cutter() -> None:
    """Bush 30, cutter 12: 9 all round, radius 20 + 9; 19.1 deep in four passes of 4.775."""
    found = the(hole(BASIN))
    assert found.template.outline.size == pytest.approx((498, 398))
    assert {round(s.radius, 6) for s in found.template.outline.segments if s.is_arc} == {29.0}
    assert (found.passes, found.pass_mm) == (4, pytest.approx(19.1 / 4))
    assert len(found.holes) == 4
    assert found.least_radius_mm == pytest.approx(6)


def test_a_bearing_as_large_as_its_cutter_needs_no_offset() -> None:
    found = the(hole(BASIN), Shop(bearing_mm=12.0))
    assert found.template.outline.same_as(BASIN)


def test_one_template_serves_every_corner_of_a_radius() -> None:
    """Round 60, bush 30, cutter 12: a square of 240 less 18, corners of 51."""
    corners = tuple(Corner(at, "radius", 60.0, origin=at.value) for at in CornerAt)
    found = the(panel(*ALIKE, corners=corners))
    assert found.template.outline.size == pytest.approx((222, 222))
    assert {round(s.radius, 6) for s in found.template.outline.segments if s.is_arc} == {51.0}
    assert len(found.curve.corners) == 4
    assert any("9 mm inside" in say(note) for note in found.notes)


def test_behind_a_ring_the_carrier_has_a_template_too() -> None:
    """Radius 60 less 14 of edging: 46, and 46 − 9 on the template; as deep as the carrier alone."""
    corner = Corner(CornerAt.FRONT_LEFT, "radius", 60.0, "ring", origin="corner")
    (outside, carrier), _ = made(panel(*ALIKE, corners=(corner,)))
    assert (outside.curve.depth_mm, carrier.curve.depth_mm) == pytest.approx((19.1, 17.6))
    assert {round(s.radius, 6) for s in carrier.template.outline.segments if s.is_arc} == {37.0}


def test_too_tight_a_corner_names_the_cutter_that_would_do() -> None:
    found = refused(hole(rounded_rectangle(200, 100, 4).moved(200, 100)), Shop(bush_mm=27.0, cutter_mm=10.0))
    assert found.code == "template.too_tight"
    (change,) = found.remedies[0].changes
    assert (change.path, change.new) == ("shop.cutter", "8")


def test_a_tight_outer_corner_names_the_bush_that_would_do() -> None:
    """Round 5 with a cutter of 12: the guide may stand 5 away, so a bush of 22."""
    corners = (Corner(CornerAt.FRONT_LEFT, "radius", 5.0, origin="corner"),)
    found = refused(panel(*ALIKE, corners=corners))
    (change,) = found.remedies[0].changes
    assert (change.path, change.new) == ("shop.bush", "22")


def test_the_cutter_at_hand_that_would_do_is_named() -> None:
    found = refused(
        hole(rounded_rectangle(200, 100, 5).moved(200, 100)), Shop(cutter_mm=12.0, cutters_mm=(6.0, 8.0))
    )
    assert "8 mm" in say(found.message)


def test_what_does_not_reach_is_told_by_how_much() -> None:
    """19.1 of panel and 12 of template against 25."""
    _, findings = made(hole(BASIN), Shop(reach_mm=25.0))
    (found,) = findings
    assert found.code == "template.reach"
    assert found.value is not None
    assert found.value.nominal == pytest.approx(25 - 31.1)


def let_in(**other: object) -> Insert:
    outline = rounded_rectangle(150, 44, 10).moved(200, 100)
    return Insert("wood", outline, "beech", depth_mm=12.0, origin="insert", **other)  # type: ignore[arg-type]


def test_recess_and_insert_have_a_template_each() -> None:
    """Recess 150 × 44 and 9 all round; piece 149.8 × 43.8 less 9 all round."""
    (recess, piece), none = made(panel(*ALIKE, inserts=(let_in(),)))
    assert not none
    assert recess.template.outline.size == pytest.approx((168, 62))
    assert piece.template.outline.size == pytest.approx((131.8, 25.8))


def test_two_bushes_cut_recess_and_insert_from_one_template() -> None:
    """D 27, d 8, cutter 10: (8 + 2·10 − 27)/2 = 0.5 of air on each side."""
    (recess, _), _ = made(
        panel(*ALIKE, inserts=(let_in(),)), Shop(bush_mm=27.0, cutter_mm=10.0, small_bush_mm=8.0)
    )
    assert recess.pair is not None
    assert recess.pair.clearance_mm == pytest.approx(0.5)


def grip(**other: object) -> Grip:
    given: dict[str, object] = {"path": ((235.0, 122.0), (315.0, 122.0)), "cutter": "ball"}
    return Grip("grip", "", **{**given, **other}, cutter_diameter_mm=20.0, depth_mm=8.0)  # type: ignore[arg-type]


def test_a_grip_runs_in_a_slot_as_wide_as_the_bush() -> None:
    found = the(panel(*ALIKE, grips=(grip(),)))
    assert found.template.outline.size == pytest.approx((80 + 30, 30))
    assert found.template.part.size == pytest.approx((100, 20))


def test_a_cutter_wider_than_the_bush_is_refused() -> None:
    found = refused(panel(*ALIKE, grips=(grip(),)), Shop(bush_mm=18.0))
    assert found.code == "template.bush"
    assert found.remedies[0].changes[0].new == "23"


def test_a_slanting_grip_for_both_hands_has_its_mirror_image() -> None:
    slanting = grip(path=((235.0, 122.0), (315.0, 140.0)))
    (right, left), _ = made(panel(*ALIKE, grips=(slanting,)))
    assert left.curve.hand == "left"
    middle = (right.template.outline.bounds[0] + right.template.outline.bounds[2]) / 2
    assert left.template.outline.same_as(right.template.outline.mirrored(middle))


def test_alike_curves_of_a_piece_are_made_once() -> None:
    alike = tuple(panel(*ALIKE, name=name, cutouts=(Cutout("hole", BASIN),)) for name in ("one", "two"))
    whole = job(*alike)
    panels, _ = built(whole)
    found, _ = templates_of(whole, [Construction(whole.pieces[0], panels)])
    assert len(found) == 1


def test_a_free_outline_is_routed_from_outside() -> None:
    table = panel(*ALIKE, outline=circle(500, (250, 250)), length_mm=500.0, width_mm=500.0)
    assert the(table).template.outline.area_mm2 == pytest.approx(circle(482).area_mm2)


@given(
    st.sampled_from([rounded_rectangle(200, 90, 17), d_shape(220, 90, 15), circle(70)]),
    st.floats(200, 600),
    st.floats(16, 40),
    st.floats(4, 14),
)
@settings(max_examples=40)
def test_a_template_cuts_its_part_and_a_mirrored_part_has_the_mirrored_template(
    shape: Outline, x: float, bush: float, cutter: float
) -> None:
    part = shape.moved(x, 150)
    shop = Shop(bush_mm=bush, cutter_mm=cutter)
    one, other = the(hole(part), shop), the(hole(part.mirrored(500.0)), shop)
    assert cut_by(one.template).area_mm2 == pytest.approx(part.area_mm2, abs=0.01)
    assert other.template.outline.same_as(one.template.outline.mirrored(500.0), 1e-6)


def test_a_notch_gets_a_template_that_is_open_past_the_edge() -> None:
    """90 × 60 with inner radius 10: the cutter of 12 leaves it, the opening runs 30 past the rear edge."""
    pipe = Notch("pipe", Side.REAR, 300.0, 90.0, 60.0, 10.0, origin="pipe")
    found = the(panel(*ALIKE, notches=(pipe,)))
    assert found.curve.what == "notch"
    assert found.curve.part.bounds == pytest.approx((255, 440, 345, 530))
    assert cut_by(found.template).same_as(found.curve.part, 1e-6)
    assert refused(panel(*ALIKE, notches=(replace(pipe, inner_radius_mm=5.0),))).code == "template.too_tight"


def test_a_notched_corner_gets_one_too_run_out_on_both_sides() -> None:
    bitten = Corner(CornerAt.REAR_RIGHT, "notch", notch_mm=(80.0, 55.0), inner_radius_mm=8.0, origin="c")
    found = the(panel(*ALIKE, corners=(bitten,)))
    assert found.curve.part.bounds == pytest.approx((920, 445, 1030, 530))
    assert min(s.radius for s in found.curve.part.segments if s.is_arc) == pytest.approx(8)
