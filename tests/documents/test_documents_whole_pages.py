"""Whole pieces in the packet: every joint, gap, fitting and work on a part is told; drawings are true and written."""

import io
import re
from collections import Counter
from dataclasses import replace
from datetime import date
from functools import cache

import pytest
from documents.glaze_room import result_of
from documents.pdf_lines import length, level, lines_of
from drawings.sample_wholes import NAMES, example
from pypdf import PdfReader

from evenface.construction import Gap
from evenface.construction.as_it_stands import standing
from evenface.construction.placed import Axis
from evenface.documents.display import sentence
from evenface.documents.files import papers
from evenface.documents.packet import packet_data, packet_pdf
from evenface.documents.pictures import Pictures, bored, part_ids, pictures_of, whole_pictures
from evenface.documents.size_tables import sheet_ladder
from evenface.documents.whole_pages import (
    fittings_table,
    gap_tables,
    joints_table,
    rows_table,
    whole_pages,
    worked_table,
)
from evenface.parts import boards_of, parts_of
from evenface.words import Manner, said, say
from evenface.workplan.records import Work
from evenface.workplan.settings import settings_of

DAY = date(2026, 3, 4)


@cache
def planned(*names):
    """A result with the pieces of some examples and nothing laid out."""
    built = tuple(example(name) for name in names)
    empty = result_of(findings=(), layouts=())
    sketch = replace(empty.sketch, constructions=built, parts=parts_of(built), boards=boards_of(built))
    return replace(empty, sketch=sketch, buying=(), not_done=())


def ids_of(name):
    return part_ids(planned(name).sketch, 1)


def _face(construction, one):
    """As the part stands; a board drawn lying keeps the names of its own faces."""
    stands = standing(construction, one.part)
    lying = any(board.name == one.part for board in construction.boards)
    return stands.word(one.face) if stands and (not lying or bored(construction, one.part)) else one.face


@pytest.mark.parametrize("name", NAMES)
def test_everything_worked_into_the_parts_is_told(name):
    construction, ids = example(name), ids_of(name)
    given = Counter(
        (ids[one.part], one.part, one.kind, _face(construction, one), sentence(one.said))
        for one in construction.arranged.worked
    )
    rows = worked_table(construction, ids).rows
    told = [(*row[:3], face, row[6]) for row in rows for face in row[3].split(", ")]
    assert set(told) == set(given)
    assert len(told) <= given.total()
    assert len({(*row[:3], *row[4:]) for row in rows}) == len(rows)  # the same stands once
    assert len(given) > 3
    order = [tuple(map(int, row[0].split("."))) for row in rows]
    assert order == sorted(order)


def test_places_of_holes_and_grooves_are_told():
    """The back's groove in the side of the cupboard: 8.3 wide, 20 mm from its rear edge (320.2 deep)."""
    rows = worked_table(example("wall-cupboard"), ids_of("wall-cupboard")).rows
    groove = next(row for row in rows if row[1] == "left side" and row[2] == "groove")
    assert groove[3:6] == ("right face", "upwards / to the rear: 11.9–708.1 × 291.9–300.2", "6")
    cups = {row[1]: row[3:5] for row in rows if row[2] == "hinge cups"}
    assert cups["left door 1"] == ("rear face", "upwards / to the right: 100 / 23.5; 617 / 23.5")
    assert cups["right door 1"] == ("rear face", "upwards / to the right: 100 / 373.5; 617 / 373.5")


def test_a_left_and_a_right_side_are_marked_out_alike():
    """Measured from the lower end and the front edge; part coordinates run the other way on the right side."""
    rows = worked_table(example("wall-cupboard"), ids_of("wall-cupboard")).rows
    left, right = (
        sorted((row[2], row[4], row[5]) for row in rows if row[1] == f"{which} side")
        for which in ("left", "right")
    )
    assert left == right
    assert ("dowel holes", "upwards / to the rear: 9 / 40; 9 / 160.1; 9 / 280.2", "11.7") in left
    faces = {row[1]: row[3] for row in rows if row[2] == "pin holes"}
    assert faces == {"left side": "right face", "right side": "left face", "divider": "left face, right face"}


