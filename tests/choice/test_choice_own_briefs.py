"""Briefs a maker writes without a name for the use, with the answers the trade's sources settle.

READ: water classes D2 to D4 as a trade association prints EN 204; linoleum weak against alkali, standing water and
long damp; old contact glue gives at about 60 °C; three sources on heat under a laminate, 135 to 180 °C; a film of
linoleum that light takes away; 0.7 mm is the vertical grade. DERIVED: weights from density and thickness.
"""

import pytest

from evenface.choice import Verdict, rank
from evenface.errors import Place
from evenface.materials import load_catalogue
from evenface.piece.briefs import brief_of


@pytest.fixture(scope="module")
def catalogue():
    return load_catalogue(None)


def held(catalogue, kind, **brief):
    asked = brief_of(brief, lambda key: Place(key=key))
    return {one.name: one for one in rank(kind, asked, catalogue).candidates}


def needs(one):
    return {reason.need for reason in one.reasons if reason.verdict is Verdict.OUT}


def test_standing_lye_rules_linoleum_out_twice_and_asks_for_glue_that_bears_long_water(catalogue):
    brief = {"water": "must: long", "chemicals": "must: splashes"}
    assert needs(held(catalogue, "facing", **brief)["linoleum"]) == {"water", "chemicals"}
    assert not held(catalogue, "facing", **brief)["hpl"].is_out
    glues = held(catalogue, "glue", **brief)
    assert needs(glues["pva-d3"]) == {"water"}
    assert not glues["pva-d4"].is_out
    assert needs(held(catalogue, "carrier", **brief)["mdf"]) == {"water"}


@pytest.mark.parametrize(
    ("water", "out", "left"),
    [
        ("now and then", (), ("pva-d2", "pva-d3", "pva-d4")),
        ("often", ("pva-d2",), ("pva-d3", "pva-d4")),
        ("long", ("pva-d2", "pva-d3"), ("pva-d4",)),
    ],
)
def test_water_asks_for_the_glue_class_of_the_standard(water, out, left, catalogue):
    glues = held(catalogue, "glue", water=f"must: {water}")
    assert [name for name in (*out, *left) if glues[name].is_out] == list(out)


def test_beside_the_stove_contact_glue_and_linoleum_are_out_and_laminate_is_disputed(catalogue):
    brief = {"heat": "must: hot pots"}
    glues, faces = held(catalogue, "glue", **brief), held(catalogue, "facing", **brief)
    assert needs(glues["contact-solvent"]) == needs(glues["contact-water"]) == {"heat"}
    assert needs(faces["linoleum"]) == {"heat"}
    assert faces["hpl"].verdict is Verdict.DOUBT
    assert any(reason.disagreement for reason in faces["hpl"].reasons)


def test_a_table_to_draw_at_leaves_linoleum_and_a_matt_surface(catalogue):
    brief = {"writing": "must: pleasant", "glare": "must: under a lamp", "touch": "must: pleasant"}
    assert [name for name, one in held(catalogue, "facing", **brief).items() if not one.is_out] == [
        "linoleum"
    ]
    surfaces = held(catalogue, "surface", **brief)
    assert "glare" in needs(surfaces["gloss"])
    assert not surfaces["matt"].is_out


def test_a_counter_in_the_sun_is_not_linoleum_and_not_contact_glue(catalogue):
    brief = {"light": "must: full sun", "heat": "must: sun on a dark top"}
    assert "light" in needs(held(catalogue, "facing", **brief)["linoleum"])
    assert needs(held(catalogue, "glue", **brief)["contact-solvent"]) == {"heat"}
    assert not held(catalogue, "facing", **brief)["hpl"].is_out


def test_a_light_door_is_no_compact_board_poplar_stands_first_and_the_vertical_grade_serves(catalogue):
    boards = held(catalogue, "carrier", use="door", weight="wish")
    assert next(iter(boards)) == "poplar-plywood"
    assert needs(held(catalogue, "carrier", use="door", weight="must: one person lifts")["compact"]) == {
        "weight"
    }
    assert not held(catalogue, "facing", use="door")["hpl-vertical"].is_out
    assert held(catalogue, "facing", use="top")["hpl-vertical"].is_out
