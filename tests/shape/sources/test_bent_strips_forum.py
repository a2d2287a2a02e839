"""Edgings bent of strips: makers on forums (READ) and the bending strain of a strip (handbook formula, DERIVED).

READ: strips of 1.6 mm (a sixteenth of an inch) for a radius of 150 mm, radii from 150 to 1500 mm made so; strips of
3 mm go cold round circles of 2.4 m across. MEMORY: air-dry wood bears a strain of 0.8 to 1.0 %, which is a radius
of 50 to 60 thicknesses. A strain is t/2r; the figures of makers are round, so they must fall on the right side of
the limit, and the sixteenth within 5 %.
"""

import pytest

from evenface.shape.corner_pieces import STRAIN_LIMIT, bent_strips, thickest_strip

WIDTH = 20.0


def test_a_sixteenth_round_150():
    """Twelve and a half strips of 1.6 make 20; t/2r on the mean radius of 140 is 0.57 %, well inside the limit."""
    made = bent_strips(150, WIDTH, round(WIDTH / 1.6))
    assert made.thickness_mm == pytest.approx(1.6, rel=0.05)
    assert made.strain < STRAIN_LIMIT
    assert thickest_strip(150, WIDTH) == pytest.approx(2.8)


def test_three_mm_round_a_circle_of_2400():
    """t/2r = 3/2400 = 0.125 % on the strip's own mean radius: far below; so a maker who says so is no proof."""
    made = bent_strips(1200, 3 * 4, 4)
    assert made.thickness_mm == 3
    assert made.strain == pytest.approx(3 / (2 * 1194))
    assert made.strain < STRAIN_LIMIT / 7


@pytest.mark.parametrize(("strain", "ratio"), [(0.01, 50), (0.0083333333, 60)])
def test_a_strain_is_a_ratio_of_radius_to_thickness(strain, ratio):
    """1 % is 50 thicknesses, 0.83 % is 60; exact but for the seven digits written."""
    assert thickest_strip(300, 20, strain) == pytest.approx(290 / ratio, rel=1e-6)


@pytest.mark.parametrize(("strips", "degrees"), [(2, 22.5), (3, 10.0), (4, 5.625), (6, 2.5), (10, 0.9)])
def test_spring_back_of_a_right_angle(strips, degrees):
    """n strips lose 1/n² of the form's curvature (DERIVED: n strips together are n² as stiff as loose ones)."""
    made = bent_strips(120, 24, strips)
    assert made.spring_back_deg == pytest.approx(degrees)
    assert made.form_sweep_deg * (1 - made.lost_share) == pytest.approx(90)
    assert (1 / made.form_inner_mm) * (1 - made.lost_share) == pytest.approx(1 / made.inner_radius_mm)


def test_the_other_rule_is_that_of_the_overbend():
    """1/(n² − 1), often quoted (MEMORY), is what the form bends further, not what is lost: the same thing, seen from
    the finished piece: 1/(1 − 1/n²) − 1."""
    made = bent_strips(120, 24, 5)
    over = made.form_sweep_deg / 90 - 1
    assert over == pytest.approx(1 / (5**2 - 1))
