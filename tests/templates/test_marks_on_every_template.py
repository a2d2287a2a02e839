"""A panel with every kind of template, form and rail: each has every mark, lies the right way, is true to size."""

import re
from dataclasses import replace
from datetime import date
from io import StringIO

import pytest
from drawings.measured import letterings, ways_of
from jobs_by_hand import built, edge, job, panel

from evenface.construction import Construction
from evenface.documents.template_files import (
    cutters_table,
    scene_of,
    scene_of_jig,
    template_files,
    template_names,
    templates_table,
)
from evenface.drawings import to_dxf, to_svg
from evenface.drawings.scene import Dimension, Path, Scene, text_box, texts_of
from evenface.finding import Severity
from evenface.piece.records import Corner, CornerAt, Cutout, Grip, Insert, Notch, Panel, Shop, Side
from evenface.shape.build import circle, d_shape, rounded_rectangle
from evenface.shape.ring import segments_of
from evenface.shape.tiling import tile
from evenface.templates import Jig, RoutedTemplate, cutters_of, jigs_of, templates_of
from evenface.words import say

ALIKE = tuple(edge(side, 14.0) for side in Side)
WOOD = Insert(
    "wood", rounded_rectangle(260, 120, 20).moved(300, 150), "beech", depth_mm=15.0, origin="insert[0]"
)
LOW = replace(
    WOOD, name="low", outline=d_shape(160, 60, 12).moved(620, 300), face="bottom", origin="insert[1]"
)


def grip(name: str, *path: tuple[float, float], **other: object) -> Grip:
    made = Grip(name, "wood", "ball", 20.0, 8.0, path, origin=name)
    return replace(made, **other)  # type: ignore[arg-type]


EVERY = panel(
    *ALIKE,
    corners=(
        Corner(CornerAt.FRONT_LEFT, "radius", 60.0, "strips", pieces=8, origin="c"),
        Corner(CornerAt.FRONT_RIGHT, "radius", 30.0, origin="d"),
    ),
    cutouts=(Cutout("hole", rounded_rectangle(90, 60, 20).moved(700, 150), origin="cutout"),),
    notches=(Notch("pipe", Side.REAR, 300.0, 90.0, 60.0, 10.0, origin="pipe"),),
    inserts=(WOOD, LOW),
    grips=(
        grip("straight", (340, 170), (420, 170)),
        grip("bent", (340, 220), (400, 220), (460, 250)),
        grip("scooped", (470, 175), (530, 175), scooped=True),
        grip("below", (660, 320), (700, 340), insert="low", from_="under"),
        grip("rear", (400, 10), (460, 12), insert="", from_="edge", side=Side.REAR, cutter_diameter_mm=12.0),
    ),
)
SHOP = Shop(cutter_mm=10.0, bush_mm=27.0)


def made_of(one: Panel, shop: Shop = SHOP) -> tuple[list[RoutedTemplate], list[Jig], list[str]]:
    whole = job(one, shop=shop)
    panels, _ = built(whole)
    constructions = [Construction(whole.pieces[0], panels)]
    (templates, refused), (jigs, without) = templates_of(whole, constructions), jigs_of(whole, constructions)
    return list(templates), list(jigs), [finding.code for finding in (*refused, *without)]


TEMPLATES, JIGS, FOUND = made_of(EVERY)
PAIRED = made_of(EVERY, Shop(bush_mm=27.0, cutter_mm=10.0, small_bush_mm=8.0))[0]
SCENES: dict[str, Scene] = dict(zip(template_names(TEMPLATES, JIGS),
                                    [*map(scene_of, TEMPLATES), *map(scene_of_jig, JIGS)], strict=True))  # fmt: skip
SCENES["pair"] = scene_of(next(one for one in PAIRED if one.pair is not None))


def test_nothing_was_refused_and_every_kind_is_there() -> None:
    assert FOUND == []
    assert {one.curve.what for one in TEMPLATES} == {
        "rounded corner", "cut-out", "notch", "recess", "insert", "grip",
    }  # fmt: skip
    assert [(one.what, one.count) for one in JIGS] == [("inside form", 3), ("outside form", 3), ("rail", 2)]


