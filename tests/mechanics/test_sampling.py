"""Bands: the draws keep their stated spread, repeat with their seed, and blame the right property."""

import numpy as np
import pytest

from evenface.mechanics import (
    Climate,
    Plies,
    Relaxation,
    Stack,
    Varied,
    fourth_corner_mm,
    sample_band,
    sample_first_years,
    sample_twist,
    settled_year,
    twist_band_mm,
)
from evenface.mechanics.sampling import PERCENT, drawn, percentiles, rank_share

DAY = np.arange(365) / 365
AIR = Climate(0.45 + 0.15 * np.cos(2 * np.pi * (DAY - 0.6)))
STACK = Stack(
    *np.array(
        [
            [18.0, 8700, 7500, 0.05, 1000, 0, 0.0035, 0.0040, 120, 117],
            [0.8, 12_000, 9500, 0.3, 4000, 0, 0.0030, 0.0080, 17_000, 84],
        ]
    ).T
)
VARIED = [
    Varied("laminate moves", "expansion_1", (1,), 0.0030, 0.0015, 0.0045),
    Varied("laminate moves across", "expansion_2", (1,), 0.0080, 0.0060, 0.0100),
    Varied("board passes vapour", "vapour_resistance", (0,), 120.0, 60.0, 220.0),
    Varied("board thickness", "thickness_mm", (0,), 18.0, 17.1, 18.1, "normal"),
    Varied("finish", "film_bottom_m", (), 0.02, 0.01, 0.05),
    Varied("sheet humidity", "humidity_at_bonding", (1,), 0.5, 0.42, 0.58, "normal"),
]


def test_band_repeats_with_its_seed_and_not_with_another() -> None:
    one, two, other = (sample_band(STACK, AIR, AIR, 0.5, VARIED, draws=500, seed=s) for s in (7, 7, 8))
    assert np.array_equal(one.curvature_per_mm, two.curvature_per_mm)
    assert not np.array_equal(one.curvature_per_mm, other.curvature_per_mm)
    assert one.worst_per_mm[:2] == pytest.approx(other.worst_per_mm[:2], rel=0.15)


def test_nominal_low_and_high_are_the_5_50_and_95_percent_points() -> None:
    many, bonding, _ = drawn(STACK, 0.5, VARIED, 40_001, 1)
    for values, one in ((many.expansion_1[:, 1], VARIED[0]), (many.thickness_mm[:, 0], VARIED[3])):
        seen = percentiles(values, np.array([5.0, 50.0, 95.0]))
        assert seen == pytest.approx([one.low, one.nominal, one.high], rel=0.02)
    assert np.ptp(bonding[:, 0]) == 0.0
    assert np.ptp(many.expansion_1[:, 0]) == 0.0


def test_each_draw_is_the_settled_year_of_its_own_stack() -> None:
    band = sample_band(STACK, AIR, AIR, 0.5, VARIED, draws=40, times=73)
    many, bonding, _ = drawn(STACK, 0.5, VARIED, 40, 1)
    day = int(np.argmax(band.days == band.worst_day[1]))
    for draw in (0, 17, 39):
        fields = {f: getattr(many, f) for f in Stack.__dataclass_fields__}
        alone = Stack(**{f: v[draw] if v.ndim > getattr(STACK, f).ndim else v for f, v in fields.items()})
        lone = settled_year(alone, AIR, AIR, bonding[draw], times=73).curvature_per_mm
        assert band.draws_per_mm[draw, 1] == pytest.approx(lone[day, 1], abs=1e-3 * np.abs(lone).max())


def test_band_widens_with_spread_and_closes_without() -> None:
    tight = [Varied("laminate moves", "expansion_1", (1,), 0.0030, 0.0030, 0.0030)]
    band = sample_band(STACK, AIR, AIR, 0.5, tight)
    assert np.ptp(band.curvature_per_mm, axis=0).max() < 1e-15
    assert band.shares["laminate moves"] == pytest.approx([0.0, 0.0, 0.0])
    wide = sample_band(STACK, AIR, AIR, 0.5, VARIED)
    assert (np.diff(wide.curvature_per_mm, axis=0) >= 0).all()
    assert len(wide.percent) == len(PERCENT) == wide.curvature_per_mm.shape[0]
    day = wide.worst_day == wide.days[:, None]
    edge = wide.curvature_per_mm[[0, -1]][:, day[:, 0], 0]
    assert np.abs(wide.worst_per_mm[0]) == pytest.approx(np.abs(edge).max())


