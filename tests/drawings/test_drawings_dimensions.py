"""Chains of dimensions on random panels: no lettering on lettering, and every figure true."""

from itertools import combinations

import pytest
from drawings.sample_panels import bench, box, built, edges, rounded
from hypothesis import given, settings
from hypothesis import strategies as st

from evenface.construction import BuiltPanel
from evenface.drawings import plan_of, section_of
from evenface.drawings.dimensions import Beside, Span, chain
from evenface.drawings.draft import figure
from evenface.drawings.scene import Dimension, Scene, box_round, text_box, texts_of
from evenface.piece.records import Cutout, Meeting, Panel, Side
from evenface.shape.segment import Box
from evenface.words import ENGLISH, Manner

few = settings(max_examples=40, deadline=None)


def lettering_on_lettering(scene: Scene) -> list[tuple[str, str]]:
    boxes = [(text.text, text_box(text, scene.scale)) for text in texts_of(scene.primitives)]
    slack = 0.01 / scene.scale
    return [(a, b) for (a, one), (b, other) in combinations(boxes, 2) if _meet(one, other, slack)]


def lines_through_lettering(dimensions: list[Dimension], scale: float) -> list[tuple[str, str]]:
    """Leading lines of one dimension that run through the figure of another."""
    return [
        (one.text.text, other.text.text)
        for one in dimensions
        for line in map(box_round, one.extensions)
        for other in dimensions
        if other is not one and _meet(line, text_box(other.text, scale), 0.01 / scale)
    ]


def _meet(one: Box, other: Box, slack: float) -> bool:
    return (
        one[0] < other[2] - slack
        and other[0] < one[2] - slack
        and one[1] < other[3] - slack
        and other[1] < one[3] - slack
    )


widths = st.sampled_from([0.0, 3.0, 6.0, 12.0, 14.0, 40.0])


@st.composite
def panels(draw: st.DrawFn) -> BuiltPanel:
    length = draw(st.floats(90, 3000).map(lambda x: round(x, 1)))
    width = draw(st.floats(90, 1300).map(lambda x: round(x, 1)))
    cutouts = []
    for number in range(draw(st.integers(0, 3))):
        x, y = draw(st.floats(0.05, 0.7)) * length, draw(st.floats(0.05, 0.7)) * width
        size = (draw(st.floats(0.02, 0.25)) * length, draw(st.floats(0.02, 0.25)) * width)
        cutouts.append(Cutout(f"hole {number}", box(x, y, *size)))
    radius = draw(st.sampled_from([0.0, 5.0, 30.0, 44.0]))
    panel = Panel(
        "part",
        1,
        length,
        width,
        "b",
        edges=edges([draw(widths) for _ in range(4)], draw(st.sampled_from(Meeting))),
        corners=rounded(radius, draw(st.sampled_from(["radius", "chamfer"]))) if radius else (),
        cutouts=tuple(cutouts),
    )
    return built(panel, turned=draw(st.sampled_from([0.0, 90.0])))


@few
@given(panels())
def test_nothing_written_lies_on_anything_written(panel: BuiltPanel) -> None:
    scene = plan_of(panel)
    assert lettering_on_lettering(scene) == []
    dimensions = [one for one in scene.primitives if isinstance(one, Dimension)]
    by_side: dict[tuple[float, bool], list[Dimension]] = {}
    for one in dimensions:
        outside = one.on[0] > 0 if one.angle_deg else one.on[1] > 0
        by_side.setdefault((one.angle_deg, outside), []).append(one)
    for group in by_side.values():
        assert lines_through_lettering(group, scene.scale) == []


@few
@given(panels())
def test_every_figure_is_the_length_it_stands_at(panel: BuiltPanel) -> None:
    for one in plan_of(panel).primitives:
        if isinstance(one, Dimension):
            assert one.text.text == figure(one.length_mm, ENGLISH)


@few
@given(panels())
def test_everything_lies_inside_the_bounds(panel: BuiltPanel) -> None:
    scene = plan_of(panel)
    x0, y0, x1, y1 = scene.bounds
    for text in texts_of(scene.primitives):
        a, b, c, d = text_box(text, scene.scale)
        assert x0 <= a
        assert y0 <= b
        assert c <= x1
        assert d <= y1


@given(
    st.lists(st.tuples(st.integers(0, 400), st.integers(1, 400)), min_size=1, max_size=14, unique=True),
    st.sampled_from(Beside),
    st.sampled_from([1.0, 0.2, 0.05]),
)
@settings(max_examples=60, deadline=None)
def test_any_chain_can_be_read(given_spans: list[tuple[int, int]], beside: Beside, scale: float) -> None:
    spans = [Span(low, low + size, str(size), (0.0, 0.0)) for low, size in given_spans]
    dimensions = list(chain(spans, beside, 0.0, scale))
    assert len(dimensions) == len(spans)
    boxes = [text_box(one.text, scale) for one in dimensions]
    assert not [1 for a, b in combinations(boxes, 2) if _meet(a, b, 0.01 / scale)]
    assert lines_through_lettering(dimensions, scale) == []


def test_shorter_lengths_stand_nearer() -> None:
    rows = {
        one.text.text: one.on[1]
        for one in chain(
            [Span(0, 100, "100", (0, 0)), Span(20, 60, "40", (0, 0)), Span(0, 80, "80", (0, 0))],
            Beside.BELOW,
            0.0,
            1.0,
        )
    }
    assert 0 > rows["40"] > rows["80"] > rows["100"]


def test_a_small_length_has_its_figure_beside_it() -> None:
    (one,) = chain([Span(0, 2, "14.5", (0, 0))], Beside.BELOW, 0.0, 1.0)
    text = text_box(one.text, 1.0)
    assert text[2] <= 0.0 or text[0] >= 2.0
    assert one.reach[0] <= text[0]  # its line is prolonged under the figure


def test_figures_at_the_side_are_read_from_the_right() -> None:
    (one,) = chain([Span(0, 100, "100", (0, 0))], Beside.LEFT, 0.0, 1.0)
    assert one.text.angle_deg == 90.0
    assert text_box(one.text, 1.0)[2] <= one.on[0]  # above the line, seen from the right: left of it


def test_a_span_of_no_length_is_refused() -> None:
    with pytest.raises(ValueError, match="length above 0"):
        Span(5, 5, "0", (0, 0))


def test_inches_and_decimal_commas() -> None:
    assert figure(19.05, Manner(system="inch")) == "3/4"
    assert (
        figure(19.05, Manner(system="inch", translate=lambda text: "tum" if text == "in" else text)) == "3/4"
    )
    assert figure(621.4, Manner(decimal_mark=",")) == "621,4"
    shown = {text.text for text in texts_of(plan_of(bench(), Manner(system="inch")).primitives)}
    assert "70 55/64" in shown  # 1800 mm
    assert any("sizes in inches" in text for text in shown)


@pytest.mark.parametrize("face", ["hpl-0.8", "linoleum-2", "veneer-0.6", ""])
@pytest.mark.parametrize("core", ["birch-ply-18", "mdf-16", "blockboard-22", "compact-12", "solid-20"])
def test_sections_are_legible_whatever_the_build_up(face: str, core: str) -> None:
    panel = built(Panel("shelf", 1, 600, 300, "b", edges=edges((12, 0, 14, 3))), face, core, face)
    for side in Side:
        assert lettering_on_lettering(section_of(panel, side)) == []


def test_corners_that_do_not_fit_are_still_drawn() -> None:
    panel = built(Panel("p", 1, 100, 80, "b", edges=edges((10,) * 4), corners=rounded(60)))
    assert plan_of(panel).width_mm > 0
