"""Care and hand-over sheets: what is measured beside what was reckoned, room to write where nothing is."""

import io
from dataclasses import replace
from datetime import date

import jobs_by_hand as by_hand
import pytest

from evenface.behaviour import Bend, Direction, behaviour_of
from evenface.documents.hand_over import TO_FILL, care_pdf, flat_to_fill, hand_over_pdf, verdict
from evenface.documents.letters import Letterhead
from evenface.evidence import Band
from evenface.piece.bench_records import MeasuredFlat
from evenface.workplan.care import care_sheet

HEAD = Letterhead("Glaze room", "", date(2027, 3, 1))
BOW = Bend(Direction.BOW, 800.0, Band(-0.4, 0.3, 1.1), 2, (), {})


@pytest.fixture(scope="module")
def flat():
    """Two panels with their year, the second made twice."""
    order = by_hand.job(
        by_hand.panel(*by_hand.ALL_UNDER), replace(by_hand.panel(name="shelf", length_mm=700.0), count=2)
    )
    panels, _ = by_hand.built(order)
    return tuple((panel, behaviour_of(order, panel)) for panel in panels)


def text_of(pages):
    pypdf = pytest.importorskip("pypdf")
    return " ".join(
        " ".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(pages)).pages).split()
    )


def test_every_copy_and_way_has_a_row_with_room_to_write(flat):
    made = flat_to_fill(flat, ())
    assert len(made.rows) == 3 * 3
    assert [row[0] for row in made.rows if row[0]] == ["top", "shelf 1", "shelf 2"]
    assert all(row[5] == TO_FILL for row in made.rows)


def test_a_measured_figure_stands_in_the_row_of_its_copy_alone(flat):
    panel = next(panel for panel, _ in flat if panel.count > 1)
    made = flat_to_fill(flat, (MeasuredFlat(panel.piece, panel.name, 2, bow_mm=0.7),))
    filled = [row for row in made.rows if row[5] != TO_FILL]
    assert [(row[0], row[5]) for row in filled] == [(f"{panel.name} 2", "0.7")]


@pytest.mark.parametrize(
    ("value", "told"),
    [(0.5, "yes"), (-0.2, "yes"), (1.4, "yes, but outside the range"), (-1.9, "over"), (1.61, "over")],
)
def test_the_verdict(value, told):
    assert verdict(value, 1.6, BOW) == told


def test_twist_has_no_sign():
    twist = replace(BOW, direction=Direction.TWIST, worst=Band(0.0, None, 2.0))
    assert verdict(-1.5, 3.0, twist) == verdict(1.5, 3.0, twist) == "yes"


def test_the_papers_are_set_and_say_what_they_are(flat):
    panel, _ = flat[0]
    pages = hand_over_pdf(HEAD, flat, (MeasuredFlat(panel.piece, panel.name, bow_mm=1.3),))
    told = text_of(pages)
    assert "1.3" in told
    assert TO_FILL in told
    assert pages == hand_over_pdf(HEAD, flat, (MeasuredFlat(panel.piece, panel.name, bow_mm=1.3),))
    care = {"Bench": care_sheet([panel for panel, _ in flat])}
    told = text_of(care_pdf(HEAD, care, {"Laminate": "B17"}))
    assert "B17" in told
    assert "Bench" in told
    assert "Local rules" in told
