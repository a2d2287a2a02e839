"""Outlines read from DXF and SVG: round trips, mends, and errors that name the place."""

import io
from itertools import pairwise
from math import pi

import ezdxf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shape.shape_samples import any_outline

from evenface.shape.arcs import sampled, split_arc, split_arcs
from evenface.shape.build import circle, rectangle, rounded_rectangle
from evenface.shape.curves import Cubic, fitted
from evenface.shape.dxf_import import read_dxf
from evenface.shape.faults import ShapeError
from evenface.shape.ring import segments_of
from evenface.shape.segment import arc_about
from evenface.shape.svg_import import read_svg


def dxf_bytes(draw, units=4):
    document = ezdxf.new("R2010", units=units)
    draw(document.modelspace())
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode()


def svg_bytes(body, head='width="400mm" height="300mm" viewBox="0 0 400 300"'):
    return f'<svg xmlns="http://www.w3.org/2000/svg" {head}>{body}</svg>'.encode()


def svg_path(ring):
    """A ring as path data, y turned down from 300, arcs split to 45°."""
    parts = [f"M{ring[0][0]!r} {300 - ring[0][1]!r}"]
    for s in (p for whole in segments_of(ring) for p in split_arc(whole)):
        if s.is_arc:
            parts.append(f"A{s.radius!r} {s.radius!r} 0 0 {int(s.sweep < 0)} {s.x1!r} {300 - s.y1!r}")
        else:
            parts.append(f"L{s.x1!r} {300 - s.y1!r}")
    return " ".join(parts) + "Z"


@settings(max_examples=15, deadline=None)
@given(any_outline())
def test_dxf_polyline_round_trip(o):
    ring = [tuple(map(float, v)) for v in o.outer]
    data = dxf_bytes(lambda m: m.add_lwpolyline(ring, format="xyb", close=True))
    assert read_dxf(data).only.same_as(o, 1e-6)


@settings(max_examples=15, deadline=None)
@given(any_outline(), st.randoms())
def test_dxf_loose_lines_and_arcs_in_any_order(o, random):
    """LINE and ARC entities shuffled and some turned round give the outline back."""

    def draw(m):
        pieces = list(o.segments)
        random.shuffle(pieces)
        for s in pieces:
            if s.is_arc:
                ends = (s.start, s.start + s.sweep) if s.sweep > 0 else (s.start + s.sweep, s.start)
                m.add_arc((s.cx, s.cy), s.radius, *(a * 180 / pi for a in ends))
            else:
                m.add_line(*((s.first, s.last) if random.random() < 0.5 else (s.last, s.first)))

    read = read_dxf(dxf_bytes(draw)).only
    assert read.area_mm2 == pytest.approx(o.area_mm2, rel=1e-9, abs=1e-4)
    assert read.bounds == pytest.approx(o.bounds, abs=1e-6)


@settings(max_examples=15, deadline=None)
@given(any_outline())
def test_svg_round_trip(o):
    read = read_svg(svg_bytes(f'<path d="{svg_path(o.outer)}"/>')).only
    assert read.same_as(split_arcs(o), 1e-6)


def test_svg_shapes_transforms_and_holes():
    """Rounded rectangle 100 × 50 r 10 with a round hole, moved and turned in the group: arcs stay arcs."""
    body = (
        '<g id="panel" transform="translate(200 100) rotate(30) scale(2)">'
        '<rect width="100" height="50" rx="10"/><circle cx="50" cy="25" r="8"/></g>'
        '<g id="other"><rect width="9" height="9"/></g>'
    )
    o = read_svg(svg_bytes(body), layer="panel").only
    assert o.area_mm2 == pytest.approx(4 * (5000 - (4 - pi) * 100 - 64 * pi))
    assert sorted({round(s.radius, 9) for s in o.segments}) == [0, 16, 20]
    assert len(read_svg(svg_bytes(body)).outlines) == 2


def test_svg_units_and_relative_commands():
    """An inch by 2 inches from px; H, V, relative lines and repeated figures."""
    o = read_svg(svg_bytes('<path d="M10 10h96v192h-96z"/>', "")).only
    assert o.size == pytest.approx((25.4, 50.8))
    assert read_svg(
        svg_bytes('<path d="M0 0 100 0 100 50 0 50z"/>', ""), unit="mm"
    ).only.area_mm2 == pytest.approx(5000)
    arcs = '<path d="M0 20a20 20 0 0140 0v30H0z"/>'  # flags written together
    assert read_svg(svg_bytes(arcs)).only.area_mm2 == pytest.approx(40 * 30 + pi * 200)


