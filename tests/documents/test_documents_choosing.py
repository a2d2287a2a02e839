"""Choosing and comparing on paper: one page to hand out, every variant in table, JSON and picture."""

import datetime
import io
import json
from decimal import Decimal

import pytest
from pypdf import PdfReader

from evenface.choice import rank
from evenface.documents.choosing import (
    Shown,
    comparison_json,
    comparison_scene,
    comparison_table,
    ranking_table,
)
from evenface.documents.explaining import build_ups_scene, explaining_pdf
from evenface.drawings.comparison import Strip, comparison_of
from evenface.drawings.scene import Text, text_box
from evenface.materials import load_catalogue
from evenface.piece.briefs import named_brief

DAY = datetime.date(2027, 1, 11)
ROWS = (
    Shown("as it is", None, 37.2, 5, 0.0, 26.2, 19.0, ("DKK31,125.00", Decimal("31125")), (0, 0, 10)),
    Shown("linoleum on both faces", None, 39.9, 4, 1.76, 26.2, 22.0, None, (0, 1, 7)),
    Shown("slip", None, 0.0, 0, 0.0, 0.0, 0.0, None, (0, 0, 0), "no such board"),
)


def test_the_page_for_clients_is_one_page_and_the_same_twice():
    made = explaining_pdf(DAY)
    assert made == explaining_pdf(DAY)
    reader = PdfReader(io.BytesIO(made))
    assert len(reader.pages) == 1
    text = reader.pages[0].extract_text()
    for word in ("EN 438-3", "EN 204", "D4", "Compact", "HGS", "linoleum", "135"):
        assert word in text


def test_a_ruled_out_facing_is_shown_with_reason_and_source():
    ranking = rank("facing", named_brief("wet room"), load_catalogue(None))
    row = next(row for row in ranking_table(ranking).rows if row[0] == "Furniture linoleum")
    assert row[1] == "ruled out"
    assert "water asks for grade 4, it has grade 1" in row[3]
    assert "not for wet rooms" in row[3]


def test_every_variant_has_a_row_and_one_that_failed_says_why():
    shown = comparison_table(ROWS, "Bench, top")
    assert [row[0] for row in shown.rows] == [one.name for one in ROWS]
    assert "no such board" in shown.rows[2][-1]
    assert shown.rows[1][4] == "4 + 1.8 m"
    assert shown.rows[1][7] == "not priced"


def test_json_says_nothing_for_what_is_not_priced():
    found = json.loads(comparison_json(ROWS, "Bench, top"))["variants"]
    assert [one["price"] for one in found] == ["31125", None, None]


@pytest.mark.parametrize("scene", [comparison_scene(ROWS, "Bench, top"), build_ups_scene()])
def test_no_lettering_lies_on_lettering(scene):
    boxes = [text_box(one, scene.scale) for one in scene.primitives if isinstance(one, Text)]
    for number, one in enumerate(boxes):
        for other in boxes[number + 1 :]:
            assert one[2] <= other[0] or other[2] <= one[0] or one[3] <= other[1] or other[3] <= one[1]


def test_a_strip_with_a_bar_too_few_is_refused():
    with pytest.raises(ValueError, match="expected 2 bars"):
        comparison_of("t", ["a", "b"], [Strip("s", (0.0,), (1.0,), ("1",))])
