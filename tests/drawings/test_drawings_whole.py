"""Whole pieces: true to size, mirrored when mirrored, every part numbered once, nothing on top of anything."""

from collections import Counter
from dataclasses import replace
from itertools import combinations, pairwise

import pytest
from drawings.measured import letterings, ways_of
from drawings.sample_wholes import NAMES, example, mirrored, of_boxes, plain
from drawings.test_drawings_clear import check_clear
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.construction import Axis, Chain, Worked
from evenface.construction.placed import LOOSE
from evenface.drawings.axonometric import back_to_front, on_paper, outline
from evenface.drawings.cut_faces import place_of_cut
from evenface.drawings.part_numbers import crosses, spread
from evenface.drawings.placed_parts import placed_parts
from evenface.drawings.rows_of_sizes import stations
from evenface.drawings.scene import (
    Area,
    Dimension,
    Fill,
    Leader,
    Line,
    Path,
    Stroke,
    Text,
    box_round,
)
from evenface.drawings.sight import Look, sight_of
from evenface.drawings.svg import to_svg
from evenface.drawings.whole import (
    LEAST_SEEN_MM,
    apart_of,
    section_through,
    view_of,
    whole_scenes,
)
from evenface.words import Manner

SIZE_OF = {Look.FRONT: (0, 2), Look.SIDE: (1, 2), Look.PLAN: (0, 1)}


def outlines(scene):
    """Lines of the outline as rounded (x0, y0, x1, y1)."""
    return {
        tuple(round(v, 3) for v in (one.x0, one.y0, one.x1, one.y1))
        for one in scene.on_layer("outline")
        if isinstance(one, Line)
    }


def numbers(scene):
    return [one.text.text for one in scene.primitives if isinstance(one, Leader)]


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("look", Look)
def test_a_view_is_as_large_as_the_piece(name, look):
    """Read back from the SVG, in mm of the paper."""
    construction, scale = example(name), 0.05
    scene = view_of(construction, look, scale)
    ways = ways_of(to_svg(scene), scene, "outline")
    x0, y0, x1, y1 = box_round([point for way in ways for point in way.points])
    wide, high = (construction.arranged.size_mm[n] * scale for n in SIZE_OF[look])
    assert ((x1 - x0) * scale, (y1 - y0) * scale) == pytest.approx((wide, high), abs=1e-3)
    assert (x0, y0) == pytest.approx((0.0, 0.0), abs=0.01)


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("look", [Look.FRONT, Look.PLAN])
def test_a_mirrored_piece_gives_a_mirrored_drawing(name, look):
    one, other = plain(example(name)), mirrored(example(name))
    width = one.arranged.size_mm[0]
    turned = {
        (*min(((width - x0, y0), (width - x1, y1))), *max(((width - x0, y0), (width - x1, y1))))
        for x0, y0, x1, y1 in outlines(view_of(one, look, 0.1))
    }
    found = outlines(view_of(other, look, 0.1))
    assert len(found) >= 4
    assert found == {tuple(round(v, 3) for v in line) for line in turned}


@pytest.mark.parametrize("name", NAMES)
def test_the_cut_through_a_piece_and_its_mirror_image_is_the_same(name):
    one, other = plain(example(name)), mirrored(example(name))
    width = one.arranged.size_mm[0]
    at = place_of_cut(placed_parts(one), width)
    here, there = section_through(one, 0.1, at_mm=at), section_through(other, 0.1, at_mm=width - at)
    assert cut_lines(here)
    assert cut_lines(here) == cut_lines(there)


def cut_lines(scene):
    """Borders of cut faces; what lies behind them differs, for one looks left and the other right."""
    return {
        tuple(round(v, 3) for v in (one.x0, one.y0, one.x1, one.y1))
        for one in scene.on_layer("outline")
        if isinstance(one, Line) and one.stroke is Stroke.VISIBLE
    }


