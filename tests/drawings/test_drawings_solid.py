"""Pieces in triangles: closed skins, the volume and the bounds of the parts, mirrored when mirrored."""

from collections import Counter
from math import pi, sin

import numpy as np
import pytest
from drawings.sample_panels import box, built, edges, rounded
from drawings.sample_wholes import NAMES, example, mirrored, of_boxes
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.behaviour import Direction
from evenface.construction import Construction
from evenface.drawings.outlines import finished_outline
from evenface.drawings.placed_parts import placed_parts
from evenface.drawings.solid import solid_of
from evenface.drawings.solid_edge import edge_of_panel
from evenface.piece.records import Cutout, Grip, Insert, Meeting, Panel, Piece, Profile, Role, Side

ALL_SIDES = tuple(Side)


def alone(*panels):
    return Construction(Piece("trial", "panels", 1, ()), panels)


def skins(part):
    return [mesh for body in part.bodies for mesh in body.meshes if mesh.triangles]


def volume(part):
    return sum(mesh.volume_mm3 for mesh in skins(part))


def check_closed(mesh):
    """Every edge is run along once each way: the skin has no hole and no side turned inside out."""
    ways = Counter((one[n], one[(n + 1) % 3]) for one in mesh.triangles for n in range(3))
    assert all(count == 1 and ways[b, a] == 1 for (a, b), count in ways.items())
    assert mesh.volume_mm3 > 0
    assert set(range(len(mesh.points))) == {n for one in mesh.triangles for n in one}


def drilled_mm3(construction, name):
    """What holes seen in a part's faces hold: 16-sided, ½·16·sin(2π/16)·r² in plan."""
    return sum(
        len(one.centres) * 8 * sin(pi / 8) * (one.diameter_mm / 2) ** 2 * one.depth_mm
        for one in construction.arranged.worked
        if one.part == name and one.face in ("top", "bottom") and one.diameter_mm >= 4
    )


def test_holes_are_seen_in_the_faces_they_are_drilled_into():
    construction = example("wall-cupboard")
    door = next(part for part in solid_of(construction).parts if "door" in part.name)
    (cups,) = [
        one for one in construction.arranged.worked if one.part == door.name and one.kind == "hinge cups"
    ]
    assert cups.face == "bottom"
    for x, y in cups.centres:
        depths = {
            round(z, 6)
            for mesh in skins(door)
            for px, py, z in mesh.points
            if abs(((px - x) ** 2 + (py - y) ** 2) ** 0.5 - cups.diameter_mm / 2) < 1e-3
        }
        assert {0.0, cups.depth_mm} <= depths
    assert drilled_mm3(construction, door.name) > 0


def placed_points(piece):
    for number, placement in piece.placed:
        for mesh in skins(piece.parts[number]):
            for point in mesh.points:
                yield number, placement.point(*point)


def bounds(points):
    points = list(points)
    return tuple(tuple(best(p[n] for p in points) for n in range(3)) for best in (min, max))


@pytest.mark.parametrize("name", NAMES)
def test_every_body_of_an_example_is_closed(name):
    piece = solid_of(example(name))
    for part in piece.parts:
        assert part.bodies
        for mesh in skins(part):
            check_closed(mesh)
        assert {body.colour for body in part.bodies} <= set(piece.colours)


@pytest.mark.parametrize("name", NAMES)
def test_parts_stand_where_they_are_placed_and_hold_what_their_boxes_hold(name):
    construction = example(name)
    piece = solid_of(construction)
    boxes = placed_parts(construction)
    assert len(boxes) == len(piece.placed)
    for (number, placement), one in zip(piece.placed, boxes, strict=True):
        part = piece.parts[number]
        points = [placement.point(*p) for mesh in skins(part) for p in mesh.points]
        for found, corner in zip(bounds(points), one.whole, strict=True):
            assert found == pytest.approx(corner, abs=1e-4)
        let_in = (
            isinstance(one.made, type(construction.panels[0]))
            and one.made.panel.cutouts + one.made.panel.grips
        )
        if not let_in:
            solids = sum(
                (high[0] - low[0]) * (high[1] - low[1]) * (high[2] - low[2]) for low, high in one.solids
            )
            solids -= drilled_mm3(construction, part.name)
            assert volume(part) == pytest.approx(solids, rel=1e-3), one.name
    low, high = bounds(point for _, point in placed_points(piece))
    assert low == pytest.approx(piece.low, abs=1e-4)
    assert high == pytest.approx(piece.high, abs=1e-4)