@pytest.mark.parametrize("name", NAMES)
def test_every_joint_names_both_parts(name):
    construction, ids = example(name), ids_of(name)
    rows = joints_table(construction, ids).rows
    told = Counter()
    for row in rows:
        told[(*row[:3], row[6], row[8])] += int(row[3])
    assert told == Counter(
        (
            one.kind,
            *(f"{ids[part]} {part}" for part in one.between),
            str(one.number or "–"),
            sentence(one.deduction),
        )
        for one in construction.arranged.joints
    )
    assert len({(*row[:3], *row[4:]) for row in rows}) == len(rows)


@pytest.mark.parametrize("name", NAMES)
def test_every_gap_is_told_with_least_and_most(name):
    gaps = example(name).arranged.gaps
    tables = list(gap_tables(example(name), ids_of(name)))
    assert sum(len(one.rows) for one in tables) == len(gaps)
    assert len(tables) == len({gap.why for gap in gaps})
    for one in tables:
        for row in one.rows:
            assert row[3] != "–"
            if row[4] != "–":
                assert float(row[4]) <= float(row[3]) <= float(row[5])


def test_a_gap_that_does_not_move_has_no_figures_for_the_year():
    gap = Gap("beside", Axis.LEFT, 12.74, ("left side", "outside"), why=said("room for a runner"))
    one = example("wall-cupboard")
    (table,) = gap_tables(replace(one, arranged=replace(one.arranged, gaps=(gap,))), ids_of("wall-cupboard"))
    assert table.rows == (("beside", "across", "1.1 left side, outside", "12.7", "–", "–"),)
    assert table.note.startswith("Room for a runner")


@pytest.mark.parametrize("name", NAMES)
def test_rows_of_sizes_and_fittings_are_told(name):
    arranged = example(name).arranged
    rows = rows_table(example(name)).rows
    assert [row[0] for row in rows] == [one.name for one in arranged.chains if len(one.members) > 1]
    for row in rows:
        assert not re.search(r" 0( |$)", row[1])  # nothing to measure
        shown = [float(size.rsplit(" ", 1)[1]) for size in row[1].split(" + ")]
        assert sum(shown) == pytest.approx(float(row[2]), abs=0.05 * len(shown) + 0.05)
    fittings = fittings_table(example(name), ids_of(name)).rows
    told, given = Counter(), Counter()
    for row in fittings:
        told[row[1:3]] += int(row[0])
    for one in arranged.fittings:
        given[one.name, say(one.size)] += one.count
    assert told == given
    assert len({row[1:3] + row[4:] for row in fittings}) == len(fittings)


def test_numbers_are_those_of_the_parts_list():
    """The second piece of a job begins with 2, in its drawings and in its tables."""
    result = planned("notice-panel", "drawer-pedestal")
    second = next(page for page in whole_pages(result.sketch) if page.number == 2)
    worked = next(one for one in second.tables if one.title == "Worked into the parts")
    assert {row[0].split(".")[0] for row in worked.rows} == {"2"}
    drawn = whole_pictures(result)
    assert ">2.1<" in drawn[2][0].svg
    assert ">1.1<" not in drawn[2][0].svg
    listed = {part.id: part.name for part in result.sketch.all_parts}
    assert all(listed[i] == name for name, i in part_ids(result.sketch, 2).items())


def test_it_stands_in_the_packet_and_beside_it():
    result = planned("wall-cupboard")
    drawn = Pictures(wholes=whole_pictures(result))
    names = [name for name in papers(result, drawn, DAY) if name.startswith("drawings/")]
    assert names == [
        f"drawings/whole-1-{kind}-wall-cupboard.svg" for kind in ("front", "plan", "side", "section", "apart")
    ]
    pages = PdfReader(io.BytesIO(packet_pdf(result, drawn, DAY))).pages
    text = " ".join(" ".join(page.extract_text() for page in pages).split())
    for words in ("Joints", "Worked into the parts", "Gaps", "Rows of sizes", "Fittings", "taken apart"):
        assert words in text