@pytest.mark.parametrize("name", NAMES)
def test_every_part_that_shows_bears_its_number_once(name):
    """Against rays: where a part is seen over a square twice the least that counts, it must be numbered."""
    construction, scale = example(name), 0.05
    parts = placed_parts(construction)
    step = LEAST_SEEN_MM / scale
    for look in Look:
        found = Counter(numbers(view_of(construction, look, scale)))
        assert set(found.values()) == {1}
        right, up = (construction.arranged.size_mm[n] for n in SIZE_OF[look])
        seen = {
            (i, j): nearest(parts, look, (i + 0.5) * step, (j + 0.5) * step)
            for i in range(int(right / step))
            for j in range(int(up / step))
        }
        wide = {
            part
            for (i, j), part in seen.items()
            if part is not None and all(seen.get((i + a, j + b)) == part for a in range(3) for b in range(3))
        }
        assert {parts[n].number for n in wide} <= set(found)
        assert set(found) <= {part.number for part in parts}


def nearest(parts, look, u, v):
    """The part a ray meets first; of those equally near the one that is not housed."""
    met = [
        (look.nearness(solid), not part.placement.sunk, n)
        for n, part in enumerate(parts)
        for solid in part.solids
        if look.on_paper(solid)[0] < u < look.on_paper(solid)[2]
        and look.on_paper(solid)[1] < v < look.on_paper(solid)[3]
    ]
    return max(met)[2] if met else None


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("system", ["mm", "inch"])
def test_nothing_lies_on_anything(name, system):
    """Letterings by their boxes, leaders by their lines; neither runs through the other."""
    ids = {one: f"1.{n}" for n, one in enumerate(made_of(example(name)), start=1)}
    for kind, scene in whole_scenes(example(name), ids, Manner(system)):
        check_clear(scene)
        leaders = [one for one in scene.primitives if isinstance(one, Leader)]
        for one, other in combinations(leaders, 2):
            assert not crosses(one.points[:2], other.points[:2]), (
                f"{kind}: {one.text.text}, {other.text.text}"
            )


def made_of(construction):
    return [one.name for one in (*construction.panels, *construction.boards)]


@pytest.mark.parametrize("name", NAMES)
def test_taken_apart_every_part_is_numbered_or_named_as_hidden(name):
    scene = apart_of(example(name), 0.1)
    rows = [text for text in letterings(to_svg(scene)) if "behind others: " in text]
    hidden = [number for row in rows for number in row.split(": ")[1].split(", ")]
    found = numbers(scene)
    assert sorted([*found, *hidden], key=int) == [str(n + 1) for n in range(len(made_of(example(name))))]


def test_parts_are_moved_by_what_their_placement_says():
    construction = of_boxes([((0, 0, 0), (100, 50, 20))], apart=[(30.0, -40.0, 25.0)])
    scene = apart_of(construction, 0.5)
    ring = next(one for one in scene.on_layer("outline") if isinstance(one, Path))
    (x0, y0), (x1, y1) = on_paper((0, 0, 0)), on_paper((30.0, -40.0, 25.0))
    still = outline(((0, 0, 0), (100, 50, 20)))
    assert [(x, y) for x, y, _ in ring.vertices] == [
        pytest.approx((x + x1 - x0, y + y1 - y0)) for x, y in still
    ]


@st.composite
def boxes(draw):
    """Up to 27 boxes in the cells of a grid, each drawn in a little or not."""
    stations_of = [sorted(draw(st.sets(st.integers(0, 40), min_size=2, max_size=4))) for _ in range(3)]
    found = []
    for x0, x1 in zip(stations_of[0], stations_of[0][1:], strict=False):
        for y0, y1 in zip(stations_of[1], stations_of[1][1:], strict=False):
            for z0, z1 in zip(stations_of[2], stations_of[2][1:], strict=False):
                if draw(st.booleans()):
                    shrink = draw(st.sampled_from([0.0, 0.0, 0.25]))
                    low, high = (x0, y0, z0), (x1, y1, z1)
                    found.append(
                        (
                            tuple(10.0 * (a + shrink * (b - a)) for a, b in zip(low, high, strict=True)),
                            tuple(10.0 * (b - shrink * (b - a)) for a, b in zip(low, high, strict=True)),
                        )
                    )
    return found or [((0.0, 0.0, 0.0), (100.0, 200.0, 300.0))]


