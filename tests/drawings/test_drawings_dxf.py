"""DXF read back with the library that audits it: unit, layers, bulges, dimensions."""

import io
import sys

import pytest
from drawings.sample_panels import bench, built, edges, rounded

from evenface.drawings import NoDxfWriter, build_up_of, plan_of, sections_of, to_dxf
from evenface.drawings.scene import (
    Anchor,
    Area,
    Circle,
    Dimension,
    Fill,
    Line,
    Path,
    Stroke,
    Text,
    scene_of,
)
from evenface.errors import EvenfaceError
from evenface.piece.records import Panel, Profile, Side

ezdxf = pytest.importorskip("ezdxf")


def read(text):
    document = ezdxf.read(io.StringIO(text))
    audit = document.audit()
    assert not audit.errors
    assert not audit.fixes
    return document


def scenes():
    mixed = built(
        Panel("end", 1, 700, 330, "b", edges=edges((40, 14, 9, 0)), corners=rounded(12, "chamfer"),
              profiles=(Profile((Side.FRONT,), "round-over", "top", radius_mm=6.0),
                        Profile((Side.FRONT,), "chamfer", "bottom", height_mm=2.0, depth_mm=3.0))),
        face="linoleum-2", core="blockboard-22", back="paper-0.3",
    )  # fmt: skip
    return [plan_of(bench()), plan_of(mixed), *sections_of(mixed), build_up_of(mixed)]


@pytest.mark.parametrize("scene", scenes(), ids=lambda scene: scene.title)
def test_read_back_it_is_the_scene(scene):
    document = read(to_dxf(scene))
    assert document.dxfversion >= "AC1024"  # R2010
    assert document.header["$INSUNITS"] == 4
    assert {one.layer for one in scene.primitives} <= {layer.dxf.name for layer in document.layers}
    paths = [one for one in scene.primitives if isinstance(one, Path)]
    found = document.modelspace().query("LWPOLYLINE")
    assert len(found) == len(paths)
    for path, polyline in zip(paths, found, strict=True):
        assert polyline.closed == path.closed
        assert polyline.dxf.layer == path.layer
        for (x, y, bulge), vertex in zip(path.vertices, polyline.get_points("xyb"), strict=True):
            assert vertex == pytest.approx((x, y, bulge), abs=1e-6)


@pytest.mark.parametrize("scene", scenes(), ids=lambda scene: scene.title)
def test_dimensions_measure_what_they_say(scene):
    lengths = [one for one in scene.primitives if isinstance(one, Dimension)]
    found = [one for one in read(to_dxf(scene)).modelspace().query("DIMENSION") if one.dimtype == 0]
    assert len(found) == len(lengths) > 0
    for one, dimension in zip(lengths, found, strict=True):
        assert dimension.get_measurement() == pytest.approx(one.length_mm, abs=0.001)
        assert float(dimension.dxf.text) == pytest.approx(one.length_mm, abs=0.05)  # one decimal is shown


def test_radius_dimension_measures_the_corner():
    radii = [
        one for one in read(to_dxf(plan_of(bench()))).modelspace().query("DIMENSION") if one.dimtype == 4
    ]
    assert [one.get_measurement() for one in radii] == pytest.approx([60.0], abs=0.001)


def test_text_cannot_be_taken_for_a_code():
    scene = scene_of("x", 1.0, (Text(0, 0, "%%c a\\Pb ^J <> \n c"),))
    (text,) = read(to_dxf(scene)).modelspace().query("TEXT")
    assert not any(code in text.dxf.text for code in ("%%", "\\", "^", "\n"))


def test_bare_geometry_is_what_the_library_would_have_written():
    """The quick way to write lines, paths, circles and lettering against the library's own, attribute by attribute."""
    bare = (
        Line(0, 0, 10, 5.25, Stroke.ACCENT, "cut"),
        Path(((0, 0, 0), (10, 0, 0.5), (10, 10, -0.2)), True, Stroke.HIDDEN, "part"),
        Path(((1, 2, 0), (3, 4, 0)), False, Stroke.VISIBLE, "Größe"),
        Circle(3, 4, 2.5, Stroke.DOTTED, "part"),
        Text(1, 2, "10 × 5 %%c", 2.5, Anchor.MIDDLE, 90.0, "text"),
        Text(3, 4, "a", 2.0, Anchor.START, 0.0, "text"),
        Text(5, 6, "b", 2.0, Anchor.END, 30.0, "text"),
    )
    filling = Area(
        (((0, 0, 0), (1, 0, 0), (1, 1, 0)),), Fill.PIECE, "part"
    )  # writes nothing, but is not plain
    quick, slow = (read(to_dxf(scene_of("x", 0.1, things))) for things in (bare, (*bare, filling)))
    assert [one.dxftype() for one in quick.modelspace()] == [one.dxftype() for one in slow.modelspace()]
    for one, other in zip(quick.modelspace(), slow.modelspace(), strict=True):
        assert values(one) == values(other)
    assert [one.dxf.name for one in quick.layers] == [one.dxf.name for one in slow.layers]
    assert len({one.dxf.handle for one in quick.entitydb.values()}) == len(quick.entitydb)


def values(entity):
    """All that is told of an entity but its handles, numbers rounded; vertices of a polyline with it."""
    told = {key: value for key, value in entity.dxfattribs().items() if key not in ("handle", "owner")}
    if entity.dxftype() == "TEXT":
        told = {"rotation": 0.0} | told
    points = [tuple(p) for p in entity.get_points("xyb")] if entity.dxftype() == "LWPOLYLINE" else []
    return {
        key: round(value, 6) if isinstance(value, float) else value for key, value in told.items()
    }, points


def test_without_the_library_it_says_what_to_install(monkeypatch):
    monkeypatch.setitem(sys.modules, "ezdxf.filemanagement", None)
    with pytest.raises(NoDxfWriter, match=r"evenface\[dxf\]") as raised:
        to_dxf(plan_of(bench()))
    assert isinstance(raised.value, EvenfaceError)
