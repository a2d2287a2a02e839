"""Cards of closing joints: surfaces worked out by hand (DERIVED), one unlike case for each kind of joint."""

import math

import jobs_by_hand as by_hand
import pytest
from workplan.pieces_by_file import NAMES, example, steps_of
from workplan.random_panels import made

from evenface.construction.placed import Joint, Worked
from evenface.materials import load_catalogue
from evenface.piece.calendar_records import ShopCalendar
from evenface.words import say
from evenface.workplan import Work, derive_steps
from evenface.workplan.glue_card import glue_cards
from evenface.workplan.glue_dowels import dowel_card, set_mm2
from evenface.workplan.glue_joints import clamps_across, clamps_on, joint_card, spread_mm2
from evenface.workplan.pressing import Means
from evenface.workplan.schedule.needs import needs_of
from evenface.workplan.seams import Meets, Seam

GLUE = load_catalogue().glue("pva-d3")
STEP = derive_steps(made(by_hand.panel()))[-1]


def joint(kind, length, area=0.0, enters=0.0, number=0, name="one", glued=True):
    return Joint(
        kind, ("side", "top"), (0, 0, 0), (0, length, 0), enters, number, glued, area_mm2=area, name=name
    )


DOWELS = (
    Worked("side", "dowel holes", "top", 12.0, diameter_mm=8.0, centres=((0, 0),) * 3, joint="one"),
    Worked("top", "dowel holes", "left", 25.0, diameter_mm=8.0, centres=((0, 0),) * 3, joint="one"),
    Worked("top", "dowel holes", "left", 25.0, diameter_mm=8.0, centres=((0, 0),) * 3, joint="other"),
)


def test_dowels_are_set_in_one_part_and_closed_on_the_end_and_the_holes_of_the_other():
    # 320 × 18 of end and three holes of 8 × 12 in the side: 5760 + 3 π 8 × 12; in the top three of 8 × 25
    made_of = joint("dowel", 320.0, 5760.0, number=3)
    assert spread_mm2(made_of, DOWELS) == pytest.approx(5760.0 + 3 * math.pi * 8.0 * 12.0)
    assert set_mm2(made_of, DOWELS) == pytest.approx(3 * math.pi * 8.0 * 25.0)
    card = dowel_card(STEP, [made_of], DOWELS, GLUE, count=2)
    # 3 π 8 × 25 mm² = 0.001885 m², × 200 g/m² × 1.1 = 0.41 g a piece
    assert card.total_g == pytest.approx(2 * 0.4147, rel=0.001)
    assert (card.clamps, card.clamping) == (0, None)


@pytest.mark.parametrize("name", NAMES)
def test_every_step_that_sets_dowels_has_its_card(name):
    panels, pieces = example(name)
    steps = steps_of(name)
    cards = {card.step: card for card in glue_cards(panels, steps, pieces=pieces)}
    for step in steps:
        if step.work is Work.SET_DOWELS:
            told = say(cards[step.id].lines[0].surface)
            assert told == f"walls of {sum(pieces[0].arranged.joints[n].number for n in step.joints)} holes"


@pytest.mark.parametrize(
    ("made_of", "area"),
    [
        # floor of 600 × 19 and two walls of 600 × 6
        (joint("housing", 600.0, 11_400.0, enters=6.0), 11_400.0 + 7_200.0),
        # the end and two walls of 10 mm in each part
        (joint("loose tongue", 400.0, 7_200.0), 7_200.0 + 4 * 400.0 * 10.0),
        # two walls of 550 × 5.5, no meeting face
        (joint("groove", 550.0, enters=5.5), 6_050.0),
        # three slots, four walls each of 0.7 × 56 × 11.5
        (joint("biscuit", 300.0, 5_400.0, number=3), 5_400.0 + 3 * 4 * 450.8),
        # the cheeks are given
        (joint("bridle", 60.0, 7_200.0, enters=60.0), 7_200.0),
        # four fingers in 12 mm: seven cheeks of 12 × 12
        (joint("fingers", 96.0, 576.0, enters=12.0, number=4), 576.0 + 7 * 144.0),
    ],
    ids=lambda one: one.kind if isinstance(one, Joint) else "",
)
def test_what_is_spread_of_each_kind(made_of, area):
    assert spread_mm2(made_of, ()) == pytest.approx(area)


def test_grams_and_clamps_of_a_carcase():
    joints = [joint("housing", 600.0, 11_400.0, enters=6.0, name=f"{n}") for n in range(4)]
    card = joint_card(STEP, joints, (), GLUE, 6.0, count=2)
    # 4 × 18 600 mm² at 200 g/m² and 10 % loss: 16.4 g a piece
    assert card.lot_g == pytest.approx(4 * 0.0186 * 200 * 1.1)
    assert card.total_g == pytest.approx(2 * card.lot_g)
    # 0.7 N/mm² on 11 400 mm² is 7.98 kN: five clamps of 1.9
    assert clamps_on(joints[0], GLUE.pressure_wood) == 5
    assert any("5 clamps across each joint" in say(one) for one in card.means)


