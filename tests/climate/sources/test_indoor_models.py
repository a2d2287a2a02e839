"""Indoor climate: EN 15026 annex C and the vapour balance of EN ISO 13788.

READ (secondary, in code that implements them): both models. DERIVED: the checks below, rounded to whole
percent of humidity and 0.1 % of moisture. MEMORY: class 2, saturation formula.
"""

import numpy as np
import pytest

from evenface.climate import (
    humidity_class,
    humidity_when_warmed,
    outdoors,
    room_by_temperature,
    saturation_pressure,
    vapour_pressure,
    wood_moisture,
)
from evenface.climate.indoor import LOW_LOAD, balanced_humidity, heated_temperature, humidity_by_temperature


def test_temperature_model() -> None:
    outside = np.array([-10.0, 0.0, 10.0, 15.0, 22.0])
    assert heated_temperature(outside) == pytest.approx([20, 20, 20, 22.5, 25])
    assert humidity_by_temperature(outside) == pytest.approx([0.35, 0.45, 0.55, 0.60, 0.65])
    assert humidity_by_temperature(-20.0, "high") == pytest.approx(0.40)
    moisture = 100 * wood_moisture(humidity_by_temperature(outside), heated_temperature(outside))
    assert moisture == pytest.approx([6.96, 8.49, 10.10, 10.92, 11.81], abs=0.006)


@pytest.mark.parametrize(
    ("place", "standard", "balance"),
    [
        ("copenhagen", (45, 62), (43, 55)),
        ("london-gatwick", (49, 62), (48, 57)),
        ("zurich", (46, 64), (45, 56)),
        ("milan", (47, 65), (45, 61)),
        ("seville", (55, 65), (38, 57)),
        ("new-york", (43, 65), (39, 69)),
        ("chicago", (40, 65), (38, 69)),
        ("denver", (43, 65), (28, 39)),
        ("tokyo", (51, 65), (35, 81)),
    ],
)
def test_ranges_of_places(place: str, standard: tuple[int, int], balance: tuple[int, int]) -> None:
    """Class 2 as 540 Pa to nothing (2001); whole percents from means rounded to 0.1 °C: 1 allowed."""
    weather = outdoors(place)
    annex_c = 100 * np.array(room_by_temperature(weather).humidity)
    assert (annex_c.min(), annex_c.max()) == pytest.approx(standard, abs=0.55)
    load = humidity_class(2, 2001)
    humidity, _ = balanced_humidity(
        weather, load.cold.nominal, load.warm.nominal, heated_temperature(weather.temperature_c)
    )
    assert (100 * humidity.min(), 100 * humidity.max()) == pytest.approx(balance, abs=1.0)


def test_cold_day_in_an_aired_home() -> None:
    """−10 °C and 85 % outside, 270 to 400 Pa: about 20 to 25 % at 20 °C, not the standard's 35."""
    outside = float(vapour_pressure(-10.0, 0.85))
    for load in (LOW_LOAD.cold.low, LOW_LOAD.cold.nominal, LOW_LOAD.cold.high):
        assert 0.20 < (outside + load) / float(saturation_pressure(20.0)) < 0.27


def test_saturation() -> None:
    """842 Pa at 23 °C / 30 % and 644 Pa at 3 °C / 85 % (worked by hand); steam tables 611, 2339, 7384 Pa."""
    assert float(vapour_pressure(23.0, 0.30)) == pytest.approx(842, abs=1)
    assert float(vapour_pressure(3.0, 0.85)) == pytest.approx(644, abs=1)
    assert saturation_pressure([0.0, 20.0, 40.0]) == pytest.approx([611, 2339, 7384], rel=2e-3)
    assert float(humidity_when_warmed(0.5, 20.0, 30.0)) == pytest.approx(0.5 * 2339 / 4246, rel=2e-3)


def test_classes() -> None:
    assert [humidity_class(n).cold.nominal for n in range(1, 6)] == [270, 540, 810, 1080, 1360]
    assert humidity_class(5).warm.nominal == 200
    assert humidity_class(3, 2001).warm.nominal == 0
    with pytest.raises(ValueError, match="1 to 5"):
        humidity_class(6)