@pytest.mark.parametrize("name", SCENES)
def test_every_mark_is_on_it(name: str) -> None:
    """Cutter, guide, passes with their depth, rotation, side, centre lines, hold-down, check lines both ways."""
    scene = SCENES[name]
    words = " ".join(letterings(to_svg(scene)))
    assert re.search(r"cutter [\d.]+ mm|cutter of the same size", words)
    assert re.search(r"(bush|bearing of|foot) [\d.]+ mm", words)
    assert re.search(r"\d passes of [\d.]+ mm", words)
    assert "at most 24000 a minute" in words
    assert re.search(r"show face (up|down|to the top)|the face worked on lies below", words)
    assert words.count("hold down here") >= 1
    layers = {one.layer for one in scene.primitives}
    assert {"template", "centre lines", "hold-down"} <= layers
    checks = {one.angle_deg: one.length_mm for one in scene.primitives if isinstance(one, Dimension)}
    assert checks == {0.0: pytest.approx(100), 90.0: pytest.approx(100)}


@pytest.mark.parametrize("name", SCENES)
def test_over_several_pages_each_neighbour_shares_two_crosses(name: str) -> None:
    tiling = tile(SCENES[name].bounds, "A4")
    for page in tiling.pages:
        for other in tiling.pages:
            if abs(page.row - other.row) + abs(page.column - other.column) == 1:
                shared = [m for m in page.marks for n in other.marks if m == pytest.approx(n)]
                assert len(shared) == 2


@pytest.mark.parametrize("name", SCENES)
def test_svg_and_dxf_read_back_as_the_record(name: str) -> None:
    """Corners and radii of the edge to 0.001 mm; the DXF passes its audit, its polylines closed."""
    ezdxf = pytest.importorskip("ezdxf")
    scene = SCENES[name]
    document = ezdxf.read(StringIO(to_dxf(scene)))
    assert not document.audit().errors
    (polyline,) = document.modelspace().query('LWPOLYLINE[layer=="template"]')
    assert polyline.closed
    (way,) = ways_of(to_svg(scene), scene, "template")
    (drawn,) = [one for one in scene.primitives if isinstance(one, Path) and one.layer == "template"]
    from_dxf = polyline.get_points("xyb")
    assert len(from_dxf) == len(drawn.vertices)
    for given, vertex in zip(from_dxf, drawn.vertices, strict=True):
        assert given == pytest.approx(vertex, abs=1e-6)
        assert min(max(abs(given[0] - u), abs(given[1] - v)) for u, v in way.points) < 0.001
    radii = {round(s.radius, 3) for s in segments_of(drawn.vertices) if s.is_arc}
    assert {round(radius, 2) for radius in way.radii} == {round(radius, 2) for radius in radii}


def test_what_lies_on_the_underside_is_drawn_as_seen_from_below() -> None:
    """The D with its flat side to one end: mirrored about the middle of the panel, for recess, insert and grip."""
    recess, piece, below = (
        next(one for one in TEMPLATES if one.curve.name == name) for name in ("low recess", "low", "below")
    )
    assert recess.curve.part.same_as(LOW.outline.mirrored(500.0))
    assert {one.curve.lies_on for one in (recess, piece, below)} == {"underside"}
    assert below.curve.way[0].first == pytest.approx((1000 - 660, 320))
    assert "show face down" in " ".join(letterings(to_svg(SCENES["bench-top-below"])))
    turned = panel(*ALIKE, inserts=(replace(LOW, face="top"),))
    other, _ = made_of(turned)[0]
    assert recess.template.outline.same_as(other.template.outline.mirrored(500.0), 1e-6)


def test_what_is_worked_from_the_rear_edge_is_seen_from_behind() -> None:
    rear = next(one for one in TEMPLATES if one.curve.name == "rear")
    assert (rear.curve.lies_on, rear.curve.way[0].first) == ("rear edge", pytest.approx((1000 - 400, 10)))
    front = made_of(panel(*ALIKE, grips=(replace(EVERY.grips[4], side=Side.FRONT),)))[0][0]
    assert front.curve.way[0].first == pytest.approx((400, 10))


