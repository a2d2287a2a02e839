"""Plans measured in their SVG: sizes are those of the records, mirrored is mirrored, names are only text."""

from dataclasses import replace
from xml.etree import ElementTree

import pytest
from drawings.measured import SVG, letterings, ways_of
from drawings.sample_panels import bench, box, built, edges, rounded

from evenface.drawings import plan_of, sections_of, to_svg
from evenface.piece.records import Cutout, Edge, Panel, Profile, Side

EXACT = 0.001
"""mm of the piece: five decimals of a mm of paper at 1:50 are 0.0005 mm of the piece."""


def test_outline_and_cutouts_measure_what_was_asked():
    scene = plan_of(bench())
    svg = to_svg(scene)
    (outline,) = ways_of(svg, scene, "outline")
    assert outline.closed
    assert outline.box == pytest.approx((0.0, 0.0, 1800.0, 650.0), abs=EXACT)
    assert outline.radii == pytest.approx([60.0] * 8, abs=EXACT)  # each quarter in two pieces of 45°
    holes = [way for way in ways_of(svg, scene, "cutouts") if way.closed]
    assert holes[0].box == pytest.approx((1100.0, 150.0, 1580.0, 530.0), abs=EXACT)
    assert holes[1].box == pytest.approx((300.0, 280.0, 360.0, 340.0), abs=EXACT)


def test_size_of_the_paper_is_in_mm():
    scene = plan_of(bench())
    root = ElementTree.fromstring(to_svg(scene))
    width, height = float(root.attrib["width"][:-2]), float(root.attrib["height"][:-2])
    assert root.attrib["viewBox"].split() == ["0", "0", root.attrib["width"][:-2], root.attrib["height"][:-2]]
    assert (width, height) == pytest.approx((scene.width_mm, scene.height_mm), abs=1e-4)


def test_each_radius_and_size_is_written():
    words = letterings(to_svg(plan_of(bench())))
    for figure in (
        "1800",
        "650",
        "1772",
        "622",
        "4×R60",
        "480",
        "380",
        "150",
        "330",  # the middle of the drain, Ø60: where the compass or the hole saw stands
        "310",
        "basin",
        "drain",
    ):
        assert figure in words


def test_unequal_edgings_lie_where_they_are():
    panel = built(Panel("shelf", 1, 900, 400, "b", edges=edges((40, 14, 9, 0))))
    scene = plan_of(panel)
    lines = {tuple(round(one, 3) for one in way.box) for way in ways_of(to_svg(scene), scene, "edging")}
    ys = {line[1] for line in lines if line[1] == line[3]}
    xs = {line[0] for line in lines if line[0] == line[2]}
    assert {40.0, 386.0} <= ys
    assert 9.0 in xs
    assert not any(x > 450 for x in xs)  # the right edge is bare


@pytest.mark.parametrize(
    "name", ["</text><script>alert(1)</script>", "a \"b\" & 'c'", "\x00\x0b]]>&lt;", "ü漢 🪵"]
)
def test_names_are_text_and_nothing_else(name):
    cutouts = (Cutout(name, box(200, 100, 300, 200)),)
    panel = replace(built(Panel("x", 1, 900, 420, "b", edges=edges((14,) * 4), cutouts=cutouts)), name=name)
    scenes = (plan_of(panel), *sections_of(panel))
    for scene in scenes:
        root = ElementTree.fromstring(to_svg(scene))
        kinds = {element.tag.removeprefix(SVG) for element in root.iter()}
        assert kinds <= {"svg", "title", "g", "path", "circle", "text"}
    shown = name.replace("\x00", "").replace("\x0b", "")
    assert shown in letterings(to_svg(scenes[0]))


def _mirrored(panel: Panel) -> Panel:
    """Left and right exchanged."""
    sides = {Side.LEFT: Side.RIGHT, Side.RIGHT: Side.LEFT}
    return replace(
        panel,
        edges=tuple(replace(one, side=sides.get(one.side, one.side)) for one in panel.edges),
        corners=tuple(
            replace(one, at=type(one.at)(
                one.at.value.replace("left", "?").replace("right", "left").replace("?", "right")
            )) for one in panel.corners
        ),
        cutouts=tuple(
            Cutout(one.name, box(panel.length_mm - b[2], b[1], b[2] - b[0], b[3] - b[1]))
            for one in panel.cutouts
            for b in (one.outline.bounds,)
        ),
    )  # fmt: skip


def test_a_mirrored_panel_is_a_mirrored_drawing():
    panel = Panel(
        "door", 1, 715, 396, "b", edges=(*edges((22, 14, 9, 0)),),
        corners=(replace(rounded(30)[0]), replace(rounded(12, "chamfer")[3])),
        cutouts=(Cutout("cable", box(80, 200, 60, 40)),),
    )  # fmt: skip
    here, there = plan_of(built(panel)), plan_of(built(_mirrored(panel)))
    assert here.scale == there.scale
    for layer in ("outline", "edging", "cutouts"):
        first = {
            frozenset((round(715 - x, 2), round(y, 2)) for x, y in way.points)
            for way in ways_of(to_svg(here), here, layer)
        }
        second = {
            frozenset((round(x, 2), round(y, 2)) for x, y in way.points)
            for way in ways_of(to_svg(there), there, layer)
        }
        assert first
        assert first == second


def test_the_same_panel_is_the_same_drawing():
    panel = built(Panel("x", 1, 600, 300, "b", edges=(Edge(Side.FRONT, "ash", 8.0),),
                        profiles=(Profile((Side.FRONT,), "round-over", "top", radius_mm=3.0),)))  # fmt: skip
    assert [to_svg(one) for one in sections_of(panel)] == [to_svg(one) for one in sections_of(panel)]
