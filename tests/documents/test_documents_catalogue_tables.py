"""Materials as a reader sees them."""

import pytest
from documents.glaze_room import Shelf

from evenface.documents.catalogue_tables import explain, materials_tables
from evenface.errors import MissingWord


class Two:
    """A catalogue of one board and one wood, the wood the maker's own."""

    def everything(self):
        return {"carrier": (Shelf().carrier("birch-ply-18"),), "wood": (Shelf().wood("ash"),)}

    def names(self, kind):
        if kind not in ("carrier", "wood"):
            raise MissingWord("kind of material", kind, ("carrier", "wood"))
        return ()

    def is_own(self, kind, name):
        return kind == "wood"


def test_lists_by_kind():
    carriers, woods = materials_tables(Two())
    assert carriers.rows == (
        ("birch-ply-18", "Birch plywood 18 mm", "plywood", "17.8 (17.1 … 18.1)", "shipped"),
    )
    assert woods.rows == (("ash", "Ash", "hardwood", "–", "own"),)
    assert materials_tables(Two(), "wood") == (woods,)
    with pytest.raises(MissingWord):
        materials_tables(Two(), "metal")


def test_explains_every_figure_with_range_unit_status_and_source():
    told = explain(Two(), "birch-ply-18")
    rows = {row[0]: row[1:] for row in told.figures.rows}
    assert rows["thickness"] == ("17.8", "17.1 … 18.1", "mm", "read", "a standard")
    assert rows["density"] == ("680", "612 … 748", "kg/m³", "practice", "own reckoning")
    assert all(all(cell for cell in row[2:]) for row in told.figures.rows)
    assert told.supplies.rows == (("sheet", "2500 × 1250 × 18", "piece", "common practice"),)
    assert not told.own
    assert explain(Two(), "ash").own


def test_an_unknown_name_is_met_with_the_nearest():
    with pytest.raises(MissingWord, match="'ash'"):
        explain(Two(), "asch")
