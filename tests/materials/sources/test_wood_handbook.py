"""USDA Forest Products Laboratory, Wood Handbook FPL-GTR-190, tables 4-3, 5-1, 5-3a and 13-5; FPL-GTR-282.

READ in page text, or in copies of it. Coefficients are printed to five decimals per 1 % moisture and
kept here per unit, so they must agree exactly. Densities are 1000 · G · 1.12 (eq. 4-14), rounded to 1 kg/m³.
"""

import pytest

from evenface.evidence import Status
from evenface.materials import load_catalogue

WOOD = load_catalogue().wood


@pytest.mark.parametrize(
    ("name", "radial", "tangential"),
    [
        ("white-ash", 0.00169, 0.00274),
        ("american-beech", 0.00190, 0.00431),
        ("yellow-birch", 0.00256, 0.00338),
        ("black-cherry", 0.00126, 0.00248),
        ("hard-maple", 0.00165, 0.00353),
        ("white-oak", 0.00180, 0.00365),
        ("black-walnut", 0.00190, 0.00274),
    ],
)
def test_coefficients_of_table_13_5(name: str, radial: float, tangential: float) -> None:
    wood = WOOD(name)
    assert wood.movement_radial.nominal == pytest.approx(100 * radial, abs=1e-12)
    assert wood.movement_tangential.nominal == pytest.approx(100 * tangential, abs=1e-12)
    assert wood.movement_tangential.status is Status.READ
    assert "13-5" in wood.movement_tangential.source


@pytest.mark.parametrize(
    ("name", "gravity", "bending_gpa"),
    [("white-ash", 0.60, 12.0), ("hard-maple", 0.63, 12.6), ("black-walnut", 0.55, 11.6)],
)
def test_density_and_modulus_derive_from_table_5_3a(name: str, gravity: float, bending_gpa: float) -> None:
    wood = WOOD(name)
    assert wood.density.nominal == pytest.approx(1000 * gravity * 1.12, abs=0.5)
    # 1.10: shear is left out of the printed bending modulus (note to table 5-1); kept to three figures
    assert wood.modulus_along.nominal == pytest.approx(1100 * bending_gpa, rel=0.005)
    assert wood.modulus_along.status is Status.DERIVED


def test_ratios_read_in_table_5_1() -> None:
    """Bold in the reading: sugar maple E_T .065 and E_R .132, red oak .082 and .154. Three figures kept."""
    for name, tangential, radial in (("hard-maple", 0.065, 0.132), ("red-oak", 0.082, 0.154)):
        wood = WOOD(name)
        assert wood.modulus_tangential.nominal / wood.modulus_along.nominal == pytest.approx(
            tangential, rel=0.01
        )
        assert wood.modulus_radial.nominal / wood.modulus_along.nominal == pytest.approx(radial, rel=0.01)
        assert wood.modulus_radial.status is Status.DERIVED
    assert WOOD("white-ash").modulus_radial.status is Status.MEMORY
