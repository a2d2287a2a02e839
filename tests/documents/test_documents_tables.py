"""Tables: what is shown, how it is rounded, and in which words."""

from dataclasses import replace

import pytest
from documents.glaze_room import layout_by_hand
from hypothesis import given
from hypothesis import strategies as st

from evenface.documents.display import amount, band, length, rounded, size, titles_of, value_range
from evenface.documents.finding_tables import buying_table, evidence_line, findings_table, gathered, tally
from evenface.documents.layout_tables import (
    bought,
    cut_list,
    layout_summary,
    offcut_line,
    pieces_table,
    sureness,
)
from evenface.documents.size_tables import edging_ladder, gathered_reasons, parts_table, reasons, sheet_ladder
from evenface.documents.tables import Column, Table
from evenface.evidence import Band, Status, Value, certain
from evenface.finding import Finding, Remedy, Severity
from evenface.words import Manner, said

INCHES = Manner("inch")


@given(st.floats(-20_000, 20_000), st.sampled_from([0.1, 0.5]))
def test_rounding_moves_by_half_a_step_at_most_and_stays_put(number, step):
    once = rounded(number, step)
    assert abs(once - number) <= step / 2 + 1e-6
    assert rounded(once, step) == pytest.approx(once, abs=1e-9)
    assert rounded(-number, step) == -once


@pytest.mark.parametrize(
    ("number", "step", "shown"),
    [
        (621.24, 0.5, "621"),
        (621.25, 0.5, "621.5"),
        (621.24, 0.1, "621.2"),
        (0.04, 0.1, "0"),
        (-0.25, 0.5, "-0.5"),
    ],
)
def test_lengths(number, step, shown):
    assert length(number, step) == shown


def test_thickness_is_shown_to_a_tenth_and_inches_as_fractions():
    assert size((1800.2, 650.3, 17.84)) == "1800 × 650.5 × 17.8"
    assert size((609.6, 19.05, 6.35), manner=INCHES) == "24 × 3/4 × 1/4"


def test_numbers_found():
    assert amount(0.1499, "mm") == "0.15 mm"
    assert amount(12.34, "mm") == "12.3 mm"
    assert amount(3, "1") == "3"
    assert band(Band(2.0, 2.0, 2.0), "mm") == "2 mm"
    assert band(Band(-1.0, None, 2.0), "mm") == "-1 … 2 mm (direction not known)"
    assert band(Band(1.0, 1.5, 2.0), "mm") == "1 … 2 mm"


def test_figures_show_their_range():
    value = Value(0.00035, 0.0001, 0.0006, "1/1", Status.READ, "a table")
    assert value_range(value) == ("0.00035", "0.0001 … 0.0006")
    assert value_range(Value(12000, 12000, 12000, "MPa", Status.READ, "a table")) == ("12000", "")


def test_a_row_must_fill_its_columns():
    with pytest.raises(ValueError, match="row 1: expected 2 cells"):
        Table("t", (Column("a"), Column("b")), (("1",),))


def test_ladder(glaze_room):
    bench, door = glaze_room.sketch.parts[:2]
    titles = titles_of(glaze_room)
    sheets = sheet_ladder(bench, titles)
    assert [row[0] for row in sheets.rows] == ["face", "carrier", "back"]
    assert sheets.rows[1][:5] == ("carrier", "Birch plywood 18 mm", "1", "17.8", "1772 × 636")
    door_sheets = sheet_ladder(door, titles)
    assert door_sheets.rows[0][5] == "694.4 × 376.7"  # fitted: to 0.1
    assert door_sheets.rows[0][7] == "scribe, ± 0.1"
    assert door_sheets.rows[1][4] == "694.4 × 376.7"  # in the finished piece: as drawn
    assert door_sheets.rows[1][5] == "694.4 × 376.7"  # as fence and card say it
    edging = edging_ladder(bench, titles)
    assert edging.rows[0][:6] == ("front", "Ash", "1", "1800", "1772", "14")
    assert edging.rows[0][8] == "45° / 45°"
    assert edging_ladder(glaze_room.sketch.parts[2], titles).rows[0][8] == "square"


def test_every_layer_says_why(glaze_room):
    for part in glaze_room.sketch.parts:
        told = dict(reasons(part))
        assert len(told) == len(part.layers)
        assert any("Measure first" in sentence for sentence in told["edging front"])