def test_a_bent_grip_says_what_its_bend_becomes() -> None:
    bent = next(one for one in TEMPLATES if one.curve.name == "bent")
    assert any("inside the bend of 26.6°" in say(note) for note in bent.notes)
    left = next(one for one in TEMPLATES if one.curve.name == "bent left hand")
    middle = sum(bent.template.outline.bounds[::2]) / 2
    assert left.template.outline.same_as(bent.template.outline.mirrored(middle), 1e-6)


def test_too_short_a_bend_is_refused_with_the_bush_that_would_do() -> None:
    """10 between two right angles: a bush of 10 at most, which the cutter of 20 does not pass; none is named."""
    whole = job(panel(*ALIKE, grips=(grip("z", (300, 200), (360, 200), (360, 210), (420, 210)),)), shop=SHOP)
    panels, _ = built(whole)
    _, (found,) = templates_of(whole, [Construction(whole.pieces[0], panels)])
    assert (found.code, found.severity) == ("template.too_tight", Severity.WEIGH)
    assert "one of at most 10 mm would do" in say(found.message)
    wider = grip("z", (300, 200), (360, 200), (360, 225), (420, 225))
    whole = job(panel(*ALIKE, grips=(wider,)), shop=replace(SHOP, bush_mm=30.0))
    panels, _ = built(whole)
    _, (found,) = templates_of(whole, [Construction(whole.pieces[0], panels)])
    assert found.remedies[0].changes[0].new == "25"


def test_a_cutter_no_hand_router_turns_is_refused_with_the_largest() -> None:
    huge = grip("huge", (300, 200), (600, 200), cutter_diameter_mm=95.0)
    whole = job(panel(*ALIKE, grips=(huge,)), shop=replace(SHOP, bush_mm=120.0))
    panels, _ = built(whole)
    _, (found,) = templates_of(whole, [Construction(whole.pieces[0], panels)])
    assert found.code == "template.too_large"
    (change,) = found.remedies[0].changes
    assert (change.path, change.old, change.new) == ("huge.diameter", "95", "89")


def test_forms_name_strips_height_and_what_they_spring_to() -> None:
    """R 60, 14 in 8 strips of 1.75: form R 46·63/64 = 45.28, outside 59.28, over 91.4°."""
    inside, outside, _ = JIGS
    assert inside.outline.segments != outside.outline.segments
    words = " ".join(say(note) for note in (*inside.notes, *outside.notes))
    for part in ("45.28 mm", "59.28 mm", "91.4°", "R 46 mm inside", "60 mm outside", "8 strips of 1.75 mm"):
        assert part in words


def test_a_free_outline_bent_of_strips_has_its_forms() -> None:
    """A round table of 900 edged 10 in strips turns too far for a form: refused, with the limit."""
    bent = (Corner(CornerAt.FRONT_LEFT, "radius", 60.0, "strips", origin="c"),)
    edges = tuple(edge(side, 10.0) for side in Side)
    table = panel(*edges, outline=circle(900, (450, 450)), length_mm=900.0, width_mm=900.0, corners=bent)
    _, jigs, found = made_of(table)
    assert (jigs, set(found)) == ([], {"jig.sweep"})
    quarters = rounded_rectangle(900, 900, 300)
    table = panel(*edges, outline=quarters, length_mm=900.0, width_mm=900.0, corners=bent)
    _, jigs, found = made_of(table)
    assert (len(jigs), found) == (2, [])  # all four alike: one pair of forms


def test_a_steep_scoop_names_a_depth_that_would_do() -> None:
    """40 long, 12 deep: at most 20·tan 22.5° = 8.28; with 8.2 it is made."""
    steep = grip("steep", (300, 200), (340, 200), scooped=True, depth_mm=12.0)
    whole = job(panel(*ALIKE, grips=(steep,)), shop=SHOP)
    panels, _ = built(whole)
    none, (found,) = jigs_of(whole, [Construction(whole.pieces[0], panels)])
    assert (none, found.code, found.remedies[0].changes[0].new) == ((), "jig.steep", "8.2")
    assert made_of(panel(*ALIKE, grips=(replace(steep, depth_mm=8.2),)))[1]