@settings(max_examples=40)
@given(boxes(), st.sampled_from(list(Look)), st.data())
def test_each_cell_shows_the_box_a_ray_meets_first(found, look, data):
    parts = placed_parts(of_boxes(found))
    sight = sight_of(parts, look)
    row = data.draw(st.integers(0, len(sight.ys) - 2))
    column = data.draw(st.integers(0, len(sight.xs) - 2))
    u, v = (sum(pair) / 2 for pair in (sight.xs[column : column + 2], sight.ys[row : row + 2]))
    seen = sight.cells[row][column]
    assert (None if seen is None else seen.part) == nearest(parts, look, u, v)


@settings(max_examples=40)
@given(boxes(), st.data())
def test_what_is_painted_last_is_what_a_slanted_ray_meets_first(found, data):
    """The ray along which all points fall together: t (u, v) = 0 for (1, -a, b) by the two equations."""
    solids = [(low, high) for low, high in found]
    (wx, wy), (dx, dy) = on_paper((1.0, 0.0, 0.0)), on_paper((0.0, 1.0, 0.0))
    way = (1.0, -wx / dx, -wy + dy * wx / dx)
    assert on_paper(way) == pytest.approx((0.0, 0.0), abs=1e-12)
    order = back_to_front(solids)
    assert sorted(order) == list(range(len(solids)))
    chosen = data.draw(st.integers(0, len(solids) - 1))
    share = [data.draw(st.floats(0.07, 0.93)) for _ in range(3)]
    low, high = solids[chosen]
    inner = [a + s * (b - a) for a, b, s in zip(low, high, share, strict=True)]
    met = {}
    for n, (low, high) in enumerate(solids):
        spans = [sorted(((low[k] - inner[k]) / way[k], (high[k] - inner[k]) / way[k])) for k in range(3)]
        enters, leaves = max(one[0] for one in spans), min(one[1] for one in spans)
        if leaves - enters > 1e-6:
            met[n] = leaves
    assert max(met, key=order.index) == max(met, key=lambda n: met[n])


def test_each_view_looks_the_way_it_says():
    """Two boards one behind the other: the one in front, the one at the right, the upper one hides the other."""

    def shown(first, second, look):
        return numbers(view_of(of_boxes([first, second]), look, 0.1))

    assert shown(((0, 0, 0), (300, 20, 300)), ((0, 50, 0), (300, 70, 300)), Look.FRONT) == ["1"]
    assert shown(((0, 0, 0), (20, 300, 300)), ((50, 0, 0), (70, 300, 300)), Look.SIDE) == ["2"]
    assert shown(((0, 0, 0), (300, 300, 20)), ((0, 0, 50), (300, 300, 70)), Look.PLAN) == ["2"]


def test_what_stands_nearer_than_the_cut_is_taken_away():
    """Seen from the right: the left board stays, the right one goes, the long one is cut."""
    found = [((0, 0, 0), (20, 300, 300)), ((380, 0, 0), (400, 300, 300)), ((20, 100, 100), (380, 200, 120))]
    scene = section_through(of_boxes(found), 0.2, at_mm=200.0)
    assert sorted(numbers(scene)) == ["1", "3"]
    assert cut_lines(scene) == {
        (100.0, 100.0, 200.0, 100.0),
        (100.0, 120.0, 200.0, 120.0),
        (100.0, 100.0, 100.0, 120.0),
        (200.0, 100.0, 200.0, 120.0),
    }


