"""Mitres: a handbook of cabinet making (READ: rule for equal widths), the rule for unequal widths DERIVED.

Short side = long side − 2·w for two 45° mitres; at a corner of β the mitre is β/2 and takes w·cot(β/2) of each end
(cot 67.5° = 0.414, three digits, so 0.0005·w). Unequal widths: tan α = w1/w2 at a right angle.
"""

from math import radians

import pytest

from evenface.shape.corner import mitre_angles, mitred_inside_length


def test_a_frame_with_equal_widths():
    assert mitred_inside_length(1000, 40, (40, 40)) == pytest.approx(920, abs=1e-9)


def test_an_octagon_loses_0414_of_its_width_at_each_end():
    assert mitred_inside_length(500, 30, (30, 30), radians(135)) == pytest.approx(
        500 - 2 * 0.414 * 30, abs=2 * 0.0005 * 30
    )


@pytest.mark.parametrize(
    ("w1", "w2", "first", "second"), [(14, 40, 19.3, 70.7), (20, 20, 45.0, 45.0), (10, 25, 21.8, 68.2)]
)
def test_unequal_widths(w1, w2, first, second):
    """One decimal as a mitre fence is read."""
    assert mitre_angles(w1, w2) == pytest.approx((first, second), abs=0.05)


def test_inside_lengths_are_less_the_neighbours_widths():
    """14 between 40 and 25, 1000 outside: 1000 − 40 − 25, not 1000 − 2·14."""
    assert mitred_inside_length(1000, 14, (40, 25)) == pytest.approx(935, abs=1e-9)