def test_a_cutter_too_short_for_the_carriage_is_told_by_how_much() -> None:
    """8 of wood, 18 of rail and foot, 12 of plate: 38 against 30."""
    whole = job(panel(*ALIKE, grips=(EVERY.grips[2],)), shop=replace(SHOP, reach_mm=30.0))
    panels, _ = built(whole)
    _, (found,) = jigs_of(whole, [Construction(whole.pieces[0], panels)])
    assert found.code == "jig.reach"
    assert found.value is not None
    assert found.value.nominal == pytest.approx(-8)


def test_a_tight_outside_form_names_the_cutter() -> None:
    """R 20 less 14 leaves an inside radius of 6; a hollow of about 20 and a cutter of 60."""
    corner = Corner(CornerAt.FRONT_LEFT, "radius", 20.0, "strips", pieces=8, origin="c")
    _, jigs, found = made_of(panel(*ALIKE, corners=(corner,)), Shop(cutter_mm=60.0, bush_mm=70.0))
    assert "jig.too_tight" in found
    assert [one.what for one in jigs] == ["inside form"]


def test_files_of_all_and_a_list_of_all() -> None:
    files = template_files(TEMPLATES[:1], date(2026, 3, 4), jigs=JIGS[:1])
    assert {name.rsplit(".")[-1] for name in files} >= {"pdf", "svg"}
    assert all(content.startswith(b"%PDF") for name, content in files.items() if name.endswith(".pdf"))
    assert len(templates_table(TEMPLATES, jigs=JIGS).rows) == len(TEMPLATES) + len(JIGS)


def test_the_list_of_cutters_gives_limits_of_size_and_rotation() -> None:
    """10 mm straight: the notch's corner of 10 allows 20, 19.1 of panel and 12 of template to reach; ball of 20 and of
    12; the scoop runs 18 + 12 above its 8."""
    found = {(one.shape, one.diameter_mm): one for one in cutters_of(TEMPLATES, JIGS)}
    assert list(found) == [("straight", 10.0), ("ball", 12.0), ("ball", 20.0)]
    straight = found["straight", 10.0]
    assert (straight.largest_mm, straight.limit_rpm) == (pytest.approx(20), 24_000)
    assert straight.reach_mm == pytest.approx(19.1 + 12)
    assert {"pipe", "hole", "corner R60 inside form"} <= set(straight.used_for)
    assert found["ball", 20.0].reach_mm == pytest.approx(8 + 18 + 12)
    assert found["ball", 20.0].largest_mm is None
    assert "straight 10" in cutters_table(TEMPLATES, jigs=JIGS).rows[0][0]
    assert "Cutters: straight 10 mm" in templates_table(TEMPLATES, jigs=JIGS).note


def test_the_largest_cutter_still_makes_every_curve_and_a_larger_one_does_not() -> None:
    (one,) = [one for one in cutters_of(TEMPLATES) if one.shape == "straight"]
    assert one.largest_mm is not None
    for size, refused in ((one.largest_mm, False), (one.largest_mm + 0.1, True)):
        found = made_of(EVERY, replace(SHOP, cutter_mm=size, bearing_mm=size))[2]
        assert ("template.too_tight" in found) == refused


@pytest.mark.parametrize("name", SCENES)
@pytest.mark.parametrize("paper", ["A4", "A3", "Letter"])
def test_no_row_of_notes_runs_over_a_page(name: str, paper: str) -> None:
    """Each row lies whole in what some page shows."""
    scene = SCENES[name]
    pages = tile(scene.bounds, paper).pages
    for text in texts_of(scene.primitives):
        if text.layer == "notes":
            x0, y0, x1, y1 = text_box(text, 1.0)
            assert any(
                p.window[0] <= x0 and p.window[1] <= y0 and x1 <= p.window[2] and y1 <= p.window[3]
                for p in pages
            ), text.text