def test_gathered_reasons_say_everything_and_nothing_twice(glaze_room):
    for part in glaze_room.sketch.parts:
        plain, gathered = reasons(part), gathered_reasons(part)
        for layer, sentences in plain:
            words = layer.split()
            told = {
                one
                for name, said in gathered
                if layer in name.split(", ") or (name.startswith(words[0]) and words[-1] in name)
                for one in said
            }
            assert set(sentences) <= told
        assert sum(len(said) for _, said in gathered) <= sum(len(said) for _, said in plain)
        assert len({said for _, said in gathered}) == len(gathered)
    bench = dict(gathered_reasons(glaze_room.sketch.parts[0]))
    assert "edging front, left, right" in bench or "edging front, rear, left, right" in bench


def test_parts_findings_and_buying(glaze_room):
    assert [row[0] for row in parts_table(glaze_room.sketch.parts).rows] == ["1.1", "2.1", "2.2", "3.1"]
    rows = findings_table(glaze_room.findings).rows
    assert [row[0] for row in rows] == ["Stop", "Your risk", "Note"]
    assert rows[0][1] == "Glazing bench, top, front left corner"
    assert rows[2][3] == "-1.5 … 2.2 mm (direction not known) over 1000 mm"
    assert tally(glaze_room.findings) == "1 stop, 1 risk to decide, 1 note"
    assert tally(()) == "nothing found"
    assert "memory" in evidence_line(glaze_room)
    assert buying_table(glaze_room.buying).rows[0][3] == "1 sheet"
    assert buying_table(glaze_room.buying).rows[1][:4] == ("Ash", "board", "–", "0.012 m³")


def _found(part: str, figure: float, remedy: str = "Try another.", at: str = "twist") -> Finding:
    return Finding(
        code="flat.twist", severity=Severity.WEIGH, message=said("It twists by {twist:mm}.", twist=figure),
        piece="Kiln rack", part=part, at=at, value=certain(figure), limit=3.0, unit="mm",
        why=said("The plies lie askew."), remedies=(Remedy("other", said(remedy)),),
    )  # fmt: skip


def test_what_is_said_of_several_places_is_said_once():
    same = gathered([_found("left door", 4.0), _found("shelf", 5.0, "Fix it."), _found("right door", 4.0)])
    assert [one.where for one in same] == [
        "Kiln rack, left door, right door (twist)",
        "Kiln rack, shelf, twist",
    ]
    assert all(one.also == () for one in same)
    (other,) = gathered([_found("left door", 4.0), _found("right door", 7.5), _found("flap", 4.0)])
    assert other.where == "Kiln rack, left door, twist"
    assert other.found == "4 mm"
    assert other.also == (
        "Kiln rack, right door, twist: It twists by 7.5 mm.",
        "Kiln rack, flap, twist: It twists by 4 mm.",
    )
    apart = gathered([_found("left door", 4.0, at="left"), _found("right door", 4.0, at="right")])
    assert [one.where for one in apart] == ["Kiln rack, left door, left; Kiln rack, right door, right"]


def test_no_place_is_lost_when_findings_are_gathered(glaze_room):
    texts = gathered(glaze_room.findings)
    shown = " ".join(" ".join((one.where, *one.also)) for one in texts)
    for finding in glaze_room.findings:
        assert all(word in shown for word in (finding.piece, finding.part, finding.at) if word)


def test_layouts_speak_plainly():
    boards, sticks = layout_by_hand()
    assert bought(boards) == "1 sheet of 2500 × 1250"
    assert bought(sticks) == "1 stick of 3000"
    assert sureness(boards) == "no plan with fewer sheets exists"
    assert "fit no stock" in sureness(sticks)
    three = replace(boards, bought=replace(boards.bought, count=3), bound=2, proved=False)
    assert sureness(three) == "one sheet fewer is not ruled out; at most 33.3 % less"
    proved_sticks = replace(sticks, unplaced=(), bound=1, proved=True)
    assert sureness(proved_sticks) == "no plan with fewer sticks exists"
    words = " ".join(cell for row in layout_summary((boards, sticks), {}).rows for cell in row)
    assert not {"bound", "gap", "proved"} & set(words.lower().split())
    assert cut_list(boards.sheets[0]).rows[1][:5] == ("2", "along", "636", "10", "2490")
    assert cut_list(boards.sheets[0]).rows[0][1] == "trim, along"
    assert pieces_table(boards.sheets[0], {"2.1": "2.1 door"}).rows[1] == (
        "1",
        "2.1 door",
        "694.4 × 376.7",
        "turned",
    )
    assert offcut_line(boards.sheets[0]) == "1782.5 × 591, 705 × 636, 694.5 × 211"
    assert boards.sheets[0].unaccounted == 0


def test_another_language_reaches_the_headings(glaze_room):
    shouting = Manner(translate=str.upper)
    assert parts_table(glaze_room.sketch.parts, shouting).columns[1].title == "PIECE"
