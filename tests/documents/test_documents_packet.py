"""The packet: true where it claims scale, whole where names are long, plain text where they are markup."""

import io
import re
from dataclasses import replace
from datetime import date

import pytest
from documents.glaze_room import BENCH, DOOR, SHELF, findings_by_hand, piece, result_of
from documents.pdf_lines import MM_PER_POINT, length, level, lines_of
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PdfReader

from evenface.behaviour.causes import cause_said
from evenface.documents.packet import packet_data, packet_pdf
from evenface.documents.pictures import Pictures, picture_of, pictures_of, slug, unique
from evenface.documents.setting import SettingError, set_pdf
from evenface.drawings.scene import Path, scene_of
from evenface.piece.bench_records import Reading
from evenface.words import Manner, said, say

DAY = date(2026, 3, 4)


def packet(result):
    return PdfReader(io.BytesIO(packet_pdf(result, pictures_of(result), DAY)))


def words(text):
    """Text without what only breaks lines."""
    return re.sub(r"[\s\u200b\u00ad-]", "", text)


def placed_texts(page):
    found = []

    def visit(text, matrix, text_matrix, font, size):
        if text.strip():
            x = text_matrix[4] * matrix[0] + text_matrix[5] * matrix[2] + matrix[4]
            y = text_matrix[4] * matrix[1] + text_matrix[5] * matrix[3] + matrix[5]
            found.append((text, x * MM_PER_POINT, y * MM_PER_POINT))

    page.extract_text(visitor_text=visit)
    return found


@pytest.fixture(scope="module")
def whole(glaze_room):
    return packet(glaze_room)


def test_the_moisture_log_is_in_it_where_there_is_one(glaze_room, whole):
    told = words("".join(page.extract_text() for page in whole.pages))
    assert "Moisturelog" not in told
    reading = Reading("wood", 0.084, date(2026, 2, 27), "ash", "left stack", "pin meter", date(2026, 2, 10))
    made = replace(glaze_room.sketch.made, moisture=(reading,))
    data = packet_data(
        replace(glaze_room, sketch=replace(glaze_room.sketch, made=made)), pictures_of(glaze_room), DAY
    )
    assert [row[:5] for row in data["moisture"]["rows"]] == [
        ["2026-02-27", "ash", "left stack", "8.4 %", "17"]
    ]
    told = words(
        "".join(page.extract_text() for page in PdfReader(io.BytesIO(set_pdf("packet.typ", data))).pages)
    )
    assert "Moisturelog" in told
    assert "pinmeter" in told


def test_everything_is_in_it(glaze_room, whole):
    text = words("".join(page.extract_text() for page in whole.pages))
    for part in glaze_room.sketch.parts:
        assert words(f"{part.piece}: {part.name}") in text
    for sentence in (
        "Thecarrierstands5.1mmoutoftheroundedcorner",
        "Localrulesandlicensedpractice",
        "Noclimateisgiven",
    ):
        assert sentence in text
    assert "Evenface" not in text
    assert f"1of{len(whole.pages)}" in text
    assert "2026-03-04".replace("-", "") in text


def test_the_check_line_is_100_mm_on_every_page_that_claims_scale(whole):
    scaled = [page for page in whole.pages if re.search(r"\b1:\d", page.extract_text())]
    assert len(scaled) >= 4
    for page in scaled:
        assert "This line measures 100 mm" in " ".join(page.extract_text().split())
        lower = [line for line in lines_of(page) if level(line) and line[0][1] < 40 and length(line) < 120]
        longest = max(lower, key=length)
        assert length(longest) == pytest.approx(100.0, abs=0.1)


def test_a_plan_at_1_to_20_is_true(whole):
    """1800 mm at 1:20 = 90 mm; carrier 1772 = 88.6; measured from the operators, to 0.01 mm."""
    page = next(page for page in whole.pages if "Glazing bench: top" in page.extract_text())
    assert "1:20" in page.extract_text()
    levels = [length(line) for line in lines_of(page) if level(line)]
    assert any(abs(one - 90.0) < 0.01 for one in levels)
    assert any(abs(one - 88.6) < 0.01 for one in levels)


def test_nothing_leaves_the_frame():
    """Frame: 20 to 200 mm across, 10 to 287 up. Every text begins inside it, whatever the names."""
    long = "Supercalifragilistic" * 10
    many = tuple(
        replace(one, part=f"{one.part} {number}", why=said("Because " + "wood moves " * 60))
        for number in range(8)
        for one in findings_by_hand()
    )
    result = result_of(
        piece(long, BENCH), piece("a b " * 60, DOOR, replace(SHELF, name=long)), findings=many, name=long
    )
    pdf = packet(result)
    for page in pdf.pages:
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(
            (595.28, 841.89), abs=0.01
        )
        for text, x, y in placed_texts(page):
            assert 19.9 < x < 200.1, text
            assert 9.9 < y < 287.1, text
        for (x0, y0), (x1, y1) in lines_of(page):
            assert all(19 < x < 201 for x in (x0, x1))
            assert all(9 < y < 288 for y in (y0, y1))
    assert len(pdf.pages) < 30


