"""Briefs whose answers the trade's sources settle: what is ruled out, and for which reason."""

import pytest

from evenface.choice import Verdict, rank, rank_all
from evenface.materials import load_catalogue
from evenface.piece.briefs import named_brief


@pytest.fixture(scope="module")
def catalogue():
    return load_catalogue(None)


def outcome(use, kind, catalogue):
    return {one.name: one for one in rank(kind, named_brief(use), catalogue).candidates}


SETTLED = [
    # use, kind, name, need that rules it out. READ: linoleum against alkali and solvent, water, light;
    # EN 204 classes; contact glue softening at 60 °C; vertical grade. PRACTICE: gloss, soap, MDF in wet.
    ("chemical bench", "facing", "linoleum", "chemicals"),
    ("chemical bench", "facing", "melamine", "chemicals"),
    ("chemical bench", "glue", "pva-d2", "water"),
    ("chemical bench", "finish", "soap", "chemicals"),
    ("writing desk", "facing", "hpl", "writing"),
    ("writing desk", "surface", "coarse", "writing"),
    ("television board", "surface", "gloss", "glare"),
    ("wet room", "facing", "linoleum", "water"),
    ("wet room", "facing", "melamine", "water"),
    ("wet room", "carrier", "mdf", "water"),
    ("wet room", "glue", "pva-d3", "water"),
    ("child's table", "facing", "linoleum", "scratch"),
    ("child's table", "surface", "gloss", "children"),
    ("child's table", "wood", "pine", "scratch"),
    ("kitchen worktop", "facing", "linoleum", "heat"),
    ("kitchen worktop", "facing", "hpl-vertical", "scratch"),
    ("kitchen worktop", "glue", "contact-solvent", "heat"),
    ("sunny sill", "facing", "linoleum", "light"),
    ("sunny sill", "glue", "contact-solvent", "heat"),
]


@pytest.mark.parametrize(("use", "kind", "name", "need"), SETTLED)
def test_what_is_settled_is_ruled_out_with_its_reason(use, kind, name, need, catalogue):
    found = outcome(use, kind, catalogue)[name]
    assert found.is_out
    reason = next(one for one in found.reasons if one.need == need)
    assert reason.verdict is Verdict.OUT
    assert reason.source
    assert reason.found is not None
    assert reason.limit is not None


LEFT = [
    ("chemical bench", "facing", "hpl"),
    ("writing desk", "facing", "linoleum"),
    ("television board", "surface", "matt"),
    ("television board", "facing", "linoleum"),
    ("wet room", "facing", "compact"),
    ("wet room", "glue", "pva-d4"),
    ("child's table", "facing", "hpl"),
    ("kitchen worktop", "facing", "hpl"),
    ("kitchen worktop", "glue", "pva-d3"),
    ("sunny sill", "facing", "hpl"),
]


@pytest.mark.parametrize(("use", "kind", "name"), LEFT)
def test_what_is_good_for_it_is_left(use, kind, name, catalogue):
    assert not outcome(use, kind, catalogue)[name].is_out


def test_a_desk_to_write_at_is_faced_with_linoleum_first(catalogue):
    assert rank("facing", named_brief("writing desk"), catalogue).candidates[0].name == "linoleum"


def test_where_sources_disagree_about_hot_pots_it_is_said(catalogue):
    """READ: 135, 154 and 180 °C in three sources; the must of 150 lies between them."""
    found = outcome("kitchen worktop", "facing", catalogue)["hpl"]
    assert found.verdict is Verdict.DOUBT
    heat = next(one for one in found.reasons if one.need == "heat")
    assert heat.disagreement
    assert (heat.found.low, heat.found.high) == (135, 180)


def test_the_vertical_grade_is_out_for_a_top_and_not_for_a_front(catalogue):
    from dataclasses import replace

    from evenface.piece.brief_records import Brief

    for use, out in (("top", True), ("front", False)):
        found = rank("facing", replace(Brief(), use=use), catalogue).candidates
        assert next(one for one in found if one.name == "hpl-vertical").is_out is out


def test_every_named_use_leaves_something_of_every_kind(catalogue):
    from evenface.materials.traits import traits

    for use in traits().uses:
        for ranking in rank_all(named_brief(use), catalogue):  # a use nothing is fit for helps nobody
            assert ranking.left, (use, ranking.kind)


def test_that_contact_glue_creeps_is_said_whatever_is_asked(catalogue):
    """READ: a trade association on its resistance to creep."""
    from evenface.piece.brief_records import Brief

    found = {one.name: one for one in rank("glue", Brief(), catalogue).candidates}
    assert found["contact-solvent"].verdict is Verdict.DOUBT
    assert found["pva-d3"].verdict is Verdict.GOOD
