"""Bench cards on paper: every step once, nothing cut off, the same bytes every time."""

import io
from datetime import date

import pytest
from documents.glaze_room import BENCH, DOOR, SHELF, piece, result_of

from evenface.documents.bench_cards import _wait_text, bench_cards_pdf, cards_data, steps_table
from evenface.words import ENGLISH
from evenface.workplan import Wait, derive_steps, panels_to_make
from evenface.workplan.calendar import WorkDays, schedule
from evenface.workplan.care import care_sheet
from evenface.workplan.glue_card import glue_cards

DAY = date(2027, 1, 11)


@pytest.fixture(scope="module")
def papers():
    drafted = result_of(piece("Glazing bench", BENCH), piece("Cupboard", DOOR, SHELF)).sketch
    panels = panels_to_make(drafted.constructions, drafted.parts)
    steps = derive_steps(panels)
    plan = schedule(steps, WorkDays(DAY))
    names = {part.id: part.name for part in drafted.parts}
    care = {one.piece.name: care_sheet(one.panels) for one in drafted.constructions}
    return "Glaze room", plan, names, glue_cards(panels, steps), care, DAY


def text_of(pages):
    pypdf = pytest.importorskip("pypdf")
    return [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pages)).pages]


def test_every_step_has_one_card_and_every_gluing_its_grams(papers):
    data = cards_data(*papers)
    assert [card["id"] for card in data["cards"]] == [one.step.id for one in papers[1].placed]
    glued = [card for card in data["cards"] if card["glue"]]
    assert len(glued) == len(papers[3])
    assert all(any(" g." in line for line in card["glue"]) for card in glued)
    assert all(card["check"] and card["why"] and card["undo"] for card in data["cards"])


def test_four_cards_a_page_or_one_and_the_standing_line_before_the_care_sheets(papers):
    count = len(papers[1].placed)
    four, one = text_of(bench_cards_pdf(*papers)), text_of(bench_cards_pdf(*papers, per_page=1))
    cards = [page for page in four if "a slip costs" in page]
    assert len(cards) == -(-count // 4)
    assert len([page for page in one if "a slip costs" in page]) == count
    assert "Local rules" in four[len(cards)]
    assert "Care: Glazing bench" in " ".join(four)


def test_the_same_plan_gives_the_same_bytes(papers):
    assert bench_cards_pdf(*papers) == bench_cards_pdf(*papers)


def test_the_table_has_a_row_a_step_in_the_order_of_the_calendar(papers):
    rows = steps_table(papers[1], papers[2]).rows
    assert [row[1] for row in rows] == [one.step.id for one in papers[1].placed]
    assert rows[0][0] == "Mon 2027-01-11 08:00"


def test_contact_glue_asks_for_no_wait_and_white_glue_for_two():
    assert _wait_text(Wait("glue", 1 / 60, 1 / 60), ENGLISH) == ""
    assert _wait_text(Wait("glue", 8.0, 24.0), ENGLISH) == "8 h under pressure, 24 h until it is worked"
    assert _wait_text(None, ENGLISH) == ""
