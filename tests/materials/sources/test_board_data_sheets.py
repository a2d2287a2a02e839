"""Manufacturers' data sheets of birch plywood, MDF and particleboard; hpl-kompendium.de, appendix table 12.

READ, except where a line says COMMON PRACTICE. Thicknesses to 0.1 mm and densities to 1 kg/m³ as printed.
"""

import pytest

from evenface.evidence import Status
from evenface.materials import load_catalogue

CATALOGUE = load_catalogue()


@pytest.mark.parametrize(
    ("nominal", "low", "mean", "high", "plies"),
    [
        (15, 14.3, 14.9, 15.3, 11),
        (18, 17.1, 17.7, 18.1, 13),
        (21, 20.0, 20.5, 20.9, 15),
        (24, 22.9, 23.4, 23.7, 17),
        (30, 28.7, 29.4, 29.9, 21),
    ],
)
def test_true_thickness_of_birch_plywood(
    nominal: int, low: float, mean: float, high: float, plies: int
) -> None:
    board = CATALOGUE.carrier(f"birch-ply-{nominal}")
    assert (board.thickness.low, board.thickness.nominal, board.thickness.high) == (low, mean, high)
    assert board.thickness.status is Status.READ
    assert board.plies == plies


@pytest.mark.parametrize(
    ("name", "density"),
    [
        ("birch-ply-9", 710),
        ("birch-ply-18", 685),
        ("mdf-3", 880),
        ("mdf-12", 800),
        ("mdf-25", 740),
        ("particleboard-10", 700),
        ("particleboard-18", 650),
    ],
)
def test_densities(name: str, density: float) -> None:
    assert CATALOGUE.carrier(name).density.nominal == density


def test_mdf_moves_half_a_per_mille_per_per_cent_of_moisture() -> None:
    """A trade association: .05 % length per 1 % moisture; times .10 moisture per humidity = .005."""
    mdf = CATALOGUE.carrier("mdf-16")
    assert mdf.expansion_along.nominal / mdf.storage.nominal == pytest.approx(0.05)
    assert mdf.thickness_movement is not None
    assert mdf.thickness_movement.nominal == 0.35


def test_laminate_guide() -> None:
    """Density at least 1350 kg/m³; compact 14 / 10 GPa; movement 2 : 1; forming 10 and 20 × thickness."""
    face = CATALOGUE.facing("hpl-postforming-1.0")
    assert face.density.low == 1350
    assert face.expansion_across.nominal == pytest.approx(2 * face.expansion_along.nominal)
    assert face.form_radius_along is not None
    assert face.form_radius_across is not None
    assert (face.form_radius_along.nominal, face.form_radius_across.nominal) == (10, 20)
    compact = CATALOGUE.carrier("compact-12")
    assert (compact.modulus_along.nominal, compact.modulus_across.nominal) == (14_000, 10_000)
    assert CATALOGUE.facing("hpl-0.8").expansion_along.low == pytest.approx(0.001), "the other reading"


def test_common_practice_forms_of_supply() -> None:
    """COMMON PRACTICE: laminate as a whole rolled sheet 1.3 m wide, about 3 m long; linoleum 2 mm, 1.2 m."""
    (sheet,) = (s for s in CATALOGUE.facing("hpl-vertical-0.7").supplies if s.form == "rolled_sheet")
    assert (sheet.length_mm, sheet.width_mm, sheet.sold_by) == (3050, 1300, "piece")
    assert sheet.status is Status.PRACTICE
    linoleum = CATALOGUE.facing("linoleum-2")
    assert linoleum.thickness.nominal == 2
    assert linoleum.thickness.status is Status.PRACTICE
    assert {(s.width_mm, s.sold_by, s.length_mm) for s in linoleum.supplies} == {
        (1200, "metre", None),
        (1830, "metre", None),
    }
