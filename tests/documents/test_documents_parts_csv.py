"""parts.csv: one row a layer, nothing a spreadsheet would run."""

import csv
import io

from documents.glaze_room import SHELF, piece, result_of
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.documents.parts_csv import COLUMNS, parts_text, safe_cell


def rows_of(text):
    assert text.startswith("\ufeff")
    return list(csv.DictReader(io.StringIO(text[1:], newline="")))


def test_one_row_a_layer(glaze_room):
    rows = rows_of(parts_text(glaze_room))
    assert len(rows) == sum(len(part.layers) for part in glaze_room.sketch.parts)
    assert tuple(rows[0]) == COLUMNS
    door_front = next(row for row in rows if row["no"] == "2.1" and row["edge"] == "front")
    assert (door_front["count"], door_front["net_length_mm"], door_front["inside_length_mm"]) == (
        "6",
        "715",
        "694.4",
    )
    assert (door_front["start_angle_deg"], door_front["state"]) == ("45", "")
    face = next(row for row in rows if row["no"] == "2.1" and row["layer"] == "face")
    assert (face["state"], face["bought_length_mm"]) == ("scribe", "")


def test_formulas_are_disarmed():
    for sign in "=+-@\t\r":
        assert safe_cell(f"{sign}cmd") == f"'{sign}cmd"
    assert safe_cell(" =1+1") == "' =1+1"
    assert safe_cell("a=b") == "a=b"
    assert safe_cell(-2.04) == "-2"


@settings(max_examples=30, deadline=None)
@given(st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\x00"), min_size=1, max_size=40))
def test_any_name_comes_back_and_none_is_a_formula(name):
    rows = rows_of(parts_text(result_of(piece(name, SHELF), findings=(), layouts=())))
    for row in rows:
        assert row["piece"] in (name, "'" + name)
        assert not row["piece"].lstrip(" ").startswith(("=", "+", "-", "@"))
