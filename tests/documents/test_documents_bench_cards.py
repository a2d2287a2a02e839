"""Bench cards on paper: every step once, nothing cut off, the same bytes every time."""

import io
from dataclasses import replace
from datetime import date
from itertools import pairwise

import pytest
from documents.glaze_room import BENCH, DOOR, SHELF, piece, result_of

from evenface.documents.alike_cards import alike_together
from evenface.documents.bench_cards import _wait_text, bench_cards_pdf, cards_data, whole_cards
from evenface.documents.glue_pages import glue_page
from evenface.words import ENGLISH, say
from evenface.workplan import Wait, derive_steps, panels_to_make
from evenface.workplan.calendar import WorkDays, schedule
from evenface.workplan.care import care_sheet
from evenface.workplan.clamps import clamp_strip
from evenface.workplan.glue_card import glue_cards

DAY = date(2027, 1, 11)
ON_CARDS = ("a slip costs", "GLUE CARD", "SETTINGS")


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
    steps = [card for card in data["cards"] if card["kind"] == "step"]
    assert [card["id"] for card in steps] == [one.step.id for one in papers[1].placed]
    assert all(card["check"] and card["why"] and card["undo"] for card in steps)
    glued = [card for card in data["cards"] if card["kind"] == "glue"]
    assert sorted(card["id"] for card in glued) == sorted(one.step for one in papers[3])
    for card in glued:
        told = {row["label"]: row["lines"] for row in card["rows"]}
        assert {"glue", "air", "test", "weigh", "time", "how", "press", "then"} <= told.keys()
        assert all(" g (" in line for line in told["weigh"][:-1])


def test_no_setting_is_lost_between_a_card_and_the_one_behind_it(papers):
    cards = cards_data(*papers)["cards"]
    told = {}
    for card in cards:
        lines = card["settings"] if card["kind"] == "step" else []
        lines = card["rows"][0]["lines"] if card["kind"] == "more" else lines
        told.setdefault(card["id"], []).extend(lines)
    assert any(card["kind"] == "more" for card in cards)
    for one in papers[1].placed:
        assert told[one.step.id] == [say(line) for line in one.step.settings]


def test_a_screen_has_one_whole_card_a_step(papers):
    whole = whole_cards(cards_data(*papers)["cards"])
    glued = {card.step for card in papers[3]}
    for one in papers[1].placed:
        card = whole[one.step.id]
        assert card["settings"] == [say(line) for line in one.step.settings]
        assert any("Test strip" in line for line in card["glue"]) is (one.step.id in glued)


def test_a_glue_card_follows_the_card_of_its_step(papers):
    cards = cards_data(*papers)["cards"]
    for before, card in pairwise(cards):
        if card["kind"] == "glue":
            assert before["kind"] in ("step", "more")
            assert before["id"] == card["id"]


def test_clamps_are_drawn_as_many_as_are_said_and_far_too_many_are_not(papers):
    card = next(one for one in papers[3] if "edging" in say(one.title))
    for length_mm, count in ((700.0, 5), (9000.0, None)):
        strip = clamp_strip(length_mm, 18.0, 0.2, 12_000.0)
        drawn = glue_page(replace(card, clamping=strip), "top", "Monday")["clamps"]
        assert (drawn and drawn["count"]) == count


def test_four_cards_a_page_or_one_and_the_standing_line_before_the_care_sheets(papers):
    count = len(alike_together(cards_data(*papers)["cards"]))
    four, one = text_of(bench_cards_pdf(*papers)), text_of(bench_cards_pdf(*papers, per_page=1))
    cards = [page for page in four if any(word in page for word in ON_CARDS)]
    assert len(cards) == -(-count // 4)
    assert len([page for page in one if any(word in page for word in ON_CARDS)]) == count
    assert "Local rules" in four[len(cards)]
    assert "Care: Glazing bench" in " ".join(four)


def test_the_same_plan_gives_the_same_bytes(papers):
    assert bench_cards_pdf(*papers) == bench_cards_pdf(*papers)


def test_contact_glue_asks_for_no_wait_and_white_glue_for_two():
    assert _wait_text(Wait("glue", 1 / 60, 1 / 60), ENGLISH) == ""
    assert _wait_text(Wait("glue", 8.0, 24.0), ENGLISH) == "8 h under pressure, 24 h until it is worked"
    assert _wait_text(None, ENGLISH) == ""
