"""What a profile takes off the layers of a section, and a profile that cannot be cut."""

import math

import pytest
from drawings.sample_panels import built, edges

from evenface.drawings import section_of
from evenface.drawings.scene import Area, Dimension, Fill, Path, Scene
from evenface.piece.records import Meeting, Panel, Profile, Side
from evenface.shape.ring import ring_area, ring_bounds

ROUND = Profile(tuple(Side), "round-over", radius_mm=4)


def section(top: Meeting, *profiles: Profile) -> Scene:
    panel = Panel("p", 1, 600, 400, "b", edges=edges((14,) * 4, top), profiles=profiles)
    return section_of(built(panel), Side.FRONT)


def edging_of(scene: Scene) -> Path:
    (ring,) = (one for one in scene.on_layer("edging") if isinstance(one, Path))
    return ring


def test_a_round_over_takes_off_the_square_less_the_quarter_disc() -> None:
    square, rounded_over = section(Meeting.FLUSH), section(Meeting.FLUSH, ROUND)
    taken = ring_area(edging_of(square).vertices) - ring_area(edging_of(rounded_over).vertices)
    assert taken == pytest.approx(16 - math.pi * 4, abs=1e-9)  # r² − πr²/4
    assert any(bulge for _, _, bulge in edging_of(rounded_over).vertices)  # the arc stays an arc


def test_the_facing_over_the_edging_is_cut_back_by_the_round_over() -> None:
    sheets = [
        ring_bounds(one.rings[0])
        for one in section(Meeting.UNDER, ROUND).primitives
        if isinstance(one, Area) and one.fill is Fill.LAMINATE
    ]
    least, *_ = max(sheets, key=lambda box: box[1])
    # at the facing's under side, 0.8 below the face: d = 4 − √(4² − (4 − 0.8)²)
    assert least == pytest.approx(4 - math.sqrt(16 - 3.2**2), abs=1e-9)


def test_a_profile_that_cannot_be_cut_is_left_out_and_said() -> None:
    tall = Profile((Side.FRONT,), "round-over", radius_mm=14)
    under = Profile((Side.FRONT,), "bevel", face="bottom", height_mm=14, depth_mm=5)
    scene = section(Meeting.UNDER, tall, under)
    notes = [text.text for text in scene.on_layer("notes")]  # type: ignore[union-attr]
    assert any("cannot be cut" in note for note in notes)


def test_sizes_given_are_width_height_and_thickness() -> None:
    scene = section(Meeting.UNDER)
    figures = sorted(one.text.text for one in scene.primitives if isinstance(one, Dimension))
    assert figures == ["14", "18", "19.8"]
