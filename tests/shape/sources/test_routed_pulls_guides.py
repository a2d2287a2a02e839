"""Let-in pulls: a maker's guide and a vendor's guide to routing fronts (READ).

At least 3 mm left each side of a pull cut 16 mm deep in stock of about 22 mm; templates at least 10 mm thick and
200 × 300 mm, so that they can be clamped; holes drilled first in the corners. Whole millimetres in the sources: the
checks stand on the figure itself.
"""

import pytest

from evenface.materials.rules import rule
from evenface.shape.build import rectangle, rounded_rectangle
from evenface.shape.cutter import Cutter
from evenface.shape.hollow import Hollow
from evenface.shape.hollow_wood import Slab, floor_left, wall_left
from evenface.shape.segment import Segment
from evenface.shape.template import Guide, template_for
from evenface.shape.template_board import corner_holes, template_board


def test_the_published_pull_keeps_the_wall_we_ask_for():
    """22 wide stock, straight cutter of 16, 16 deep: (22 − 16)/2 = 3 each side, which is our least wall."""
    stock = Slab(0.0, 22.0, rectangle(120, 22).outer)
    pull = Hollow(Cutter(16, 30), 16.0, (Segment(20, 11, 100, 11),))
    assert wall_left(pull, [stock]).wood_mm == pytest.approx(3.0, abs=1e-9)
    assert rule("insert-wall").nominal == 3.0
    assert floor_left(pull, 22.0) == pytest.approx(6.0)


def test_a_template_is_large_and_thick_enough_to_clamp():
    made = template_for(rounded_rectangle(60, 20, 8), "inside", Guide(17), Cutter(8, 25))
    board = template_board(made, 100, thickness_mm=6.0)
    left, low, right, high = board.board
    assert right - left >= 300
    assert high - low >= 200
    assert board.thickness_mm == 10


def test_corners_are_drilled_first_one_hole_each():
    """READ: larger than the cutter so that it does not burn; ours are of the corner's own radius, and no cutter that
    could follow that corner is larger."""
    holes = corner_holes(rounded_rectangle(480, 380, 20))
    assert len(holes) == 4
    assert all(hole.diameter_mm == pytest.approx(40) for hole in holes)