def test_hidden_parts_are_dashed_and_too_many_are_told():
    front = ((0, 0, 0), (400, 20, 300))
    few = [front, ((50, 100, 50), (350, 200, 100))]
    scene = view_of(of_boxes(few), Look.FRONT, 0.2)
    assert {one.stroke for one in scene.on_layer("hidden")} == {Stroke.HIDDEN}
    assert numbers(scene) == ["1"]
    many = [front, *(((10 + 20 * n, 100, 50), (20 + 20 * n, 200, 100)) for n in range(18))]
    scene = view_of(of_boxes(many), Look.FRONT, 0.2)
    assert not scene.on_layer("hidden")
    assert any("18 parts behind others" in text for text in letterings(to_svg(scene)))


def test_a_section_shows_end_grain_where_the_grain_is_cut_and_long_grain_where_it_lies_in_the_cut():
    """Grain of these boards runs from left to right; the cut goes square to it. Turned, it lies in the cut."""
    construction = of_boxes([((0, 0, 0), (200, 100, 30))])
    (area,) = (one for one in section_through(construction, 0.5).primitives if isinstance(one, Area))
    assert area.fill is Fill.END_GRAIN
    (placement,) = construction.arranged.placements
    turned = replace(placement, at=(100.0, 0.0, 0.0), x_axis=Axis.REAR, y_axis=Axis.LEFT)
    lying = replace(construction, arranged=replace(construction.arranged, placements=(turned,)))
    (area,) = (one for one in section_through(lying, 0.5, at_mm=50.0).primitives if isinstance(one, Area))
    assert (area.fill, area.angle_deg) == (Fill.LONG_GRAIN, 0.0)


def test_hatching_lies_in_sections_only():
    for kind, scene in whole_scenes(example("drawer-pedestal")):
        hatched = [one for one in scene.primitives if isinstance(one, Area) and one.fill is not Fill.PIECE]
        assert bool(hatched) is (kind == "section")


def test_a_cut_face_is_as_large_as_what_is_cut():
    """Areas of a section add up to the cross-section of the parts met, less their grooves."""
    construction = example("drawer-pedestal")
    parts = placed_parts(construction)
    at = place_of_cut(parts, construction.arranged.size_mm[0])
    scene = section_through(construction, 0.1, at_mm=at)
    drawn = sum(
        (x1 - x0) * (y1 - y0)
        for one in scene.primitives
        if isinstance(one, Area)
        for x0, y0, x1, y1 in [box_round([(x, y) for x, y, _ in one.rings[0]])]
    )
    cut = sum(
        (high[1] - low[1]) * (high[2] - low[2])
        for part in parts
        for low, high in part.solids
        if low[0] < at < high[0]
    )
    assert drawn == pytest.approx(cut, rel=1e-6)


def test_a_groove_is_taken_out_of_its_part_and_a_hole_is_not():
    groove = Worked("1", "groove", "top", 8.0, 0.0, 40.0, 200.0, 46.0)
    holes = Worked("1", "dowel holes", "top", 8.0, diameter_mm=8.0, centres=((10.0, 10.0),))
    construction = of_boxes([((0, 0, 0), (200, 100, 30))], worked=(groove, holes))
    (part,) = placed_parts(construction)
    left = sum((b[0] - a[0]) * (b[1] - a[1]) * (b[2] - a[2]) for a, b in part.solids)
    assert left == pytest.approx(200 * 100 * 30 - 200 * 6 * 8)
    edge = Worked("1", "groove", "rear", 5.0, 20.0, 10.0, 180.0, 16.0)
    (part,) = placed_parts(of_boxes([((0, 0, 0), (200, 100, 30))], worked=(edge,)))
    assert not any(
        low[0] < 100 < high[0] and low[1] < 97 < high[1] and low[2] < 13 < high[2]
        for low, high in part.solids
    )


def test_the_cut_keeps_off_what_stands_along_it():
    sides = [((0, 0, 0), (18, 300, 700)), ((582, 0, 0), (600, 300, 700))]
    shelves = [((18, 0, 300), (291, 300, 318)), ((309, 0, 300), (582, 300, 318))]
    whole = placed_parts(of_boxes([*sides, ((18, 0, 0), (582, 300, 18))]))
    assert place_of_cut(whole, 600.0) == 300.0
    parted = placed_parts(of_boxes([*sides, *shelves, ((291, 0, 0), (309, 300, 700))]))
    assert 18 < place_of_cut(parted, 600.0) < 291


