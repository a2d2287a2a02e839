"""The SVG read back and measured: sizes, arcs, escaping, and no styling that PDF tools would lose."""

import math
import re
import xml.etree.ElementTree as ET
from dataclasses import replace

import pytest
from drawings.sample_panels import bench, built, edges, rounded

from evenface.drawings import Scene, plan_of, section_of, to_svg
from evenface.drawings.scene import Area, Fill, Path, Text, scene_of
from evenface.piece.records import CornerAt, Panel, Side

SVG = "{http://www.w3.org/2000/svg}"


def parsed(scene: Scene) -> ET.Element:
    return ET.fromstring(to_svg(scene))


def ways(scene: Scene, layer: str) -> list[str]:
    """The path data of one layer."""
    groups = [g for g in parsed(scene).iter(f"{SVG}g") if g.get("data-layer") == layer]
    return [path.get("d", "") for group in groups for path in group.iter(f"{SVG}path")]


def steps(way: str) -> list[tuple[str, list[float]]]:
    found = re.findall(r"([MLAZ])([^MLAZ]*)", way)
    return [(letter, [float(n) for n in numbers.split()]) for letter, numbers in found]


def corners(way: str) -> list[tuple[float, float]]:
    return [(numbers[-2], numbers[-1]) for letter, numbers in steps(way) if letter != "Z"]


@pytest.mark.parametrize("scale", [1.0, 0.1, 1 / 15, 0.05])
def test_the_outline_measures_what_the_record_says(scale: float) -> None:
    # printed to 0.00001 mm of paper: at 1:20 that is 0.0002 mm of the piece
    scene = plan_of(bench(), scale=scale)
    (way,) = ways(scene, "outline")
    xs, ys = zip(*corners(way), strict=True)
    assert (max(xs) - min(xs)) / scale == pytest.approx(1800.0, abs=1e-3)
    assert (max(ys) - min(ys)) / scale == pytest.approx(650.0, abs=1e-3)


def test_arcs_have_their_radius_and_turn_at_most_45_degrees() -> None:
    scene = plan_of(bench(), scale=0.1)
    (way,) = ways(scene, "outline")
    arcs = 0
    for (_, before), (letter, numbers) in zip(steps(way), steps(way)[1:], strict=False):
        if letter != "A":
            continue
        arcs += 1
        assert numbers[0] == numbers[1] == pytest.approx(6.0, abs=1e-4)
        chord = math.dist(before[-2:], numbers[-2:])
        assert math.degrees(2 * math.asin(chord / 12.0)) <= 45.0 + 1e-3
        assert numbers[2:4] == [0, 0]  # never the larger arc
    assert arcs == 8  # four quarters in two halves each


def test_a_quarter_arc_bulges_outwards_on_the_paper() -> None:
    ring = ((0.0, 0.0, math.tan(math.pi / 8)), (10.0, 10.0, 0.0), (0.0, 10.0, 0.0))
    scene = scene_of("quarter", 1.0, [Path(ring)])
    (way,) = ways(scene, "outline")
    (x0, y0), (xm, ym), *_ = corners(way)
    # counter-clockwise from (0, 0) to (10, 10) about (0, 10): half way lies right of the chord and below it
    assert xm - x0 == pytest.approx(10 * math.sin(math.pi / 4), abs=1e-4)
    assert y0 - ym == pytest.approx(10 - 10 * math.cos(math.pi / 4), abs=1e-4)


def test_size_on_the_paper_stands_in_mm_and_is_the_view_box() -> None:
    scene = plan_of(bench(), scale=0.1)
    root = parsed(scene)
    width = float(root.get("width", "").removesuffix("mm"))
    height = float(root.get("height", "").removesuffix("mm"))
    assert root.get("viewBox") == f"0 0 {root.get('width', '')[:-2]} {root.get('height', '')[:-2]}"
    assert (width, height) == pytest.approx((scene.width_mm, scene.height_mm), abs=1e-4)
    assert root.get("data-scale") == "1:10"


def test_names_are_text_and_nothing_else() -> None:
    nasty = "top <script>alert('1')</script> & \"x\" \x00\x0b\ud800\ufffe</svg>"
    scene = plan_of(replace(bench(), name=nasty), scale=0.1)
    root = parsed(scene)
    assert {one.tag.removeprefix(SVG) for one in root.iter()} <= {
        "svg",
        "title",
        "g",
        "path",
        "circle",
        "text",
    }
    written = " ".join(text.text or "" for text in root.iter(f"{SVG}text"))
    assert "<script>alert('1')</script> & \"x\"" in written