def test_ellipses_and_skewed_arcs_are_fitted_within_the_tolerance():
    """Area πab; a circle scaled 2 : 1 is the same ellipse; notes say that a curve was fitted."""
    whole = read_svg(svg_bytes('<ellipse cx="100" cy="100" rx="60" ry="30"/>'))
    skewed = read_svg(svg_bytes('<circle cx="50" cy="100" r="30" transform="scale(2 1)"/>'))
    for read in (whole, skewed):
        assert read.only.area_mm2 == pytest.approx(pi * 60 * 30, abs=300 * 0.01)
        assert {n.word for n in read.notes} == {"curve_fitted"}
    data = dxf_bytes(lambda m: m.add_ellipse((0, 0), (60, 0), 0.5))
    assert read_dxf(data).only.area_mm2 == pytest.approx(pi * 60 * 30, abs=300 * 0.01)


@settings(max_examples=30, deadline=None)
@given(*[st.floats(-80, 80)] * 4)
def test_fitted_arcs_stay_near_the_curve(ax, ay, bx, by):
    curve = Cubic((0, 0), (ax, ay), (100 + bx, by), (100, 0))
    arcs = fitted(curve, 0.01)
    off = max(min(s.distance_to(curve.at(k / 997)) for s in arcs) for k in range(998))
    assert off <= 0.0105
    assert all(a.last == b.first for a, b in pairwise(arcs))


def test_inches_and_doubtful_units():
    data = dxf_bytes(lambda m: m.add_lwpolyline([(0, 0), (24, 0), (24, 16), (0, 16)], close=True), units=1)
    assert read_dxf(data).only.size == pytest.approx((609.6, 406.4))
    small = read_dxf(dxf_bytes(lambda m: m.add_lwpolyline([(0, 0), (6, 0), (6, 4)], close=True), units=0))
    assert {n.word for n in small.notes} == {"unit_assumed", "unit_doubt_small"}
    large = read_dxf(dxf_bytes(lambda m: m.add_lwpolyline([(0, 0), (9000, 0), (9000, 4)], close=True)))
    assert [n.word for n in large.notes] == ["unit_doubt_large"]


def open_by(gap):
    return f'<path id="top" d="M0 300h100v-50h-100v{50 - gap}"/>'


def test_small_gaps_are_closed_and_noted_large_ones_named_with_their_place():
    """0.009 mm is closed; 0.3 mm is refused at (0, 0) or at the other end (0, 0.3)."""
    mended = read_svg(svg_bytes(open_by(0.009)))
    assert "gap_closed" in {n.word for n in mended.notes}
    assert mended.only.area_mm2 == pytest.approx(5000, abs=1)
    with pytest.raises(ShapeError, match=r"gap of 0\.300 mm") as error:
        read_svg(svg_bytes(open_by(0.3)))
    assert error.value.problem == "open"
    assert error.value.value == pytest.approx(0.3)
    assert error.value.place.source == "path top"
    assert error.value.place.x_mm == pytest.approx(0)
    assert error.value.place.y_mm <= 0.3001


def test_crossings_branches_doubles_and_strays():
    with pytest.raises(ShapeError) as error:
        read_svg(svg_bytes('<polygon points="0,0 100,100 100,0 0,120"/>'))
    assert error.value.problem == "self_crossing"
    with pytest.raises(ShapeError, match="3 lines meet") as error:
        read_svg(svg_bytes('<polygon points="0,0 100,0 100,50"/><line x1="0" y1="0" x2="0" y2="90"/>'))
    assert error.value.problem == "branch"
    doubled = read_dxf(dxf_bytes(lambda m: [m.add_circle((0, 0), 20) for _ in "ab"]))
    assert doubled.only.area_mm2 == pytest.approx(circle(40).area_mm2)
    assert {n.word for n in doubled.notes} == {"dropped_double"}
    with pytest.raises(ShapeError) as error:
        _ = read_svg(svg_bytes('<circle r="9" cx="20" cy="20"/><circle r="9" cx="80" cy="20"/>')).only
    assert error.value.problem == "several"


ENTITY = b'<!DOCTYPE svg [<!ENTITY a "9">]><svg xmlns="http://www.w3.org/2000/svg"><text>&a;</text></svg>'