def test_rows_of_sizes_stand_where_their_ends_show_and_are_left_out_where_they_are_too_fine():
    found = [((0, 0, 0), (20, 50, 300)), ((20, 0, 0), (380, 50, 20)), ((380, 0, 0), (400, 50, 300))]
    row = Chain("width", Axis.RIGHT, (("side", 20.0), ("clear", 360.0), ("side", 20.0)), 400.0)
    elsewhere = Chain("width", Axis.RIGHT, (("a", 150.0), ("b", 250.0)), 400.0)
    part = Chain("inside", Axis.RIGHT, (("a", 100.0), ("b", 100.0)), 200.0)
    construction = of_boxes(found, chains=(row, elsewhere, part))

    def lengths(scale):
        scene = view_of(construction, Look.FRONT, scale)
        return sorted(
            round(one.length_mm)
            for one in scene.primitives
            if isinstance(one, Dimension) and not one.angle_deg
        )

    assert lengths(0.1) == [20, 20, 360, 400]
    assert lengths(0.02) == [400]


def test_a_row_told_from_the_right_begins_there():
    row = Chain("width", Axis.LEFT, (("a", 100.0), ("b", 300.0)), 400.0)
    assert stations(row) == (0.0, 300.0, 400.0)


@given(st.lists(st.floats(0, 100), min_size=1, max_size=12), st.floats(0.5, 20))
def test_numerals_keep_their_order_and_distance(wanted, pitch):
    wanted = sorted(wanted)
    placed = spread(wanted, pitch)
    assert all(b - a >= pitch - 1e-9 for a, b in pairwise(placed))
    assert sum(placed) == pytest.approx(sum(wanted), abs=1e-6)
    if all(b - a >= pitch for a, b in pairwise(wanted)):
        assert placed == pytest.approx(wanted)


def test_loose_panels_have_no_drawing_of_the_whole():
    loose = replace(example("notice-panel"), arranged=LOOSE)
    assert whole_scenes(loose) == ()
    with pytest.raises(ValueError, match="stand somewhere"):
        view_of(loose, Look.FRONT, 0.1)


def test_every_drawing_lies_on_its_paper_at_a_usual_scale():
    for name in NAMES:
        made = whole_scenes(example(name), scales=(1.0, 0.5, 0.2, 0.1, 0.05, 0.02))
        assert [kind for kind, _ in made] == ["front", "side", "plan", "section", "apart"]
        assert len({scene.scale for kind, scene in made[:3]}) == 1
        for _, scene in made:
            assert scene.width_mm <= 170.0
            assert any(f"· {scene.scale_text} ·" in text for text in letterings(to_svg(scene)))


def test_heights_of_fronts_stand_beside_the_front_view_and_their_gaps_in_words():
    """0.25 mm on the paper is too fine for a dimension; the fronts between the gaps have theirs."""
    scene = view_of(example("drawer-pedestal"), Look.FRONT, 0.1)
    told = {one.text.text for one in scene.primitives if isinstance(one, Dimension) and one.angle_deg}
    assert {"192.7", "160.6", "133.8", "111.5", "70", "720"} <= told
    wide = {one.text.text for one in scene.primitives if isinstance(one, Dimension) and not one.angle_deg}
    assert "416.2" in wide
    notes = [one.text for one in scene.primitives if isinstance(one, Text) and one.layer == "notes"]
    assert "too fine to be drawn: 2.5" in notes


def test_a_row_with_what_is_too_fine_takes_no_room_from_one_that_can_be_drawn():
    """Linings of 2.1 are too fine at 1:5; the clear widths between the dividers stand in the view all the same."""
    scenes = dict(whole_scenes(example("lined-tray")))
    for kind in ("front", "plan"):
        shown = [one.text.text for one in scenes[kind].primitives if isinstance(one, Dimension)]
        assert shown.count("126.6") == 3, kind