def test_presentation_attributes_only_and_no_references() -> None:
    text = to_svg(plan_of(bench())) + to_svg(section_of(bench(), Side.FRONT))
    for forbidden in (
        "<style",
        "style=",
        "class=",
        "var(",
        "vector-effect",
        "<pattern",
        "clip-path",
        "href",
        "url(",
    ):
        assert forbidden not in text
    assert not re.search(r"\bid=", text)  # ids of two drawings in one page would meet
    assert "nan" not in text.lower().replace("dominant", "")


def test_the_same_scene_gives_the_same_bytes() -> None:
    panel = built(Panel("door", 1, 600, 400, "b", edges=edges((14,) * 4)), core="particleboard-19")
    assert to_svg(section_of(panel, Side.LEFT)) == to_svg(section_of(panel, Side.LEFT))


def test_lettering_keeps_to_the_face_the_packet_carries() -> None:
    families = {text.get("font-family") for text in parsed(plan_of(bench())).iter(f"{SVG}text")}
    assert families == {"DejaVu Sans Mono, monospace"}


def test_a_scene_without_extent_is_refused() -> None:
    with pytest.raises(ValueError, match="a drawing with a size"):
        Scene("nothing", 1.0, (0.0, 0.0, 0.0, 5.0), ())
    with pytest.raises(ValueError, match="scale above 0"):
        Scene("nothing", 0.0, (0.0, 0.0, 5.0, 5.0), ())


def test_holes_of_a_solid_area_stay_open() -> None:
    outer = ((0.0, 0.0, 0.0), (10.0, 0.0, 0.0), (10.0, 10.0, 0.0), (0.0, 10.0, 0.0))
    inner = ((3.0, 3.0, 0.0), (3.0, 6.0, 0.0), (6.0, 6.0, 0.0), (6.0, 3.0, 0.0))
    (way,) = ways(scene_of("x", 1.0, [Area((outer, inner), Fill.LAMINATE), Text(5, 5, "x")]), "hatch")
    assert way.count("M") == way.count("Z") == 2


def test_a_mirrored_panel_gives_a_mirrored_drawing() -> None:
    here = built(Panel("d", 1, 600, 400, "b", edges=edges((14, 20, 40, 8)), corners=rounded(20)[:2]))
    asked = here.panel
    swapped = {CornerAt.FRONT_LEFT: CornerAt.FRONT_RIGHT, CornerAt.FRONT_RIGHT: CornerAt.FRONT_LEFT}
    corners_there = tuple(replace(corner, at=swapped[corner.at]) for corner in asked.corners)
    there = built(replace(asked, edges=edges((14, 20, 8, 40)), corners=corners_there))
    for layer in ("outline", "edging"):
        first = _ends(plan_of(here, scale=0.2), layer, 600.0)
        assert first == _ends(plan_of(there, scale=0.2), layer, None)


def _ends(scene: Scene, layer: str, mirror_mm: float | None) -> set[frozenset[tuple[float, float]]]:
    """Lines of a layer by their two ends, mirrored in the middle of that length when it is given."""
    found = set()
    for one in scene.on_layer(layer):
        if isinstance(one, Path):
            lines = [(s.first, s.last) for s in one.segments]
        else:
            lines = [((one.x0, one.y0), (one.x1, one.y1))]  # type: ignore[union-attr]
        for line in lines:
            places = [(mirror_mm - x if mirror_mm else x, y) for x, y in line]
            found.add(frozenset((round(x, 6) + 0.0, round(y, 6) + 0.0) for x, y in places))
    return found


@pytest.mark.parametrize(("turn", "flag"), [(1.0, 0.0), (-1.0, 1.0)])
def test_arcs_turn_the_same_way_on_the_paper(turn: float, flag: float) -> None:
    # y runs down on the paper: what turns counter-clockwise in the piece has the sweep flag 0 there
    ring = ((0.0, 0.0, turn * math.tan(math.pi / 8)), (10.0, 10.0, 0.0), (0.0, 10.0, 0.0))
    (way,) = ways(scene_of("quarter", 1.0, [Path(ring)]), "outline")
    assert [numbers[4] for letter, numbers in steps(way) if letter == "A"] == [flag, flag]
