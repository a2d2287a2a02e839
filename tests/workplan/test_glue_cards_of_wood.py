"""Glue cards of corner pieces, inserts and edges, what they say when there are too few means, and in what order.

Sums beside the checks are worked by hand (DERIVED) from the trade's formulas: grams = area × spread × 1.1 and
F = p × A; a usual clamp gives 1.9 kN (READ).
"""

import math

import jobs_by_hand as by_hand
import pytest
from workplan.random_panels import LINOLEUM, cutout, insert, made

from evenface.finding import Severity
from evenface.materials import load_catalogue
from evenface.piece.records import Corner, CornerAt, Order, Side
from evenface.words import say
from evenface.workplan import Work, breaches, derive_steps
from evenface.workplan.clamps import by_spread, caul_pairs, clamp_strip
from evenface.workplan.glue_card import glue_cards
from evenface.workplan.order import one_after_another
from evenface.workplan.pressing import UNCOUNTED, Means, pressed

CATALOGUE = load_catalogue()
GLUES = tuple(CATALOGUE.glue(name) for name in CATALOGUE.names("glue"))
HEIGHT_MM = 17.6


def cards_of(panel, work, means=UNCOUNTED, glues=(), **how):
    panels = made(panel, **how)
    steps = derive_steps(panels)
    kinds = {step.id: step.work for step in steps}
    return [one for one in glue_cards(panels, steps, means, glues) if kinds[one.step] is work]


def cornered(construction, radius=60.0, width=14.0, **more):
    corner = Corner(CornerAt.FRONT_LEFT, "radius", radius, construction, **more)
    edges = (by_hand.edge(Side.FRONT, width), by_hand.edge(Side.LEFT, width))
    return by_hand.panel(*edges, corners=(corner,))


def area_of(card, part):
    return sum(line.area_m2 for line in card.lines if part in say(line.surface)) * 1e6


def test_a_clipped_corner_is_glued_in_and_has_its_card():
    (card,) = cards_of(cornered("clipped"), Work.GLUE_CORNERS)
    # legs of 46 − √(58² − 46²) = 10.7 mm, one flat of 15.1 mm between them, 17.6 high
    assert area_of(card, "carrier") == pytest.approx(15.1 * HEIGHT_MM, rel=0.01)
    assert "45°" in say(card.means[0])


def test_a_corner_that_needs_no_clip_has_nothing_glued_in():
    assert not cards_of(cornered("clipped", 20.0, 10.0), Work.GLUE_CORNERS)
    steps = derive_steps(made(cornered("clipped", 20.0, 10.0)))
    assert Work.GLUE_CORNERS not in {step.work for step in steps}
    assert not breaches(made(cornered("clipped", 20.0, 10.0)), one_after_another(steps))


def test_a_block_is_spread_on_two_flats_of_radius_less_width():
    (card,) = cards_of(cornered("block"), Work.GLUE_CORNERS)
    # radius 60, edging 14: legs of 46 + 46 mm, 17.6 high
    assert area_of(card, "carrier") == pytest.approx(92.0 * HEIGHT_MM)
    # brushed twice on the plywood's edge at 200 g/m²: 92 × 17.6 mm² = 0.0016192 m², × 220 = 0.356 g a coat
    bed = next(line for line in card.lines if "carrier" in say(line.surface))
    assert (bed.coats, bed.grams) == (2, pytest.approx(0.356, abs=0.001))


def test_bent_strips_are_spread_between_each_two_and_stay_a_day_in_the_form():
    (card,) = cards_of(cornered("strips", radius=150.0, pieces=4), Work.GLUE_CORNERS)
    # mean lines of strips 2 to 4 of 3.5 mm on an inner radius of 136: (136 + 5.25) + (136 + 8.75) + (136 + 12.25)
    inside = (141.25 + 144.75 + 148.25) * math.pi / 2.0 * HEIGHT_MM
    assert area_of(card, "between the strips") == pytest.approx(inside)
    assert area_of(card, "carrier") == pytest.approx(136.0 * math.pi / 2.0 * HEIGHT_MM)
    assert card.press_h >= 24.0
    assert not [one for one in card.findings if one.code == "glue.creep"]


def test_bent_strips_on_contact_glue_are_a_stop():
    (card,) = cards_of(cornered("strips", 150.0), Work.GLUE_CORNERS, edging_glue="contact-solvent")
    (creep,) = [one for one in card.findings if one.code == "glue.creep"]
    assert creep.severity is Severity.STOP


def test_an_insert_is_spread_on_walls_and_bed_and_pressed_on_its_bed():
    panel = by_hand.panel(inserts=(insert("pull", "before facing", 100.0, 9.0),))
    (card,) = cards_of(panel, Work.GLUE_INSERT)
    bed = area_of(card, "bed")
    # 120 × 40 less the clearance all round
    assert 0.98 * 4800.0 < bed < 4800.0
    assert card.force_n == pytest.approx(1.2 * bed)
    # 5.7 kN is just above three clamps of 1.9
    assert any("4 clamps" in say(one) for one in card.means)
    panel = by_hand.panel(inserts=(insert("pull", "before facing", 100.0, None),))
    (through,) = cards_of(panel, Work.GLUE_INSERT)
    assert through.force_n is None
    assert area_of(through, "bed") == 0.0


