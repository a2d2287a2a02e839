"""Highest rotation of router cutters: a trade article on cutters (READ; sizes there in inches, here whole mm).

Up to 25 mm 24 000, up to 32 mm 18 000, up to 57 mm 16 000, up to 89 mm 12 000 revolutions a minute. The limits are
steps, so no tolerance: at the size itself the figure holds, a tenth above it the next.
"""

import pytest

from evenface.shape.cutter import largest_diameter, rim_speed_m_per_s, rotation_limit

STEPS = ((25.0, 24_000), (32.0, 18_000), (57.0, 16_000), (89.0, 12_000))


@pytest.mark.parametrize(("up_to", "limit"), STEPS)
def test_each_step(up_to, limit):
    assert rotation_limit(up_to) == limit
    assert rotation_limit(up_to + 0.1) != limit
    assert largest_diameter(limit) == up_to


def test_larger_ones_are_not_for_a_hand_router():
    assert rotation_limit(90) is None


def test_the_steps_keep_the_rim_below_sixty_metres_a_second():
    """DERIVED: π·d·n is 30 to 56 m/s at the four steps; the tolerance is the rounding of the quoted figures."""
    speeds = [rim_speed_m_per_s(size, limit) for size, limit in STEPS]
    assert speeds == pytest.approx([31.4, 30.2, 47.8, 55.9], abs=0.05)