def test_the_front_is_true_to_scale_on_paper():
    """1600 mm at 1:20 is 80 mm, 720 mm is 36 mm; measured from the operators, to 0.01 mm."""
    result = planned("wall-cupboard")
    drawn = Pictures(wholes=whole_pictures(result))
    pages = PdfReader(io.BytesIO(packet_pdf(result, drawn, DAY))).pages
    page = next(page for page in pages if "from the front" in page.extract_text())
    assert "from the front · 1:20" in page.extract_text()
    found = lines_of(page)
    assert any(abs(length(line) - 80.0) < 0.01 for line in found if level(line))
    assert any(abs(length(line) - 36.0) < 0.01 for line in found if not level(line))


def test_loose_panels_stay_as_they_are(glaze_room):
    assert list(whole_pages(glaze_room.sketch)) == []
    assert whole_pictures(glaze_room) == {}
    assert packet_data(glaze_room, Pictures(), DAY)["wholes"] == []


def test_panels_that_are_alike_share_a_sheet():
    """Top and bottom of the cupboard differ in nothing but their name; no part loses its sheet."""
    result = planned("wall-cupboard")
    pages = packet_data(result, pictures_of(result), date(2026, 1, 1))["panels"]
    facts = [dict(page["facts"]) for page in pages]
    told = [one for page in facts for one in page["number"].split(", ")]
    assert sorted(told) == sorted(part.id for part in result.sketch.parts)
    shared = next(page for page in pages if page["heading"].startswith("Wall cupboard: top, bottom"))
    assert dict(shared["facts"])["count"] == "1 of each"
    doors = next(page for page in pages if "door" in page["heading"])
    assert doors["heading"] == "Wall cupboard: left door 1, right door 1, left door 2, right door 2"
    plans = [one["svg"] for one in doors["pictures"] if "plan" in one["title"]]
    assert len(plans) == 2  # grips are handed
    assert "left door 1, left door 2: plan" in plans[0]
    assert "right door 1, right door 2: plan" in plans[1]
    assert sum("grip" in one["title"] for one in doors["pictures"]) == 1


def test_how_a_part_stands_is_told_on_its_sheet():
    """A door lies on its plan with its upper end to the left; the left side of the case with its lower end."""
    result = planned("wall-cupboard")
    pages = packet_data(result, Pictures(), date(2026, 1, 1))["panels"]
    told = {page["heading"]: page["stands"] for page in pages}
    doors = told["Wall cupboard: left door 1, right door 1, left door 2, right door 2"]
    assert doors == [
        "1.8, 1.9, 1.10, 1.11: in the piece its left edge looks upwards, its front edge to the left, "
        "its show face to the front"
    ]
    assert told["Wall cupboard: left side, right side"] == [
        "1.1: in the piece its left edge looks downwards, its front edge to the front, its show face to the left",
        "1.3: in the piece its left edge looks upwards, its front edge to the front, its show face to the right",
    ]


def test_panels_on_a_sheet_are_of_one_size():
    result = planned("wall-cupboard")
    pages = packet_data(result, Pictures(), date(2026, 1, 1))["panels"]
    facts = [dict(page["facts"]) for page in pages]
    for page in facts:
        sizes = {part.finished_mm for part in result.sketch.parts if part.id in page["number"].split(", ")}
        assert len(sizes) == 1


def spoken(page) -> str:
    """Text without what only breaks lines."""
    return re.sub(r"[\s\u200b\u00ad-]", "", page.extract_text())


