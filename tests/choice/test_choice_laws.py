"""Laws of choosing: musts only take away, weights scale, the order of wishes does not matter."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.choice import rank_all
from evenface.errors import FileError, Place
from evenface.materials import load_catalogue
from evenface.materials.traits import traits
from evenface.piece.brief_records import Asked, Brief
from evenface.piece.briefs import brief_of

CATALOGUE = load_catalogue(None)
NEEDS = tuple(traits().needs)


@st.composite
def briefs(draw):
    needs = draw(st.lists(st.sampled_from(NEEDS), unique=True, min_size=1, max_size=7))
    asked = []
    for name in needs:
        level = draw(st.sampled_from(sorted(traits().needs[name].levels.values())))
        weight = draw(st.none() | st.floats(0.25, 5.0))
        asked.append(Asked(name, level, weight))
    return Brief(tuple(asked), draw(st.sampled_from(("top", "door", "panel"))))


def out_of(brief):
    return {(r.kind, c.name) for r in rank_all(brief, CATALOGUE) for c in r.candidates if c.is_out}


def order_of(brief):
    return [(r.kind, [c.name for c in r.candidates]) for r in rank_all(brief, CATALOGUE)]


@settings(max_examples=25, deadline=None)
@given(briefs(), st.sampled_from(NEEDS))
def test_one_must_more_brings_nothing_back(brief, need):
    if need in {one.need for one in brief.asked}:
        return
    more = replace(brief, asked=(*brief.asked, Asked(need, traits().needs[need].level())))
    assert out_of(brief) <= out_of(more)


@settings(max_examples=25, deadline=None)
@given(briefs(), st.floats(0.5, 9.0))
def test_all_weights_times_a_number_change_nothing(brief, times):
    def scaled(one):
        return one if one.is_must else replace(one, weight=one.weight * times)

    assert order_of(brief) == order_of(replace(brief, asked=tuple(map(scaled, brief.asked))))


@settings(max_examples=25, deadline=None)
@given(briefs(), st.randoms(use_true_random=False))
def test_the_order_of_the_brief_does_not_matter(brief, random):
    mixed = list(brief.asked)
    random.shuffle(mixed)
    assert order_of(brief) == order_of(replace(brief, asked=tuple(mixed)))


@settings(max_examples=25, deadline=None)
@given(briefs())
def test_scores_are_shares_and_their_bands_hold_them(brief):
    for ranking in rank_all(brief, CATALOGUE):
        for one in ranking.candidates:
            assert -1e-9 <= one.score.low <= one.score.nominal + 1e-9
            assert one.score.nominal <= one.score.high + 1e-9 <= 1.0 + 2e-9


def test_slips_of_a_brief_are_all_told_at_once():
    with pytest.raises(FileError) as told:
        brief_of(
            {"heat": "must: lava", "waterr": "must", "touch": -1, "glare": "perhaps", "use": "roof"},
            lambda key: Place("job.toml", key=f"brief.{key}"),
        )
    assert len(told.value.complaints) == 5
    assert "water" in str(told.value)