@pytest.mark.parametrize(
    ("data", "problem"),
    [
        (ENTITY, "not_svg"),
        (b"no drawing", "not_svg"),
        (svg_bytes('<use href="#a"/>'), "reference"),
        (svg_bytes('<path d="M0 0 L 10"/>'), "path"),
        (svg_bytes('<path d="M0 0 X 10 10"/>'), "path"),
        (svg_bytes('<g transform="twist(3)"><rect width="9" height="9"/></g>'), "transform"),
        (svg_bytes('<rect width="wide" height="9"/>'), "number"),
        (svg_bytes(""), "empty"),
        (b" " * 2_000_001, "too_large"),
        (
            svg_bytes('<rect width="9" height="9"/>', 'width="400mm" height="400mm" viewBox="0 0 400 300"'),
            "unit",
        ),
    ],
)
def test_bad_svg_is_refused_with_its_reason(data, problem):
    with pytest.raises(ShapeError) as error:
        read_svg(data)
    assert error.value.problem == problem


def test_bad_dxf_is_refused_with_its_reason():
    with pytest.raises(ShapeError) as error:
        read_dxf(b"no drawing at all")
    assert error.value.problem == "not_dxf"
    data = dxf_bytes(lambda m: m.add_circle((0, 0), 20, dxfattribs={"layer": "panel"}))
    with pytest.raises(ShapeError, match="there are panel"):
        read_dxf(data, layer="top")
    assert read_dxf(data, layer="PANEL").only.area_mm2 == pytest.approx(400 * pi)

    def block(m):
        m.doc.blocks.new("HOLE")
        m.add_blockref("HOLE", (0, 0))

    with pytest.raises(ShapeError) as error:
        read_dxf(dxf_bytes(block))
    assert error.value.problem == "block"


def test_drawn_from_below_is_mirrored():
    """Extrusion (0, 0, −1): x runs the other way, and so do the bulges."""
    o = rectangle(100, 40)
    data = dxf_bytes(
        lambda m: m.add_lwpolyline(o.outer, format="xyb", close=True, dxfattribs={"extrusion": (0, 0, -1)})
    )
    assert read_dxf(data).only.bounds == pytest.approx((-100, 0, 0, 40))


def test_split_and_sampled_arcs():
    """90° in two of 45°; points within 0.01 of R 60: 90° needs ⌈(π/2)/(2·acos(1 − 0.01/60))⌉ = 44 chords."""
    o = rounded_rectangle(600, 400, 60)
    split = split_arcs(o)
    assert max(abs(s.sweep) for s in split.segments) == pytest.approx(pi / 4)
    assert split.area_mm2 == pytest.approx(o.area_mm2, rel=1e-13)
    arc = arc_about(0, 0, 60, 0, pi / 2)
    points = sampled([arc], 0.01)
    assert len(points) == 45
    middle = ((points[0][0] + points[1][0]) / 2, (points[0][1] + points[1][1]) / 2)
    assert 0.009 < 60 - (middle[0] ** 2 + middle[1] ** 2) ** 0.5 <= 0.01


@pytest.mark.parametrize("reader", ["dxf", "svg"])
def test_two_loops_that_cancel_out_are_a_crossing_with_its_place(reader):
    """A bow-tie of equal halves encloses no area in sum: what is told is where it crosses."""
    corners = [(0, 0), (400, 300), (400, 0), (0, 300)]
    if reader == "dxf":
        data, read = dxf_bytes(lambda m: m.add_lwpolyline(corners, close=True)), read_dxf
    else:
        data, read = svg_bytes('<path d="M0 0L400 300V0L0 300Z"/>'), read_svg
    with pytest.raises(ShapeError) as error:
        read(data)
    assert error.value.problem == "self_crossing"
    assert (error.value.place.x_mm, error.value.place.y_mm) == pytest.approx((200, 150))


@pytest.mark.parametrize("size", ["20001", "1e9", "1e300"])
def test_what_no_room_holds_is_a_wrong_unit(size):
    with pytest.raises(ShapeError, match="is its unit right") as error:
        read_svg(svg_bytes(f'<path d="M0 0H{size}V300H0Z"/>'))
    assert error.value.problem == "too_long"
    assert len(str(error.value)) < 120


def test_what_is_said_of_a_broken_file_is_short_and_can_be_shown():
    for data in (b"\x00\xff" * 500, b"\x1b[2J" * 400):
        with pytest.raises(ShapeError) as error:
            read_dxf(data)
        assert str(error.value).isprintable()
        assert str(error.value).isascii()
        assert len(str(error.value)) < 200