def test_edges_are_counted_in_the_order_they_are_glued():
    cards = cards_of(by_hand.panel(*by_hand.ALL_UNDER), Work.GLUE_EDGING)
    assert [say(one.order).split(",")[0] for one in cards] == [f"Edge {n} of 4" for n in (1, 2, 3, 4)]


def test_an_edging_glued_on_last_is_held_by_the_sheets_edges_too():
    def grams(order):
        (card,) = cards_of(by_hand.panel(by_hand.flush(Side.FRONT, order)), Work.GLUE_EDGING)
        return card.lines[0].grams

    # 17.6 of carrier alone, or with 0.8 and 0.5 of sheets and two glue lines of 0.1
    assert grams(Order.FACING_FIRST) / grams(Order.EDGING_FIRST) == pytest.approx(19.1 / 17.6)


def test_soft_wood_is_pressed_less_than_hard():
    def pressure(wood):
        edge = by_hand.edge(Side.FRONT, 14.0)
        edge = type(edge)(edge.side, wood, edge.width_mm, origin=edge.origin)
        (card,) = cards_of(by_hand.panel(edge), Work.GLUE_EDGING)
        return card.pressure_mpa

    soft = next(n for n in CATALOGUE.names("wood") if not CATALOGUE.wood(n).hardwood)
    assert (pressure("ash"), pressure(soft)) == (1.2, 0.7)


def test_too_few_clamps_are_said_with_the_pressure_they_give():
    panel = by_hand.panel(by_hand.edge(Side.FRONT))
    (card,) = cards_of(panel, Work.GLUE_EDGING, Means(clamps=6))
    (few,) = [one for one in card.findings if one.code == "glue.clamps"]
    # 6 × 1.9 kN on 1000 × 17.6 mm² is 0.648 N/mm², under the 0.7 of the range
    assert few.severity is Severity.WEIGH
    assert "0.65 N/mm²" in say(few.message)
    assert not [
        one
        for one in cards_of(panel, Work.GLUE_EDGING, Means(clamps=12))[0].findings
        if one.code == "glue.clamps"
    ]


def test_a_press_too_small_is_said_whichever_way_the_panel_is_turned():
    def told(press):
        (card,) = cards_of(by_hand.panel(), Work.BOND, Means(press_mm=press))
        return [one.code for one in card.findings if one.code == "glue.press_size"]

    assert told((500.0, 1000.0)) == told((1000.0, 500.0)) == []
    assert told((990.0, 500.0)) == told((1200.0, 480.0)) == ["glue.press_size"]


def test_another_glue_is_named_only_when_it_gives_time_and_stands_the_water():
    def named(panel):
        (card,) = cards_of(panel, Work.BOND, glues=GLUES)
        (slow,) = [one for one in card.findings if one.code == "glue.open_time"]
        return next((say(r.message) for r in slow.remedies if r.code == "glue.slower"), "")

    assert CATALOGUE.glue("epoxy").title in named(by_hand.panel())
    assert CATALOGUE.glue("urea").title in named(by_hand.panel())
    assert CATALOGUE.glue("urea").title not in named(by_hand.panel(cutouts=(cutout(),)))


def test_splitting_is_offered_with_its_own_time():
    (card,) = cards_of(by_hand.panel(), Work.BOND)
    (slow,) = [one for one in card.findings if one.code == "glue.open_time"]
    (split,) = [one for one in slow.remedies if one.code == "glue.split"]
    # two faces of 0.5 m² at 10 m²/h are 6 min, closing 5: 11 together, 8 each
    assert card.needs_min == pytest.approx(11.0)
    assert split.predicted.nominal == pytest.approx(8.0)


def test_contact_glue_spends_its_drying_time_too():
    (card,) = cards_of(by_hand.panel(), Work.BOND, glue="contact-solvent")
    # four surfaces of 0.5 m²: 12 min; dry 15; laying 1 m²: 6; closing 5
    assert card.needs_min == pytest.approx(12.0 + 15.0 + 6.0 + 5.0)


def test_water_at_an_opening_asks_for_its_class():
    wet = by_hand.panel(cutouts=(cutout(),))
    for glue, told in (("pva-d2", True), ("pva-d3", False), ("urea", True), ("epoxy", False)):
        (card,) = cards_of(wet, Work.BOND, glue=glue)
        assert any(one.code == "glue.water" for one in card.findings) is told, glue


def test_a_two_part_glue_is_mixed_for_one_piece_and_others_are_not():
    (card,) = cards_of(by_hand.panel(), Work.BOND, glue="urea")
    assert f"{card.lot_g:.0f} g" in say(card.mix)
    assert card.lot_g * card.pieces == pytest.approx(card.total_g)
    assert not say(cards_of(by_hand.panel(), Work.BOND, glue="pva-d3")[0].mix)


