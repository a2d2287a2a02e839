"""Build-ups of what is left over: the year counts, and what bows stands behind what lies flat."""

import pytest

from evenface.job.choosing import choose, needs_in_words
from evenface.materials import load_catalogue
from evenface.piece.briefs import named_brief
from evenface.words import say


@pytest.fixture(scope="module")
def chosen():
    return choose(named_brief("wet bench"), load_catalogue(None))


def test_what_lies_flat_comes_before_what_bows(chosen):
    flat = [one.lies_flat for one in chosen.build_ups]
    assert flat == sorted(flat, reverse=True)
    assert True in flat
    assert False in flat


def test_laminate_on_one_face_of_plywood_is_not_cheap_for_it_bows(chosen):
    bare = [one for one in chosen.build_ups if one.face_name == "hpl-0.8" and not one.back_name]
    same = [one for one in chosen.build_ups if one.face_name == one.back_name == "hpl-0.8"]
    assert bare
    assert same
    assert not any(one.lies_flat for one in bare)
    assert all(one.lies_flat for one in same)


def test_the_sources_disagreement_about_plywood_is_carried_along(chosen):
    one = next(one for one in chosen.build_ups if one.carrier_name.startswith("birch-ply"))
    assert any("disagree" in str(doubt.message.values["why"]) for doubt in one.doubts)


def test_nothing_ruled_out_is_built(chosen):
    out = {c.name for ranking in chosen.rankings for c in ranking.candidates if c.is_out}
    assert not any(one.facing.name in out for one in chosen.build_ups)


def test_a_brief_in_words():
    told = [(need, say(asked)) for need, asked in needs_in_words(named_brief("wet bench"))]
    assert ("water", "must: often") in told