def test_only_the_humidity_at_bonding_may_vary() -> None:
    varied = [Varied("sheet humidity", "humidity_at_bonding", (1,), 0.5, 0.42, 0.58, "normal")]
    band = sample_band(STACK, AIR, AIR, 0.5, varied, draws=101)
    first = sample_first_years(STACK, AIR, AIR, 0.5, (), varied, draws=101, days=100)
    assert band.shares["sheet humidity"][:2] == pytest.approx([1.0, 1.0])
    # a damper sheet shrinks more afterwards: one shift for all days
    spread = band.curvature_per_mm[-1] - band.curvature_per_mm[0]
    assert spread[:, 1] == pytest.approx(np.full(73, spread[0, 1]), rel=1e-9)
    assert spread[0, 1] > 0
    later = first.curvature_per_mm[-1] - first.curvature_per_mm[0]
    assert later[-1, 1] > 0


def test_the_property_that_matters_is_named() -> None:
    band = sample_band(STACK, AIR, AIR, 0.5, VARIED, draws=2000)
    assert band.shares["laminate moves across"][0] < 0.1
    assert sum(share[1] for share in band.shares.values()) == pytest.approx(1.0, abs=0.12)
    z = np.random.default_rng(1).standard_normal((4000, 2))
    outputs = (3 * z[:, 0] + 1 * z[:, 1])[:, None]
    # rank correlation of a linear Gaussian response lies a few per cent under the share of variance
    assert rank_share(z[:, 0], outputs)[0] == pytest.approx(0.9, abs=0.03)
    assert rank_share(z[:, 1], outputs)[0] == pytest.approx(0.1, abs=0.03)


def test_band_of_the_first_years_ends_on_that_of_the_settled_year() -> None:
    slow = Relaxation(0.7, 60.0)
    first = sample_first_years(STACK, AIR, AIR, 0.5, (), VARIED, draws=60, days=365 * 5, relaxation=slow)
    settled = sample_band(STACK, AIR, AIR, 0.5, VARIED, draws=60, relaxation=slow)
    size = np.abs(settled.curvature_per_mm).max()
    assert first.curvature_per_mm[:, -73:] == pytest.approx(settled.curvature_per_mm, abs=5e-3 * size)
    assert np.abs(first.curvature_per_mm[:, 0]).max() == 0.0  # flat at bonding, whatever the draw


def birch(angle: float = 0.0) -> Plies:
    return Plies(np.full(13, 18 / 13), 15_300.0, 765.0, 0.45, 1040.0, 90.0 * (np.arange(13) % 2) + angle)


def test_twist_of_plywood_doors() -> None:
    """18 mm, 13 plies, 2° scatter, 3 % moisture. DERIVED elsewhere: median 1.6 and 95 % 4.7 mm on 500 × 350,
    2.6 and 7.6 mm on 700 × 400, by a run of unstated draws and ply thickness, hence 10 %."""
    twist = sample_twist(birch(), [0.0003, 0.0123], 2.0, draws=4000)
    assert twist_band_mm(twist, 500, 350) == pytest.approx([1.6, 4.7], rel=0.1)
    assert twist_band_mm(twist, 700, 400) == pytest.approx([2.6, 7.6], rel=0.1)


def test_twist_has_no_side_grows_with_scatter_and_falls_to_nothing() -> None:
    one, two = (sample_twist(birch(), [0.0003, 0.0123], s, draws=4000) for s in (1.0, 2.0))
    assert abs(np.mean(two)) < 0.05 * np.std(two)
    assert np.std(two) == pytest.approx(2 * np.std(one), rel=0.02)
    assert np.abs(sample_twist(birch(), [0.0003, 0.0123], 0.0)).max() < 1e-12
    assert float(fourth_corner_mm(2e-5, 500.0, 350.0)) == pytest.approx(1.75)


def test_wrong_properties_are_named() -> None:
    with pytest.raises(ValueError, match="no field 'colour'"):
        Varied("sheen", "colour", (0,), 1.0, 1.0, 1.0)
    with pytest.raises(ValueError, match="low ≤ nominal ≤ high"):
        Varied("movement", "expansion_1", (0,), 1.0, 2.0, 3.0)
    with pytest.raises(ValueError, match="lognormal spread needs values above 0"):
        Varied("movement", "expansion_1", (0,), 1.0, 0.0, 3.0)