@pytest.mark.parametrize("names", [("lined-tray",), ("notice-panel", "wall-cupboard", "glazing-desk")])
def test_every_part_and_chapter_stands_on_the_page_the_cover_says(names):
    result = planned(*names)
    pdf = PdfReader(io.BytesIO(packet_pdf(result, pictures_of(result), DAY)))
    pages = [spoken(page) for page in pdf.pages]
    cover, _ = "\n".join(page.extract_text() for page in pdf.pages[:2]).split("Contents", 1)
    rows = re.findall(r"^(\d+\.\d+)\b.*?(\d+)$", cover, flags=re.MULTILINE)
    found = {part: int(page) for part, page in rows}
    assert found.keys() == {part.id for part in result.sketch.all_parts}
    panels = {part.id for part in result.sketch.parts}
    for part in result.sketch.all_parts:
        told = pages[found[part.id] - 1]
        name = f"{part.piece}:" if part.id in panels else f"{part.id}{part.piece}:{part.name}"
        assert re.sub(r"[\s-]", "", name) in told, part.id
        assert re.sub(r"[\s-]", "", part.id) in told
    first = next(n for n, text in enumerate(pages, start=1) if text.startswith("Boardsofsolidwood"))
    assert re.search(rf"Boardsofsolidwood\.+{first}(?!\d)", pages[0] + pages[1])


def test_what_is_said_of_every_board_is_said_once():
    pages = packet_data(planned("notice-panel"), Pictures(), DAY)["boards"]
    assert pages["notes"] == [
        "Width 60 mm = 50 mm seen and a ledge of 10 mm under the panel.",
        "Each end left 1.6 mm long, cut to length at the joint.",
    ]
    assert [part["notes"] for part in pages["parts"]] == [
        [],
        ["Length through both stiles; between shoulders 1080 mm behind and 1100 mm before."],
    ]


@pytest.mark.parametrize("name", ["wall-cupboard", "drawer-pedestal", "desk-drawer"])
def test_what_the_saw_is_set_to_reads_the_same_in_ladder_and_on_card(name):
    """The carrier of every panel: one figure, to 0.1, whichever page a maker has before him."""
    construction = example(name)
    for panel, part in zip(construction.panels, parts_of((construction,)), strict=True):
        ladder = next(row for row in sheet_ladder(part, {}).rows if row[0] == "carrier")
        card = say(settings_of(Work.CUT_CARRIER, panel, part=part)[0])
        assert card == f"{ladder[2]} of {ladder[5].replace(' ×', ' mm ×')} mm"


def test_the_size_of_a_piece_reads_as_in_its_drawings():
    """Front 20.3 + box 450: 470.3 deep, as the views say, not to the half millimetre."""
    (page,) = whole_pages(planned("desk-drawer").sketch)
    assert dict(page.facts)["width × depth × height"] == "475 × 470.3 × 115 mm"


def test_top_and_bottom_share_one_plan():
    result = planned("drawer-pedestal")
    pages = packet_data(result, pictures_of(result), date(2026, 1, 1))["panels"]
    shared = next(page for page in pages if page["heading"] == "Drawer pedestal: top, bottom")
    plans = [one["svg"] for one in shared["pictures"] if "plan" in one["title"]]
    assert len(plans) == 1
    assert "top, bottom: plan" in plans[0]


def test_build_ups_that_an_edge_shows_stand_together_behind_the_sheets():
    """Sides, shelves and doors are edged; the back is not, and keeps its own on its sheet."""
    result = planned("wall-cupboard")
    data = packet_data(result, pictures_of(result), date(2026, 1, 1))
    assert [one["title"].split(":")[0] for one in data["build_ups"]] == [
        "left side",
        "loose shelf",
        "left door 1",
    ]
    kept = [
        page["heading"] for page in data["panels"] if any("build-up" in p["title"] for p in page["pictures"])
    ]
    assert kept == ["Wall cupboard: back"]
    assert ["build_ups", "Build-ups"] in data["chapters"]


def test_sides_a_facing_is_fitted_at_are_told_in_the_readers_language():
    other = Manner(translate=lambda text: {"front": "framkant", "rear": "bakkant"}.get(text, text))
    part = next(one for one in planned("desk-drawer").sketch.parts if one.name == "drawer front")
    face = next(layer for layer in part.layers if layer.fitted)
    told = " ".join(say(reason, other) for reason in face.reasons)
    assert "Fitted into the opening at framkant, bakkant, left, right:" in told
