"""Glue cards: what each kind of glue needs on the same panel."""

from datetime import date

import jobs_by_hand as by_hand
import pytest
from workplan.random_panels import LINOLEUM, made

from evenface.finding import Severity
from evenface.materials import load_catalogue
from evenface.piece.bench_records import Reading
from evenface.piece.records import Side
from evenface.words import say
from evenface.workplan import derive_steps
from evenface.workplan.glue_card import glue_cards
from evenface.workplan.glue_gate import gate_findings, may_glue
from evenface.workplan.glue_pace import most_area_m2

CATALOGUE = load_catalogue()


def cards_of(*edges, length_mm=1000.0, width_mm=500.0, **how):
    panels = made(by_hand.panel(*edges, length_mm=length_mm, width_mm=width_mm), **how)
    return glue_cards(panels, derive_steps(panels))


def test_one_sided_glue_is_spread_on_the_carrier_only():
    (card,) = cards_of(glue="pva-d3")
    # 1.0 × 0.5 m at 110 g/m² and 10 % loss: 60.5 g a face
    assert [line.grams for line in card.lines] == pytest.approx([60.5, 60.5])
    assert card.total_g == pytest.approx(121.0)
    assert card.needs_min == pytest.approx(2 * 0.5 * 6.0 + 5.0)


def test_contact_glue_goes_on_both_surfaces_twice_on_the_thirsty_board():
    (card,) = cards_of(glue="contact-solvent")
    assert [line.coats for line in card.lines] == [2, 1, 2, 1]
    # 0.5 m² at 145 g/m² and 10 % loss is 79.75 g; three coats a face, two faces
    assert card.total_g == pytest.approx(6 * 79.75)
    assert card.machine_after_h == pytest.approx(1 / 60)
    assert any("roller" in say(one) for one in card.means)


def test_one_face_takes_half_of_two():
    (both,), (one,) = cards_of(glue="urea"), cards_of(glue="urea", back=None)
    assert both.total_g == pytest.approx(2 * one.total_g)
    assert both.force_n == pytest.approx(one.force_n)  # one stack in one press


def test_force_is_pressure_times_area_and_a_bag_too_weak_is_said_to_be():
    (card,) = cards_of(glue="pva-d3")
    assert card.force_n == pytest.approx(0.3 * 500_000.0)
    assert any("less than" in say(one) for one in card.means)
    (card,) = cards_of(glue="epoxy")
    assert any("enough" in say(one) for one in card.means)


def test_a_panel_too_large_for_the_open_time_is_said_to_be_and_a_small_one_not():
    (large,) = cards_of(glue="pva-d3", length_mm=1800.0, width_mm=650.0)
    (finding,) = large.findings
    assert (finding.code, finding.severity) == ("glue.open_time", Severity.WEIGH)
    assert {remedy.code for remedy in finding.remedies} == {"glue.helper", "glue.split", "glue.slower"}
    (small,) = cards_of(glue="epoxy", length_mm=300.0, width_mm=200.0)
    assert not small.findings


@pytest.mark.parametrize("glue", ["pva-d3", "urea", "contact-solvent", "epoxy"])
def test_the_largest_area_is_where_the_time_needed_meets_the_time_given(glue):
    area = most_area_m2(CATALOGUE.glue(glue), faces=2)
    (card,) = cards_of(glue=glue, length_mm=1000.0, width_mm=1000.0 * area, carrier="compact-12")
    assert card.needs_min == pytest.approx(card.open_min.nominal, rel=1e-6)


def test_only_linoleum_on_wet_glue_is_said_to_grow():
    def grows(**how):
        (card,) = cards_of(**how)
        return any("grows across" in say(one) for one in card.how)

    assert grows(glue="pva-d3", face=LINOLEUM)
    assert not grows(glue="contact-solvent", face=LINOLEUM)
    assert not grows(glue="pva-d3")


def test_edging_is_clamped_and_its_edge_of_plywood_glued_twice():
    card = cards_of(by_hand.edge(Side.FRONT), edging_glue="pva-d3")[0]
    (line,) = card.lines
    # the edge of the carrier: 1000 × 17.6 mm, 200 g/m² brushed, 10 % loss
    assert line.grams == pytest.approx(0.0176 * 200 * 1.1)
    assert line.coats == 2
    assert card.clamping.force_n == pytest.approx(1.2 * 17_600.0)
    assert card.clamping.count == 12  # 21.1 kN at 1.9 kN each; by spacing seven
    assert card.machine_after_h > card.press_h


def test_contact_glue_on_an_edge_needs_no_clamps():
    assert cards_of(by_hand.edge(Side.FRONT), edging_glue="contact-solvent")[0].clamping is None


@pytest.mark.parametrize(
    ("glue", "temperature", "humidity", "codes"),
    [
        ("pva-d3", 20.0, 0.5, []),
        ("pva-d3", 8.0, 0.5, ["glue.cold"]),
        ("pva-d3", 20.0, 0.85, ["glue.damp"]),
        ("contact-solvent", 20.0, 0.85, []),
        ("urea", 12.0, 0.9, ["glue.cold", "glue.damp"]),
    ],
)
def test_the_gate(glue, temperature, humidity, codes):
    assert [f.code for f in may_glue(CATALOGUE.glue(glue), temperature, humidity)] == codes


def test_below_the_lowest_figure_the_gate_stops():
    glue = CATALOGUE.glue("pva-d3")
    assert may_glue(glue, glue.least_temperature.low - 1.0, 0.5)[0].severity is Severity.STOP
    assert may_glue(glue, glue.least_temperature.low + 1.0, 0.5)[0].severity is Severity.WEIGH


def test_the_gate_is_held_against_the_last_reading_of_the_room():
    def told(*readings, glues=("pva-d3", "pva-d3", "urea")):
        return [f.code for f in gate_findings(map(CATALOGUE.glue, glues), readings)]

    cold = Reading("room", 0.5, date(2027, 1, 20), temperature_c=12.0)
    assert told() == []
    assert told(cold) == [
        "glue.cold",
        "glue.cold",
    ]  # urea, and white glue against its most careful source, 13 °C
    assert told(cold, glues=("polyurethane",)) == []
    assert told(cold, Reading("room", 0.5, date(2027, 1, 21), temperature_c=21.0)) == []
    assert told(Reading("room", 0.85, date(2027, 1, 20))) == ["glue.damp", "glue.damp"]
    assert told(Reading("wood", 0.2, date(2027, 1, 20), "ash")) == []
