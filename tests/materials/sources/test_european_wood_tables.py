"""German timber-trade table of differential movement; J. Wood Sci. 2019, s10086-019-1794-4, table 1 (beech).

READ. Differential movement is printed in % per 1 % moisture with two decimals and kept unchanged.
"""

import pytest

from evenface.materials import load_catalogue

WOOD = load_catalogue().wood


@pytest.mark.parametrize(
    ("name", "radial", "tangential"),
    [
        ("oak", 0.16, 0.36),
        ("beech", 0.20, 0.41),
        ("ash", 0.21, 0.38),
        ("birch", 0.29, 0.41),
        ("walnut", 0.18, 0.29),
        ("spruce", 0.19, 0.39),
    ],
)
def test_differential_movement(name: str, radial: float, tangential: float) -> None:
    wood = WOOD(name)
    assert (wood.movement_radial.nominal, wood.movement_tangential.nominal) == (radial, tangential)


def test_ash_spans_both_systems_and_says_so() -> None:
    """Total shrinkage of 8.2 % gives .289 % per 1 %; the trade table prints .38: the range holds both."""
    ash = WOOD("ash")
    assert ash.movement_tangential.low < 0.289
    assert ash.movement_tangential.high > 0.38
    assert "tangentially 0.38 against 0.29" in ash.disagreement


def test_elastic_set_of_beech() -> None:
    """Measured set in MPa; the modulus along reaches from it (12 205) to the promotion series (16 000)."""
    beech = WOOD("beech")
    assert beech.modulus_radial.nominal == 1858
    assert beech.modulus_tangential.nominal == 774
    assert (beech.shear_lr.nominal, beech.shear_lt.nominal) == (899, 595)
    assert beech.modulus_along.low <= 12_205
    assert beech.modulus_along.high >= 16_000
