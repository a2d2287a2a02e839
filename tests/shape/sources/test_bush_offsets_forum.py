"""Guide bush and cutter: answers on woodworking forums (READ), and a cutter seller's recess guide (READ).

Forums: offset = (bush − cutter)/2; a template for inside work is larger than the part by twice that, for outside work
smaller; one template makes recess and insert when the large bush is the small one and two cutters. All are exact
arithmetic, so the tolerance is that of floating point (1e-9 mm).
"""

import pytest

from evenface.shape.build import circle, rounded_rectangle
from evenface.shape.cutter import Cutter
from evenface.shape.template import Guide, cut_by, guide_offset, template_for
from evenface.shape.template_board import base_frame
from evenface.shape.template_pair import pair_clearance, paired

EXACT = 1e-9


@pytest.mark.parametrize(
    ("bush", "cutter", "offset"), [(30, 12, 9), (17, 8, 4.5), (24, 12.7, 5.65), (40, 20, 10)]
)
def test_offset(bush, cutter, offset):
    assert guide_offset(Guide(bush), Cutter(cutter, 30)) == pytest.approx(offset, abs=EXACT)


def test_inside_is_larger_and_outside_smaller_by_twice_the_offset():
    """READ rule; sizes DERIVED: 140 × 61 r 13 with bush 30 and cutter 12: 158 × 79 r 22 and 122 × 43 r 4."""
    part, guide, cutter = rounded_rectangle(140, 61, 13), Guide(30), Cutter(12, 30)
    inside, outside = (template_for(part, work, guide, cutter) for work in ("inside", "outside"))
    assert inside.outline.size == pytest.approx((158, 79), abs=EXACT)
    assert outside.outline.size == pytest.approx((122, 43), abs=EXACT)
    assert {round(s.radius, 9) for s in inside.outline.segments if s.is_arc} == {22}
    assert {round(s.radius, 9) for s in outside.outline.segments if s.is_arc} == {4}
    assert cut_by(inside).same_as(part)
    assert cut_by(outside).same_as(part)


@pytest.mark.parametrize(("small", "cutter"), [(17, 5), (8, 8), (20, 6.35)])
def test_large_bush_is_the_small_one_and_two_cutters(small, cutter):
    """READ: then insert and recess are alike; 0.2 less on the cutter shifts the fit by 0.2 a side (DERIVED)."""
    big = small + 2 * cutter
    assert pair_clearance(Guide(big), Guide(small), Cutter(cutter, 30)) == pytest.approx(0, abs=EXACT)
    assert pair_clearance(Guide(big), Guide(small), Cutter(cutter - 0.2, 30)) == pytest.approx(
        -0.2, abs=EXACT
    )
    made = paired(circle(90), Guide(big), Guide(small), Cutter(cutter, 30))
    assert made.insert.same_as(made.recess, 1e-6)


def test_a_published_frame_is_wrong_by_the_cutter():
    """A slot of 203 with a base of 152 and a cutter of 38: READ 368, but 203 + 152 − 38 = 317.

    The printed figure (rounded from inches to whole mm) adds nearly the whole base and takes no cutter off: a slot of
    about 254 would come out. The check holds ours to its own formula and shows the difference, not agreement.
    """
    length, _ = base_frame(203, 60, 152, Cutter(38, 30))
    assert length == pytest.approx(317, abs=EXACT)
    assert 368 - 152 + 38 == 254
    assert 368 - length == 51
