"""Edge sections: what the profile leaves adds up, each layer lies at its level and looks like its material."""

from math import pi

import pytest
from drawings.measured import ways_of
from drawings.sample_panels import built, edges

from evenface.drawings import build_up_of, distinct_sides, section_of, to_svg
from evenface.drawings.scene import Area, Fill, Leader, Line, Path, Stroke
from evenface.drawings.section import INWARDS_MM
from evenface.piece.records import Edge, Meeting, Panel, Profile, Side
from evenface.shape.ring import ring_area, ring_bounds


def panel_with(profiles=(), top=Meeting.UNDER, bottom=Meeting.UNDER, widths=(22, 14, 9, 0), **how):
    return built(Panel("end", 1, 600, 300, "b", edges=edges(widths, top, bottom), profiles=profiles), **how)


def areas(scene, fill):
    return [one for one in scene.primitives if isinstance(one, Area) and one.fill is fill]


def bodies(scene):
    """Rings of everything solid: carrier and edging by their outlines, facings and glue by their tones."""
    rings = [
        one.vertices
        for one in scene.primitives
        if isinstance(one, Path) and one.layer in ("carrier", "edging")
    ]
    tones = (Fill.LAMINATE, Fill.LINOLEUM, Fill.PAPER, Fill.GLUE)
    return rings + [ring for fill in tones for one in areas(scene, fill) for ring in one.rings]


@pytest.mark.parametrize("top", list(Meeting))
@pytest.mark.parametrize("bottom", list(Meeting))
def test_layers_fill_the_section_but_for_the_profile(top, bottom):
    """A round-over of 6 takes 36·(1 − π/4) = 7.7257 mm², a chamfer 4 × 3 takes 6 mm²: by hand."""
    worked = (
        Profile((Side.FRONT,), "round-over", "top", radius_mm=6.0),
        Profile((Side.FRONT,), "chamfer", "bottom", height_mm=3.0, depth_mm=4.0),
    )
    panel = panel_with(worked, top, bottom, face="linoleum-2", core="mdf-16", back="hpl-0.8")
    scene = section_of(panel, Side.FRONT)
    whole = panel.thickness_mm * (22.0 + INWARDS_MM)
    assert sum(abs(ring_area(ring)) for ring in bodies(scene)) == pytest.approx(
        whole - 36 * (1 - pi / 4) - 6.0, abs=1e-6
    )


def test_a_flush_facing_begins_behind_the_edging_and_an_upper_one_at_the_edge():
    for meeting, start in ((Meeting.FLUSH, 22.0), (Meeting.UNDER, 0.0)):
        scene = section_of(panel_with(top=meeting, back="paper-0.3"), Side.FRONT)
        (face,) = areas(scene, Fill.LAMINATE)
        assert ring_bounds(face.rings[0])[0] == pytest.approx(start, abs=1e-9)


def test_measured_in_the_svg():
    panel = panel_with(core="mdf-16")
    scene = section_of(panel, Side.FRONT, scale=2.0)
    (wood,) = ways_of(to_svg(scene), scene, "edging")
    assert wood.box == pytest.approx((0.0, panel.carrier.z0_mm, 22.0, panel.carrier.z1_mm), abs=0.001)


def test_strips_show_end_grain_and_plies_change_their_way():
    panel = panel_with(core="birch-ply-18")
    for side, out in ((Side.FRONT, 7), (Side.LEFT, 6)):  # 13 plies: 7 along the board's length, 6 across
        scene = section_of(panel, side)
        wood = [one for one in areas(scene, Fill.END_GRAIN) if one.angle_deg == 90.0]
        assert len(wood) == 1
        assert len(areas(scene, Fill.END_GRAIN)) - 1 == out
        assert len(areas(scene, Fill.LONG_GRAIN)) == 13 - out


@pytest.mark.parametrize(
    ("core", "fill"),
    [("mdf-16", Fill.MDF), ("particleboard-19", Fill.PARTICLEBOARD), ("compact-12", Fill.COMPACT)],
)
def test_boards_look_like_what_they_are(core, fill):
    assert len(areas(section_of(panel_with(core=core), Side.FRONT), fill)) == 1


def test_flush_edging_stands_proud_in_dots_until_it_is_planed():
    scene = section_of(panel_with(top=Meeting.FLUSH), Side.FRONT)
    dotted = [one for one in scene.primitives if isinstance(one, Path) and one.stroke is Stroke.DOTTED]
    assert max(y for one in dotted for _, y, _ in one.vertices) > panel_with().thickness_mm


def test_each_kind_of_edge_once():
    ash = [Edge(side, "ash", 9.0) for side in (Side.FRONT, Side.REAR, Side.LEFT)]
    panel = built(Panel("x", 1, 600, 300, "b", edges=(*ash, Edge(Side.RIGHT, "oak", 9.0))), core="mdf-16")
    assert distinct_sides(panel) == ((Side.FRONT, Side.REAR, Side.LEFT), (Side.RIGHT,))


def test_build_up_names_every_layer_and_glue_line():
    panel = panel_with(face="linoleum-2", core="blockboard-22", back="paper-0.3")
    labels = [one.text.text for one in build_up_of(panel).primitives if isinstance(one, Leader)]
    titles = " | ".join(labels)
    for words in ("furniture linoleum 2", "blockboard 22", "balancing paper 0.3"):
        assert words in titles
    lines = sum(face.glue_line_mm > 0 for face in panel.faces)
    assert sum("PVA D3" in one for one in labels) == lines == 2
    assert not any(isinstance(one, Line) and one.layer == "labels" for one in build_up_of(panel).primitives)
