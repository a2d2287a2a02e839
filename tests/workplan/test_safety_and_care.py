"""Cautions follow the work and the material; care sheets follow the build-up."""

import jobs_by_hand as by_hand
import pytest
from workplan.random_panels import HPL, LINOLEUM, cutout, made

from evenface.piece.records import Side
from evenface.words import say
from evenface.workplan import Work, derive_steps
from evenface.workplan import safety as s
from evenface.workplan.care import care_sheet


def cautions(work, panel=None, **how):
    steps = derive_steps(made(panel or by_hand.panel(by_hand.edge(Side.FRONT)), **how))
    return next(step for step in steps if step.work is work).cautions


@pytest.mark.parametrize(
    ("glue", "told"),
    [
        ("contact-solvent", s.SOLVENT),
        ("polyurethane", s.ISOCYANATE),
        ("urea", s.FORMALDEHYDE),
        ("epoxy", s.EPOXY),
        ("hide", s.HOT),
        ("pva-d3", s.SKIN),
    ],
)
def test_each_glue_has_its_own_caution_on_faces_and_edges(glue, told):
    assert cautions(Work.BOND, glue=glue)[0] == told
    assert cautions(Work.GLUE_EDGING, edging_glue=glue)[0] == told


def test_every_hot_melt_is_named_as_hot_and_as_isocyanate():
    assert {s.ISOCYANATE, s.HOT} <= set(cautions(Work.BOND, glue="hot-melt"))


def test_wood_dust_rags_and_creeping_sheets():
    assert s.DUST in cautions(Work.FLUSH_EDGING)
    assert s.RAGS in cautions(Work.FINISH)
    assert s.CREEPING in cautions(Work.CUT_FACING, face=HPL, back=HPL)
    assert s.CREEPING not in cautions(Work.CUT_FACING, face=LINOLEUM, back=LINOLEUM)


def test_a_heavy_panel_asks_for_a_helper_a_light_one_does_not():
    def heavy(length_mm):
        told = cautions(Work.BOND, by_hand.panel(length_mm=length_mm, width_mm=900.0))
        return any("helper" in say(one) for one in told)

    assert heavy(2400.0)
    assert not heavy(400.0)


def test_an_opening_names_what_is_led_through_it():
    told = [say(one) for one in cautions(Work.ROUT_CUTOUT, by_hand.panel(cutouts=(cutout(),)))]
    assert any("water" in one and "licensed" in one for one in told)


def test_the_standing_line_puts_local_rules_and_licensed_practice_first():
    assert "Local rules" in say(s.STANDING)
    assert "licensed" in say(s.STANDING)


def texts(**how):
    edges = how.pop("edges", (by_hand.edge(Side.FRONT),))
    return [say(line.text) for line in care_sheet([one.panel for one in made(by_hand.panel(*edges), **how)])]


def test_linoleum_shows_both_sides_of_the_disagreement_on_refinishing():
    (line,) = [one for one in texts(face=LINOLEUM, back=LINOLEUM) if "sanded out" in one]
    assert "refinished" in line
    assert not [one for one in texts(face=HPL, back=HPL) if "sanded out" in one]


def test_heat_follows_the_glue_and_the_laminate():
    with_contact = texts(glue="contact-solvent", face=HPL)
    assert any("from about 55 °C" in one for one in with_contact)
    assert any("135" in one and "180" in one for one in with_contact)
    assert not any("gives from" in one for one in texts(glue="urea", face=HPL))


def test_the_first_weeks_are_told_for_wet_glue_only():
    assert any("4 days" in one for one in texts(face=LINOLEUM, glue="pva-d3"))
    assert not any("4 days" in one for one in texts(face=LINOLEUM, glue="contact-solvent"))


def test_each_line_comes_once_however_many_panels_are_alike():
    panels = [one.panel for one in made(by_hand.panel(), by_hand.panel(name="second"))]
    assert care_sheet(panels) == care_sheet(panels[:1])
