"""Cautions follow the work and the material; care sheets follow the build-up."""

from dataclasses import replace

import jobs_by_hand as by_hand
import pytest
from hypothesis import given, settings
from workplan.pieces_by_file import NAMES, example
from workplan.random_panels import HPL, LINOLEUM, cutout, jobs, made

from evenface.materials.records import GLUE_KINDS
from evenface.piece.records import Side
from evenface.words import say
from evenface.workplan import Work, derive_steps
from evenface.workplan import safety as s
from evenface.workplan.care import care_sheet
from evenface.workplan.machining import needs_machine


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


def _due(step, panel, glue):
    """What a step must warn of, said here once more from the tool and the material alone."""
    work = step.work.value
    if work.startswith("glue") or step.work in (Work.BOND, Work.ASSEMBLE, Work.SET_DOWELS, Work.LINE_BOARD):
        yield from GLUES.get(glue.kind, ()) if glue is not None else ()
    soft = panel is not None and panel.faces and all(f.material.family == "linoleum" for f in panel.faces)
    faced = panel is not None and bool(panel.faces) and not soft
    by_knife = soft and step.work in (Work.CUT_FACING, Work.FIT_FACING)
    if needs_machine(step.work) and not by_knife and step.work not in (Work.CUT_FACING, Work.FIT_FACING):
        yield s.DUST
    if any(
        word in work
        for word in ("rout a", "trim", "profile", "shape", "flush", "clear", "cut joints", "level")
    ):
        yield s.ROUTER
    if step.work in (Work.CUT_CARRIER, Work.MILL_EDGING, Work.MILL_BOARD):
        yield s.SAW
    if faced and step.work is Work.CUT_FACING:
        yield from (s.SAW, s.CREEPING, s.LAMINATE_DUST)
    if faced and step.work in (Work.TRIM, Work.PROFILE, Work.ROUT_CUTOUT):
        yield s.LAMINATE_DUST
    if step.work in (Work.MILL_EDGING, Work.MILL_BOARD):
        yield from (s.SMALL, s.PLANER)
    if "finish the" in work:
        yield s.RAGS
    if step.work is Work.BOND and not glue.kind.startswith("contact"):
        yield s.VACUUM


GLUES = {
    "contact_solvent": (s.SOLVENT,),
    "polyurethane": (s.ISOCYANATE,),
    "hot_melt": (s.ISOCYANATE, s.HOT),
    "urea": (s.FORMALDEHYDE,),
    "epoxy": (s.EPOXY,),
    "hide": (s.HOT,),
    "pva": (s.SKIN,),
    "contact_water": (s.SKIN,),
}


def held_against(panels, pieces=()):
    known = {one.part: one.panel for one in panels}
    glues = {piece.name: piece.glue for piece in pieces}
    for step in derive_steps(panels, pieces=pieces):
        panel = known.get(step.part)
        glue = glues.get(step.piece)
        if panel is not None:
            glue = panel.glue if step.work is Work.BOND else panel.edging_glue
        missing = [say(one) for one in _due(step, panel, glue) if one not in step.cautions]
        assert not missing, f"{step.id} {step.work.value}: {missing}"


@given(jobs())
@settings(max_examples=40, deadline=None)
def test_no_step_with_such_a_tool_or_material_is_without_its_caution(panels):
    held_against(panels)


@pytest.mark.parametrize("name", NAMES)
def test_nor_is_one_of_the_examples(name):
    held_against(*example(name))


def test_every_kind_of_glue_has_a_caution():
    assert set(GLUE_KINDS) == set(GLUES) == set(s._BY_GLUE)


def test_where_it_is_fitted_the_services_are_named_again():
    panels = [one.panel for one in made(by_hand.panel(cutouts=(cutout(),)))]
    (line,) = s.cautions_of_place(Work.FIT_ON_SITE, panels)
    assert "water" in say(line)
    assert not s.cautions_of_place(Work.PACK, panels)


def test_large_sheets_are_for_two_and_contact_glue_needs_no_bag():
    def told(length_mm, glue="pva-d3"):
        return cautions(Work.BOND, by_hand.panel(length_mm=length_mm), glue=glue)

    assert s.SHEETS in told(1600.0)
    assert s.SHEETS not in told(1000.0)
    assert s.VACUUM not in told(1000.0, "contact-solvent")


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


def test_solid_wood_and_what_it_is_lined_with_are_cared_for_too():
    _, pieces = example("lined-tray")
    boards = [one.board for one in pieces[0].boards]
    told = [say(line.text) for line in care_sheet([], boards)]
    assert any("Solid wood can be sanded" in one for one in told)
    assert any("30 to 60 %" in one for one in told)
    assert any("sanded out" in one for one in told)
    bare = [replace(one, facing=None) for one in boards]
    assert not any("sanded out" in say(line.text) for line in care_sheet([], bare))