def test_nothing_to_say_is_said():
    result = replace(result_of(piece("Rack", SHELF), findings=(), layouts=()), buying=(), not_done=())
    pdf = PdfReader(io.BytesIO(packet_pdf(result, Pictures(), DAY)))
    text = " ".join("".join(page.extract_text() for page in pdf.pages).split())
    assert "Nothing found" in text
    assert "Nothing here." in text
    assert len(pdf.pages) == 3


def test_the_same_input_gives_the_same_bytes(glaze_room):
    pictures = pictures_of(glaze_room)
    assert packet_pdf(glaze_room, pictures, DAY) == packet_pdf(glaze_room, pictures, DAY)


AWKWARD = (
    "#panic()",
    "<b>bold</b>",
    "=cmd|' /C calc'!A0",
    "*x* _y_ $z$",
    "@ref `raw` // c /* d */",
    '"q\\',
    '#read("/etc/passwd")',
)


@settings(max_examples=12, deadline=None)
@given(
    st.one_of(
        st.sampled_from(AWKWARD),
        st.text(st.sampled_from("ab#$*_@<>=&'\"`\\/[]{}()~-+ "), min_size=1, max_size=60),
        st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=20),
    )
)
def test_any_name_is_set_as_text(name):
    result = result_of(piece(name, SHELF), findings=(), layouts=(), name=name)
    pdf = packet(result)
    assert len(pdf.pages) == 4
    if name.isascii() and name.isprintable():
        assert words(name) in words("".join(page.extract_text() for page in pdf.pages))


def test_awkward_names_stand_letter_by_letter():
    result = result_of(*(piece(name, SHELF) for name in AWKWARD), findings=(), layouts=())
    text = words("".join(page.extract_text() for page in packet(result).pages))
    for name in AWKWARD:
        assert words(name) in text


def test_a_template_that_cannot_be_set_is_an_error_of_ours():
    with pytest.raises(SettingError, match=r"packet\.typ"):
        set_pdf("packet.typ", {})


def test_pictures_have_safe_and_different_names(glaze_room):
    names = [one.name for one in pictures_of(glaze_room)]
    assert len(set(names)) == len(names)
    assert names[:2] == ["glazing-bench-top-plan", "glazing-bench-top-section-front"]
    assert slug("../..", "a/b", "Åse & Kö") == "a-b-ase-ko"
    assert slug("日本") == "drawing"
    assert unique(["a", "a", "a-2", "a"]) == ["a", "a-2", "a-2-2", "a-3"]


@settings(max_examples=50)
@given(st.lists(st.text(max_size=30), max_size=8))
def test_file_names_are_plain(names):
    for name in unique(slug(one) for one in names):
        assert re.fullmatch(r"[a-z0-9][a-z0-9-]{0,63}", name)


def test_pages_of_one_panel_follow_the_parts(glaze_room):
    pictures = pictures_of(glaze_room)
    assert list(pictures.panels) == [part.id for part in glaze_room.sketch.parts]
    assert pictures.panels["1.1"][0].scale == "1:20"


def test_a_layout_is_printed_at_the_scale_it_says(glaze_room):
    """2500 mm at 1:20 are 125 mm; what is too large for the page says that it is not to scale."""
    sheet = Path(((0.0, 0.0, 0.0), (2500.0, 0.0, 0.0), (2500.0, 1250.0, 0.0), (0.0, 1250.0, 0.0)))
    for scale, true in ((0.05, True), (0.2, False)):
        picture = picture_of(scene_of("sheet", scale, (sheet,)), "sheet")
        pages = PdfReader(
            io.BytesIO(packet_pdf(glaze_room, Pictures(sheets={(0, 0): (picture,)}), DAY))
        ).pages
        page = next(page for page in pages if "Cuts in order" in page.extract_text())
        assert ("not to scale" in page.extract_text()) is not true
        drawn = [length(line) for line in lines_of(page) if level(line) and abs(length(line) - 125.0) < 0.01]
        assert bool(drawn) is true


def test_headings_of_layouts_and_what_is_uncertain_speak_the_readers_language(glaze_room):
    """Titles of materials, "1 of 2", and the property a band rests on."""
    words = {"{count:count} of {all:count}": "{count:count} av {all:count}", "humidity when glued": "fukt"}
    other = Manner(translate=lambda text: words.get(text, text), name=lambda text: f"<{text}>")
    titles = [one["title"] for one in packet_data(glaze_room, Pictures(), DAY, other)["layouts"]["sheets"]]
    assert titles
    assert all(title.startswith("<") and " av " in title for title in titles)
    assert say(cause_said("Ash (face): humidity when glued"), other) == "<Ash> (face): fukt"
    assert say(cause_said("Ash: thickness"), other) == "<Ash>: thickness"
