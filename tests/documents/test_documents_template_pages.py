"""Templates over pages: true both ways on every page, and nothing lost between them."""

import io
from datetime import date

import pytest
from documents.pdf_lines import MM_PER_POINT, length, level, lines_of, upright
from pypdf import PdfReader

from evenface.documents.templates_pages import ScaleError, template_pages
from evenface.drawings.scene import Path, Scene, scene_of
from evenface.errors import EvenfaceError
from evenface.shape.tiling import tile

DAY = date(2026, 3, 4)
CORNERS = ((0.0, 0.0), (331.5, 0.0), (331.5, 402.25), (0.0, 402.25))


def block():
    return scene_of("block <b> #panic()", 1.0, (Path(tuple((x, y, 0.0) for x, y in CORNERS)),))


@pytest.mark.parametrize("paper", ["A4", "A3", "Letter"])
def test_every_page_measures_100_mm_both_ways(paper):
    scene = block()
    tiling = tile(scene.bounds, paper)
    pages = PdfReader(io.BytesIO(template_pages(scene, DAY, paper))).pages
    assert len(pages) == len(tiling.pages) + (len(tiling.pages) > 1)
    for page in pages:
        size = (float(page.mediabox.width) * MM_PER_POINT, float(page.mediabox.height) * MM_PER_POINT)
        assert size == pytest.approx(tiling.paper_size, abs=0.01)
    for page in pages[-len(tiling.pages) :]:
        lines = lines_of(page)
        across = [one for one in lines if level(one) and abs(one[0][1] - 5.0) < 0.05 and length(one) > 50]
        up = [one for one in lines if upright(one) and abs(one[0][0] - 5.0) < 0.05 and length(one) > 50]
        assert [length(one) for one in across] == pytest.approx([100.0], abs=0.1)
        assert [length(one) for one in up] == pytest.approx([100.0], abs=0.1)


def test_lines_lie_where_the_tiling_puts_them():
    """Each page's picture of the outline, moved back by the page's shift, is the outline: to 0.01 mm."""
    scene = block()
    tiling = tile(scene.bounds, "A4")
    pages = PdfReader(io.BytesIO(template_pages(scene, DAY, "A4"))).pages[-len(tiling.pages) :]
    assert len(tiling.pages) > 1
    for page, reader in zip(tiling.pages, pages, strict=True):
        found = [one for one in lines_of(reader) if level(one) and abs(length(one) - 331.5) < 0.01]
        ys = sorted(one[0][1] + page.shift[1] for one in found)
        xs = {round(min(one[0][0], one[1][0]) + page.shift[0], 2) for one in found}
        assert ys == pytest.approx([0.0, 402.25], abs=0.01)
        assert xs == {0.0}


def test_one_page_needs_no_map():
    small = scene_of("small", 1.0, (Path(((0.0, 0.0, 0.0), (80.0, 0.0, 0.0), (80.0, 60.0, 0.0))),))
    assert len(PdfReader(io.BytesIO(template_pages(small, DAY))).pages) == 1


def test_text_is_text():
    pages = PdfReader(io.BytesIO(template_pages(block(), DAY))).pages
    assert all("#panic()" in page.extract_text() for page in pages)
    assert "lay each page on its neighbour" in " ".join(pages[0].extract_text().split())


def test_only_at_true_size_and_on_known_paper():
    with pytest.raises(ScaleError, match="1:2"):
        template_pages(Scene("half", 0.5, (0.0, 0.0, 10.0, 10.0), ()), DAY)
    with pytest.raises((EvenfaceError, ValueError), match="expected one of A4, A3, Letter"):
        template_pages(block(), DAY, "A9")