def test_an_even_piece_is_its_own_mirror_image_where_it_was_placed_mirrored():
    construction = example("wall-cupboard")
    width = construction.arranged.size_mm[0]
    there, here = solid_of(mirrored(construction)), solid_of(mirrored(mirrored(construction)))
    for n in range(len(there.parts)):
        one = bounds(p for number, p in placed_points(there) if number == n)
        other = bounds(p for number, p in placed_points(here) if number == n)
        assert one[0][0] == pytest.approx(width - other[1][0], abs=1e-6)
        assert one[1][0] == pytest.approx(width - other[0][0], abs=1e-6)
        assert volume(there.parts[n]) == pytest.approx(volume(here.parts[n]), rel=1e-9)


def points_of(panel):
    part = solid_of(alone(panel)).parts[0]
    return {
        (body.role, *(round(v, 4) for v in p)) for body in part.bodies for m in body.meshes for p in m.points
    }


def test_a_mirrored_panel_has_the_mirrored_skin():
    """Unequal edging, a profile in front and left or right, a notch-free opening off the middle."""

    def made(left):
        side, x = (Side.LEFT, 120.0) if left else (Side.RIGHT, 680.0)
        wide = (14.0, 0.0, 18.0, 9.0) if left else (14.0, 0.0, 9.0, 18.0)
        hole = box(x - 40.0, 90.0, 80.0, 60.0, 10.0)
        return built(
            Panel(
                "top", 1, 800.0, 500.0, "", edges=edges(wide, Meeting.FLUSH), corners=rounded(20.0),
                profiles=(Profile((Side.FRONT, side), "round-over", radius_mm=5.0),),
                cutouts=(Cutout("hole", hole),),
            )
        )  # fmt: skip

    own, other = points_of(made(left=True)), points_of(made(left=False))
    assert {role for role, *_ in own} == {role for role, *_ in other}
    for role in {role for role, *_ in own}:
        one = np.array([p for r, *p in own if r is role])
        mirrored_ones = np.array([(800.0 - x, y, z) for r, x, y, z in other if r is role])
        apart = np.abs(one[:, None] - mirrored_ones[None]).sum(axis=2)
        assert apart.min(axis=1).max() < 1e-3
        assert apart.min(axis=0).max() < 1e-3


@pytest.mark.parametrize("shape", ["square", "radius", "chamfer"])
@pytest.mark.parametrize("meeting", Meeting)
def test_a_panel_holds_its_outline_times_its_thickness(shape, meeting):
    opening = box(300.0, 120.0, 200.0, 90.0, 15.0)
    panel = built(
        Panel("top", 1, 900.0, 420.0, "", edges=edges((16.0, 12.0, 30.0, 22.0), meeting),
              corners=rounded(40.0, shape), cutouts=(Cutout("hole", opening),))
    )  # fmt: skip
    part = solid_of(alone(panel)).parts[0]
    area = finished_outline(panel).area_mm2 - opening.area_mm2
    assert volume(part) == pytest.approx(area * panel.thickness_mm, rel=1e-3)
    for mesh in skins(part):
        check_closed(mesh)
    sheet = next(body for body in part.bodies if body.role is Role.FACE)
    within = sum(mesh.volume_mm3 for mesh in sheet.meshes) / (panel.thickness_mm - panel.carrier.z1_mm)
    inner = (900.0 - 52.0) * (420.0 - 28.0) if meeting is Meeting.FLUSH else finished_outline(panel).area_mm2
    assert within == pytest.approx(inner - opening.area_mm2, rel=5e-3)


