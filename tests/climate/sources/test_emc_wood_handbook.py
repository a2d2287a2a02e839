"""Equilibrium moisture content: Wood Handbook (USDA FPL-GTR-282) Table 4-2, Eq. 4-5, 4-6, 4-7.

READ: both equations as printed in two independent copies; two cells of the table as printed (21.1 °C, 40 and
65 %). DERIVED: the other cells. The table is the equation rounded to 0.1 % moisture, hence 0.05;
three-decimal values to 0.005. (A cell printed 3.0 at 43 °C / 20 % is a misprint for 4.0.)
"""

import numpy as np
import pytest

from evenface.climate import wood_humidity_glass, wood_moisture, wood_moisture_glass
from evenface.climate.isotherms import three_constant_curve

HUMIDITY = np.array([10, 20, 30, 40, 50, 60, 65, 70, 80, 90, 95]) / 100


@pytest.mark.parametrize(
    ("temperature", "printed"),
    [
        (-1.1, [2.6, 4.6, 6.3, 7.9, 9.5, 11.3, 12.4, 13.6, 16.5, 21.0, 24.3]),
        (10.0, [2.6, 4.6, 6.3, 7.9, 9.5, 11.2, 12.3, 13.4, 16.4, 20.9, 24.3]),
        (21.1, [2.5, 4.5, 6.2, 7.7, 9.2, 11.0, 12.0, 13.1, 16.0, 20.5, 23.9]),
        (26.7, [2.4, 4.4, 6.1, 7.6, 9.1, 10.8, 11.7, 12.9, 15.7, 20.2, 23.6]),
        (37.8, [2.3, 4.2, 5.8, 7.2, 8.7, 10.3, 11.2, 12.3, 15.1, 19.5, 22.9]),
    ],
)
def test_table(temperature: float, printed: list[float]) -> None:
    ours = 100 * wood_moisture(HUMIDITY, temperature)
    assert np.max(np.abs(ours - np.array(printed))) < 0.0525  # rounding, and a cell that stands at a half


def test_three_decimals() -> None:
    T = [20, 20, 20, 20, 21.111, 21.111]
    expected = [6.188, 9.271, 11.996, 16.037, 9.242, 15.989]
    ours = 100 * wood_moisture([0.30, 0.50, 0.65, 0.80, 0.50, 0.80], T)
    assert ours == pytest.approx(np.array(expected), abs=0.005)


def test_glass() -> None:
    h = [0.30, 0.35, 0.45, 0.50, 0.60, 0.65, 0.80, 0.85, 0.90]
    expected = [6.094, 6.907, 8.585, 9.471, 11.399, 12.476, 16.567, 18.478, 21.013]
    assert 100 * wood_moisture_glass(h, 20) == pytest.approx(np.array(expected), abs=0.0006)
    back = wood_moisture_glass(wood_humidity_glass(0.12, 21.1), 21.1)
    assert float(back) == pytest.approx(0.12, rel=1e-9)


def test_spruce_hysteresis_at_65_percent() -> None:
    """Maas and Wittel 2026, READ (fits printed as h/(A + Bh − Ch²), in fractions): gap 0.0196."""
    wetting = three_constant_curve(0.65, 3.308, 12.087, 11.839)
    drying = three_constant_curve(0.65, 2.393, 10.122, 8.935)
    assert float(drying - wetting) == pytest.approx(0.0196, abs=5e-5)


SPRUCE_WETTING = [
    (0.2971, 0.05431), (0.3931, 0.06682), (0.5989, 0.09851), (0.6672, 0.11155),
    (0.804, 0.14627), (0.863, 0.16654), (0.9341, 0.22447),
]  # fmt: skip
SPRUCE_DRYING = [
    (0.8781, 0.19397), (0.824, 0.17684), (0.717, 0.14341), (0.5751, 0.11234), (0.4044, 0.08103), (0.3107, 0.06695),
]  # fmt: skip


def test_spruce_measured_means_lie_on_the_printed_fits() -> None:
    """Same source, means of 21 samples, READ; the wetting fit misses its own data by up to 0.009, hence 0.01."""
    for points, fit in ((SPRUCE_WETTING, (3.308, 12.087, 11.839)), (SPRUCE_DRYING, (2.393, 10.122, 8.935))):
        humidity, moisture = np.array(points).T
        assert np.max(np.abs(three_constant_curve(humidity, *fit) - moisture)) < 0.01
