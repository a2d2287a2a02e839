"""The outline of a panel as records give it, and lines cut off where they leave it."""

from itertools import pairwise

from evenface.construction import BuiltPanel, shapes
from evenface.piece.records import Corner, CornerAt
from evenface.shape.crossing import crossings
from evenface.shape.faults import ShapeError
from evenface.shape.outline import Outline
from evenface.shape.segment import Point, Segment


def finished_outline(panel: BuiltPanel) -> Outline:
    """The outline over the edging.

    Corners that do not fit on the panel are a finding of the checks; here they are left square, so that
    there is still something to look at.
    """
    try:
        return shapes.finished_outline(panel)
    except ShapeError:
        length, width = panel.length_mm, panel.width_mm
        return Outline.of([(0.0, 0.0), (length, 0.0), (length, width), (0.0, width)])


def corners_of(panel: BuiltPanel) -> dict[CornerAt, Corner]:
    """Corners that are not square, by place."""
    return {
        corner.at: corner
        for corner in panel.panel.corners
        if corner.shape in ("radius", "chamfer") and corner.size_mm > 0
    }


def inside(first: Point, last: Point, outline: Outline) -> list[tuple[Point, Point]]:
    """The stretches of a straight line that lie in the material of an outline."""
    line = Segment(*first, *last)
    if line.length < 1e-9:
        return []
    cuts = {0.0, 1.0}
    for segment in outline.segments:
        for point in crossings(line, segment):
            cuts.add(min(1.0, max(0.0, line.share_of(point))))
    shares = sorted(cuts)
    return [
        (line.at(a), line.at(b))
        for a, b in pairwise(shares)
        if (b - a) * line.length > 1e-6 and outline.contains(line.at((a + b) / 2))
    ]
