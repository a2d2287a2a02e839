"""Movement of wood: Wood Handbook, USDA Forest Products Laboratory, FPL-GTR-190 and -282, chapters 4 and 13.

READ: Eq. 13-1 with its worked trade examples, tables 4-3 (shrinkage) and 13-5 (coefficients). MEMORY: the
handbook's own fir example. DERIVED: the values by Eq. 13-2. Handbook coefficients are per 1 % and printed to
five decimals; ours are per unit of moisture, hence the hundreds.
"""

import pytest

from evenface.mechanics.wood import (
    coefficient_from_shrinkage,
    movement,
    movement_from_shrinkage,
    shrinkage_at,
)


@pytest.mark.parametrize(
    ("size", "per_percent", "start", "end", "expected", "printed_to"),
    [
        (232.0, 0.00245, 0.08, 0.11, 1.705, 5e-4),  # white fir, mm; MEMORY, arithmetic DERIVED
        (5.0, 0.00365, 0.06, 0.09, 0.055, 5e-4),  # white oak, inches; READ in a flooring chart
        (5.0, 0.00129, 0.06, 0.09, 0.019, 5e-4),  # mesquite, inches; READ
        (8.0, 0.0026, 0.06, 0.12, 0.1248, 5e-5),  # red alder, inches; READ in a magazine table
    ],
)
def test_linear_equation(
    size: float, per_percent: float, start: float, end: float, expected: float, printed_to: float
) -> None:
    assert float(movement(size, 100 * per_percent, start, end)) == pytest.approx(expected, abs=printed_to)


@pytest.mark.parametrize(
    ("size", "shrinkage", "start", "end", "expected"),
    [
        (100.0, 0.105, 0.30, 0.08, -7.70),  # white oak tangential, DERIVED
        (100.0, 0.105, 0.08, 0.20, 4.55),
        (600.0, 0.119, 0.06, 0.12, 15.78),  # beech
    ],
)
def test_exact_equation(size: float, shrinkage: float, start: float, end: float, expected: float) -> None:
    """Rounded to two decimals."""
    assert float(movement_from_shrinkage(size, shrinkage, start, end)) == pytest.approx(expected, abs=5.1e-3)


def test_beech_by_the_linear_equation() -> None:
    assert float(movement(600, 0.431, 0.06, 0.12)) == pytest.approx(15.52, abs=5e-3)


def test_partial_shrinkage() -> None:
    """Eq. 4-9, READ; values DERIVED, rounded to two decimals of a percent."""
    assert 100 * float(shrinkage_at(0.099, 0.08)) == pytest.approx(7.26, abs=5e-3)  # sugar maple, tangential
    assert 100 * float(shrinkage_at(0.056, 0.12)) == pytest.approx(3.36, abs=5e-3)  # white oak, radial
    assert float(shrinkage_at(0.056, 0.42)) == 0.0


@pytest.mark.parametrize(
    ("wood", "shrinkage_percent", "printed"),
    [
        # READ: shrinkage table 4-3, coefficient table 13-5
        ("beech T", 11.9, 0.00431),
        ("beech R", 5.5, 0.00190),
        ("walnut R", 5.5, 0.00190),
        ("walnut T", 7.8, 0.00274),
        ("cherry R", 3.7, 0.00126),
        ("cherry T", 7.1, 0.00248),
        ("white ash R", 4.9, 0.00169),
        ("white ash T", 7.8, 0.00274),
        ("yellow birch R", 7.3, 0.00256),
        ("yellow birch T", 9.5, 0.00338),
        ("red alder T", 7.3, 0.00256),
        ("sugar maple T", 9.9, 0.00353),
        ("basswood T", 9.3, 0.00330),
        ("sweetgum T", 10.2, 0.00365),
    ],
)
def test_coefficient_follows_from_shrinkage(wood: str, shrinkage_percent: float, printed: float) -> None:
    """39 of 44 printed coefficients follow to the fifth decimal; these are some of them."""
    ours = float(coefficient_from_shrinkage(shrinkage_percent / 100)) / 100
    assert ours == pytest.approx(printed, abs=5.1e-6), wood
