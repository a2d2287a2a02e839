"""Standards that shapes rest on: ISO 216 paper sizes, ANSI letter paper, the bulge of the open DXF reference.

MEMORY of all three. ISO 216: A4 210 × 297, A3 297 × 420 mm, whole mm by definition. Letter 8.5 × 11 in = 215.9 × 279.4
mm exactly. Bulge: tangent of a quarter of the arc's angle, positive counter-clockwise; 1 is a half circle, 0 a line.
"""

from math import pi, sin, tan

import pytest

from evenface.shape.segment import Segment
from evenface.shape.tiling import PAPERS


@pytest.mark.parametrize(
    ("paper", "size"), [("A4", (210, 297)), ("A3", (297, 420)), ("Letter", (8.5 * 25.4, 11 * 25.4))]
)
def test_papers(paper, size):
    assert PAPERS[paper] == pytest.approx(size, abs=1e-9)


@pytest.mark.parametrize("angle", [pi / 6, pi / 2, pi, 3 * pi / 2])
def test_bulge(angle):
    """A chord of 100 seen under the angle: radius 50/sin(angle/2), length radius·angle."""
    arc = Segment(0, 0, 100, 0, tan(angle / 4))
    assert arc.sweep == pytest.approx(angle)
    assert arc.radius == pytest.approx(50 / sin(angle / 2))
    assert arc.length == pytest.approx(arc.radius * angle)
    assert arc.at(0.5)[1] == pytest.approx(
        -50 * tan(angle / 4)
    )  # counter-clockwise from left to right bulges down