@pytest.mark.parametrize(
    ("profile", "taken", "arc"),
    [
        ({"shape": "round-over", "radius_mm": 5.0}, 25.0 * (1 - pi / 4), 5.0 * pi / 2),
        ({"shape": "chamfer", "height_mm": 4.0}, 8.0, 0.0),
        ({"shape": "chamfer", "height_mm": 4.0, "depth_mm": 7.0}, 14.0, 0.0),
        ({"shape": "cove", "radius_mm": 6.0}, 36.0 * pi / 4, 6.0 * pi / 2),
        ({"shape": "bevel under", "height_mm": 9.0, "depth_mm": 8.0, "face": "bottom"}, 36.0, 0.0),
    ],
)
def test_a_profile_takes_its_section_times_its_way(profile, taken, arc):
    """A section carried along a straight edge takes area × length; chords within 0.03 mm cut off 2/3 of that."""
    panel = built(
        Panel("top", 1, 700.0, 300.0, "", edges=edges((20.0, 0.0, 0.0, 0.0)),
              profiles=(Profile((Side.FRONT,), **profile),))
    )  # fmt: skip
    whole = 700.0 * 300.0 * panel.thickness_mm
    part = solid_of(alone(panel)).parts[0]
    assert whole - volume(part) == pytest.approx(taken * 700.0, abs=700.0 * (0.02 * arc + 0.001))
    for mesh in skins(part):
        check_closed(mesh)


def test_a_profile_round_a_disc_takes_its_section_times_the_way_of_its_middle():
    """A chamfer 5 × 5 on a radius of 200: triangle of 12.5 mm², its middle 200 − 5/3 from the axis."""
    ring = ((0.0, 200.0, 1.0), (400.0, 200.0, 1.0))
    disc = box(0, 0, 1, 1).__class__((ring,))
    panel = built(
        Panel(
            "top", 1, 400.0, 400.0, "", outline=disc, profiles=(Profile(ALL_SIDES, "chamfer", height_mm=5.0),)
        )
    )
    assert edge_of_panel(panel).shapes
    expected = pi * 200.0**2 * panel.thickness_mm - 12.5 * 2 * pi * (200.0 - 5 / 3)
    assert volume(solid_of(alone(panel)).parts[0]) == pytest.approx(expected, rel=1e-3)


def test_where_a_profile_goes_through_its_edging_nothing_stands_beyond_it():
    panel = built(
        Panel("top", 1, 700.0, 300.0, "", edges=edges((3.0, 0.0, 0.0, 0.0)),
              profiles=(Profile((Side.FRONT,), "round-over", radius_mm=9.0),))
    )  # fmt: skip
    part = solid_of(alone(panel)).parts[0]
    whole = 700.0 * 300.0 * panel.thickness_mm
    assert whole - volume(part) == pytest.approx(81.0 * (1 - pi / 4) * 700.0, rel=0.03)
    top = [p for mesh in skins(part) for p in mesh.points if p[2] > panel.thickness_mm - 0.5]
    assert min(y for _, y, _ in top) > 5.0


def test_a_grip_takes_what_its_cutter_takes():
    """A ball of 20 run 60 mm at a depth of 10: half a round bar and two quarters of a ball."""
    insert = Insert("wood", box(100.0, 100.0, 120.0, 44.0, 8.0), "ash", depth_mm=14.0, when="after facing")
    plain = Panel("front", 1, 400.0, 300.0, "", inserts=(insert,))
    grip = Grip("grip", "wood", "ball", 20.0, 10.0, ((130.0, 122.0), (190.0, 122.0)))
    with_grip = Panel("front", 1, 400.0, 300.0, "", inserts=(insert,), grips=(grip,))
    before, after = (volume(solid_of(alone(built(one))).parts[0]) for one in (plain, with_grip))
    assert before - after == pytest.approx(pi * 100 / 2 * 60 + 2 / 3 * pi * 1000, rel=0.02)


