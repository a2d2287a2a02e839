"""What materials bear: every figure sourced and on its scale, every class found in the catalogue."""

import pytest

from evenface.choice.members import members, with_catalogue, with_weight
from evenface.errors import MissingWord
from evenface.materials import load_catalogue
from evenface.materials.traits import KINDS, traits

CLASSES = traits().classes


@pytest.mark.parametrize("one", CLASSES, ids=lambda one: f"{one.kind}-{one.name}")
def test_figures_lie_on_their_scale_and_name_their_source(one):
    for name, trait in one.traits.items():
        need = traits().needs[name]
        assert trait.value.unit == need.unit
        assert trait.value.source
        if need.unit == "grade":
            assert 0 <= trait.value.low <= trait.value.high <= 4
        if need.unit == "price level":
            assert 1 <= trait.value.low <= trait.value.high <= 5


@pytest.mark.parametrize(
    "one", [one for one in CLASSES if one.kind not in ("surface", "back")], ids=lambda one: one.name
)
def test_every_class_is_something_the_catalogue_has(one):
    assert members(one, load_catalogue(None))


def test_every_facing_has_a_figure_for_every_need():
    """A facing without one would slip through a must unseen; weight comes from the catalogue."""
    for one in traits().of_kind("facing"):
        weighed = with_weight(one, load_catalogue(None))
        assert set(weighed.traits) == set(traits().needs), one.name


def test_class_and_softening_of_glues_are_those_of_the_catalogue():
    catalogue = load_catalogue(None)
    for one in traits().of_kind("glue"):
        glue, known = catalogue.glue(one.name), with_catalogue(one, catalogue)
        if glue.water_class:
            assert known.traits["water"].value.nominal == float(glue.water_class[1:]), one.name
        if glue.softens_at is not None:
            assert known.traits["heat"].value == glue.softens_at, one.name


def test_levels_lie_between_the_ends_and_the_usual_one_is_there():
    for need in traits().needs.values():
        low, high = sorted((need.poor, need.best))
        assert need.usual in need.levels
        assert all(low <= level <= high for level in need.levels.values())
        for kind, words in need.elsewhere.items():
            assert kind in KINDS
            assert set(words) <= set(need.levels)


def test_a_level_nobody_knows_names_the_nearest():
    with pytest.raises(MissingWord, match="hot pots"):
        traits().needs["heat"].level("hot pot")


def test_pairs_name_classes_that_are_there():
    known = {(one.kind, one.name) for one in CLASSES}
    for pair in traits().pairs:
        for kind, names in pair.among.items():
            assert kind == "use" or all((kind, name) in known for name in names)