def test_linoleum_let_in_on_wet_glue_is_tried_on_a_strip():
    def told(*edges):
        (card,) = cards_of(by_hand.panel(*edges), Work.BOND, face=LINOLEUM, back=LINOLEUM)
        return any("trial strip" in say(one) for one in card.how)

    assert told(*(by_hand.flush(side) for side in Side))
    assert not told(*by_hand.ALL_UNDER)


@pytest.mark.parametrize("glue", sorted(CATALOGUE.names("glue")))
def test_every_card_says_gate_test_and_why(glue):
    panel = by_hand.panel(*by_hand.ALL_UNDER)
    for work, how in ((Work.BOND, {"glue": glue}), (Work.GLUE_EDGING, {"edging_glue": glue})):
        for card in cards_of(panel, work, glues=GLUES, **how):
            assert "°C" in say(card.gate)
            assert "450 mm × 150 mm" in say(card.test)
            assert all((say(card.why), card.how, card.means))
            assert all(line.grams > 0 and line.spread_g_m2 > 0 for line in card.lines)


def test_pressure_of_clamps_meets_when_they_stand_close():
    # jaw 35, batten 40, edging 14: 35 + 2 × 54 = 143 mm each; 1000 / 143 = 6.99
    assert by_spread(1000.0, 14.0) == 7
    # a thin lip without a batten: 35 + 2 × 6 = 47; 1000 / 47 = 21.3
    assert by_spread(1000.0, 6.0, batten_mm=0.0) == 22
    assert clamp_strip(1000.0, 18.0, 0.2, 12_000.0, 3.0).decided_by == "spread"


def test_pairs_of_cauls_across_a_small_front_but_not_across_a_top():
    pairs = caul_pairs(400.0, 150.0, 0.3, 12_000.0)
    # 3800 N / (0.3 × 150) = 84.4 mm: five pairs, one every 80
    assert (pairs.pairs, pairs.every_mm) == (5, 80.0)
    # q = 0.3 × 80 = 24 N/mm over 150: 5 × 24 × 150⁴ / (384 × 12000 × 4166667) = 0.0032 mm
    assert pairs.crown_mm == pytest.approx(0.00316, abs=1e-4)
    assert caul_pairs(1800.0, 650.0, 0.3, 12_000.0) is None


def test_a_crown_too_small_to_plane_is_left_out():
    def told(length_mm, width_mm):
        return " ".join(say(one) for one in pressed(CATALOGUE.glue("pva-d3"), 0.06, (length_mm, width_mm)))

    assert "every 80 mm, straight" in told(400.0, 150.0)
    # epoxy needs so little that cauls over 700 mm find room: q = 0.1 × 50 N/mm, 5 q l⁴ / (384 E I) = 0.31 mm
    wide = " ".join(say(one) for one in pressed(CATALOGUE.glue("epoxy"), 0.35, (500.0, 700.0)))
    assert "every 50 mm, crown 0.3" in wide


def test_two_usual_clamps_at_the_ends_of_a_caul():
    strip = clamp_strip(600.0, 20.0, 1.0, 12_000.0)
    # 2 × 1900 N on 600 × 20 mm²
    assert strip.caul_reaches_mpa == pytest.approx(0.3167, abs=1e-4)
    assert strip.caul_end_n == pytest.approx(6000.0)


def test_clamps_closed_at_once_are_those_of_all_corners():
    # bed of 92 × 17.6 mm at 1.2 N/mm² = 1.94 kN: two clamps by force and as the least
    (card,) = cards_of(cornered("block"), Work.GLUE_CORNERS)
    assert card.clamps == card.clamping.count
    both = (
        Corner(CornerAt.FRONT_LEFT, "radius", 60.0, "block"),
        Corner(CornerAt.REAR_LEFT, "radius", 60.0, "block"),
    )
    edges = (by_hand.edge(side, 14.0) for side in (Side.FRONT, Side.LEFT, Side.REAR))
    (two,) = cards_of(by_hand.panel(*edges, corners=both), Work.GLUE_CORNERS)
    assert two.clamps == 2 * card.clamps


def test_clamps_on_an_insert_are_those_its_card_names():
    # bed of 120 × 40 mm = 4800 mm², ash at 1.2 N/mm² = 5.76 kN: four clamps of 1.9 kN
    (card,) = cards_of(by_hand.panel(inserts=(insert("pull", "before facing", 60.0),)), Work.GLUE_INSERT)
    assert (card.clamps, math.ceil(card.force_n / 1900.0)) == (4, 4)
    assert "4 clamps" in say(card.means[0])
    (through,) = cards_of(
        by_hand.panel(inserts=(insert("pull", "before facing", 60.0, depth_mm=None),)), Work.GLUE_INSERT
    )
    assert through.clamps == 2
    (tapped,) = cards_of(
        by_hand.panel(inserts=(insert("pull", "before facing", 60.0),)),
        Work.GLUE_INSERT,
        glue="contact-solvent",
    )
    assert tapped.clamps == 0