def test_loose_panels_lie_side_by_side():
    panels = [
        built(Panel(name, 1, long, wide, ""))
        for name, long, wide in (("a", 600, 300), ("b", 200, 500), ("c", 900, 90))
    ]
    piece = solid_of(alone(*panels))
    assert piece.loose
    found = [bounds(p for number, p in placed_points(piece) if number == n) for n in range(3)]
    for n, one in enumerate(found):
        for other in found[:n]:
            assert any(one[0][k] >= other[1][k] + 50 or other[0][k] >= one[1][k] + 50 for k in (0, 1))
    layers = {body.role: body.leaves for body in piece.parts[0].bodies}
    assert layers[Role.FACE][2] > 0 > layers[Role.BACK][2]


class Known:
    """As much of a behaviour as is asked for."""

    def __init__(self, gauges):
        self.gauges = gauges

    def bend(self, direction):
        band = type("Band", (), {"nominal": 2.0 if direction is Direction.BOW else -1.0})()
        return type("Bend", (), {"gauge_mm": self.gauges[direction], "year": (band,) * 12})()


@pytest.mark.parametrize("turned", [False, True])
def test_bow_follows_the_longer_edge_and_grows_with_the_square_of_the_way(turned):
    size = (400.0, 1000.0) if turned else (1000.0, 400.0)
    panel = built(Panel("door", 1, *size, ""))
    known = Known({Direction.BOW: 500.0, Direction.CUP: 400.0})
    part = solid_of(alone(panel), behaviours={"door": known}).parts[0]
    ways = part.across_mm, part.along_mm
    longer, shorter = ways if turned else reversed(ways)
    assert longer == pytest.approx((8.0,) * 12)
    assert shorter == pytest.approx((-1.0,) * 12)


BOXES = st.lists(
    st.tuples(*(st.integers(0, 300) for _ in range(3)), *(st.integers(4, 200) for _ in range(3))),
    min_size=1,
    max_size=4,
)


@given(BOXES)
@settings(max_examples=25)
def test_boxes_keep_their_places_and_volumes(given_boxes):
    ends = [((x, y, z), (x + a, y + b, z + c)) for x, y, z, a, b, c in given_boxes]
    piece = solid_of(of_boxes([tuple(tuple(map(float, end)) for end in one) for one in ends]))
    for n, (low, high) in enumerate(ends):
        found = bounds(p for number, p in placed_points(piece) if number == n)
        assert found[0] == pytest.approx(low)
        assert found[1] == pytest.approx(high)
        assert volume(piece.parts[n]) == pytest.approx(
            (high[0] - low[0]) * (high[1] - low[1]) * (high[2] - low[2])
        )


WIDTHS = st.tuples(*(st.sampled_from((0.0, 3.0, 8.0, 21.0)) for _ in Side))


@given(
    st.integers(120, 900),
    st.integers(90, 500),
    WIDTHS,
    st.sampled_from(Meeting),
    st.sampled_from((2.0, 5.0, 7.0)),
)
@settings(max_examples=20)
def test_a_panel_chamfered_all_round_is_a_frustum_on_a_box(length, width, wide, meeting, leg):
    """Whatever the edging, deeper or shallower than the chamfer: ∫ (L − 2t)(W − 2t) dt over the leg, box below."""
    panel = built(
        Panel("top", 1, float(length), float(width), "", edges=edges(wide, meeting),
              profiles=(Profile(ALL_SIDES, "chamfer", height_mm=leg),))
    )  # fmt: skip
    part = solid_of(alone(panel)).parts[0]
    for mesh in skins(part):
        check_closed(mesh)
    above = length * width * leg - (length + width) * leg**2 + 4 * leg**3 / 3
    expected = length * width * (panel.thickness_mm - leg) + above
    assert volume(part) == pytest.approx(expected, rel=1e-3)