def test_a_small_joint_has_two_clamps_and_a_seat_none():
    assert clamps_on(joint("dowel", 90.0, 1_183.0), GLUE.pressure_wood) == 2
    card = joint_card(
        STEP, [joint("dowel", 90.0, 1_183.0), joint("groove", 550.0, enters=5.5)], (), GLUE, 3.0
    )
    assert not any("groove" in say(one) for one in card.means)
    assert len(card.lines) == 2


def test_joints_without_glue_have_no_card():
    with pytest.raises(ValueError, match="expected joints that are glued"):
        joint_card(STEP, [joint("screw", 300.0, glued=False)], (), GLUE, 3.0)


@pytest.mark.parametrize("name", NAMES)
def test_every_closing_of_glued_joints_in_the_examples_has_its_card(name):
    panels, pieces = example(name)
    steps = steps_of(name)
    cards = {card.step: card for card in glue_cards(panels, steps, pieces=pieces)}
    by_name = {piece.name: piece for piece in pieces}
    for step in steps:
        if step.work is Work.ASSEMBLE:
            joints = [by_name[step.piece].arranged.joints[number] for number in step.joints]
            glued = any(joint.glued for joint in joints) and by_name[step.piece].glue is not None
            assert (step.id in cards) is glued, step.id
        if step.work in (Work.BOND, Work.GLUE_EDGING, Work.GLUE_INSERT):
            assert step.id in cards, step.id
    assert [card.step for card in cards.values()] == [step.id for step in steps if step.id in cards]


def test_what_is_closed_in_one_go_stays_within_the_glue_s_time():
    """The order divides what one or two people cannot close; the card says the same minutes."""
    panels, pieces = example("drawer-pedestal")
    steps = steps_of("drawer-pedestal")
    cards = [
        c for c in glue_cards(panels, steps, pieces=pieces) if c.step.count("-") == 1 and "." not in c.step
    ]
    assert cards
    assert all(0.0 < card.needs_min <= card.open_min.high for card in cards)


def test_a_clamp_across_a_part_presses_the_joints_at_both_its_ends():
    # 30 kN at one end, 4 kN at the other: at the low pressure of the glue, and at least two each
    low = (GLUE.pressure_wood or GLUE.pressure).low
    wide, narrow = joint("housing", 600.0, 30_000.0 / low), joint("housing", 600.0, 2_000.0 / low)
    seams = [
        Seam(0, wide, ("side", 0), ("top", 0), Meets.RIGID),
        Seam(1, narrow, ("side", 1), ("top", 0), Meets.RIGID),
        Seam(2, narrow, ("side", 0), ("bottom", 0), Meets.RIGID),
        Seam(3, joint("groove", 900.0, 90_000.0), ("side", 0), ("back", 0), Meets.RIGID),
    ]
    # ⌈30 / 1.9⌉ = 16 across the top, two across the bottom; what lies in a groove takes none
    assert clamps_across(seams, GLUE) == 16 + 2


def test_glueing_up_a_piece_holds_the_clamps_its_card_counts():
    panels, pieces = example("wall-cupboard")
    steps = steps_of("wall-cupboard")
    cards = {card.step: card for card in glue_cards(panels, steps, pieces=pieces)}
    found = needs_of(panels, steps, tuple(cards.values()), ShopCalendar(clamps=40))
    closing = [step for step in steps if step.work is Work.ASSEMBLE and step.id in cards]
    assert closing
    for step in closing:
        assert found[step.id].clamps == cards[step.id].clamps >= 2
        assert found[step.id].held_min == math.ceil(cards[step.id].press_h * 60.0)
    assert not needs_of(panels, steps, tuple(cards.values()), ShopCalendar())


def test_fewer_clamps_than_are_closed_at_once_are_told():
    panels, pieces = example("wall-cupboard")
    steps = steps_of("wall-cupboard")
    closing = {step.id for step in steps if step.work is Work.ASSEMBLE}
    most = max(card.clamps for card in glue_cards(panels, steps, pieces=pieces) if card.step in closing)

    def told(have):
        cards = glue_cards(panels, steps, Means(clamps=have), pieces=pieces)
        return [f for card in cards if card.step in closing for f in card.findings]

    assert told(most) == []
    few = told(most - 1)
    assert few
    assert all((f.code, f.limit, f.value.nominal) == ("glue.clamps", most, most - 1) for f in few)
    assert f"{most} clamps are asked for at once" in say(few[0].message)
    assert "1 are missing" in say(few[0].remedies[0].message)


@pytest.mark.parametrize("kind", ["mortise and tenon", "stub tenon", "loose tenon"])
def test_a_card_of_tenons_says_where_glue_goes_and_how_they_are_clamped(kind):
    card = joint_card(STEP, [joint(kind, 80.0, 3_472.0, enters=31.0)], (), GLUE, 3.0)
    told = " ".join(say(line) for line in card.how)
    assert "walls of" in told
    assert "clamps in line with the rail" in told
