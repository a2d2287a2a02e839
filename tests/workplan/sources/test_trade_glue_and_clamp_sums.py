"""Sums worked by hand against the trade's formulas for glue, pressure, clamps and cauls.

Sources: a magazine's example of clamping and its spacing rule, a trade association and a vendor on pressure
and vacuum (READ); the 10 m² an hour and the spread of white glue (MEMORY); the crown of a caul from the sag of
an evenly loaded beam (DERIVED, any textbook of strength of materials).
"""

import math

import pytest

from evenface.materials import load_catalogue
from evenface.materials.rules import rule
from evenface.workplan.clamps import CLAMP_N, clamp_strip, crown_mm, force_n
from evenface.workplan.glue_amounts import grams
from evenface.workplan.glue_pace import SPREAD_M2_PER_H


@pytest.mark.parametrize(
    ("span_mm", "section_mm", "crown"),
    [(650.0, (40.0, 60.0), 2.4), (1000.0, (40.0, 60.0), 13.6), (1000.0, (50.0, 100.0), 2.3)],
)
def test_crown_of_an_ash_caul(span_mm, section_mm, crown):
    """DERIVED, by hand: q = 0.5 N/mm² × 18 mm = 9 N/mm, E of ash taken as 12 000 N/mm².

    1 m of 40 × 60: 5·9·1000⁴ / (384·12000·720000) = 45e12 / 3.318e12 = 13.56. Rounded to 0.1, so within 0.06.
    """
    assert crown_mm(0.5 * 18.0, span_mm, 12_000.0, *section_mm) == pytest.approx(crown, abs=0.06)


def test_clamps_of_the_published_example():
    """READ: nine clamps for 25 in² (161 cm²) at 150 psi (1.034 N/mm²), 420 lbf (1.87 kN) each.

    16 129 mm² × 1.034 = 16.68 kN; / 1.9 = 8.8, so nine. Here as a strip of 806 × 20 mm.
    """
    clamping = clamp_strip(806.0, 20.0, 1.034, 12_000.0)
    assert clamping.force_n == pytest.approx(16_680.0, rel=0.002)
    assert clamping.count == 9
    assert clamping.decided_by == "force"


def test_clamps_of_a_soft_glue_follow_the_spacing():
    """READ: one every 150 mm. 1500 × 18 mm at 0.2 N/mm² = 5.4 kN = 3 clamps by force, 10 by spacing."""
    clamping = clamp_strip(1500.0, 18.0, 0.2, 12_000.0)
    assert (clamping.count, clamping.decided_by, clamping.spacing_mm) == (10, "spacing", 150.0)


def test_a_whole_face_cannot_be_pressed_with_clamps():
    """DERIVED: 1.45 m² at 0.1 N/mm² = 145 kN, about 73 clamps of 2 kN (77 of 1.9 kN)."""
    force = force_n(0.1, 1.45e6)
    assert force == pytest.approx(145_000.0)
    assert math.ceil(force / 2000.0) == 73
    assert math.ceil(force / CLAMP_N.nominal) == 77


def test_vacuum_presses_with_ninety_kilonewton_a_square_metre():
    """READ: 26 inHg is about 0.09 N/mm²."""
    assert force_n(rule("vacuum-pressure").nominal, 1e6) == pytest.approx(90_000.0)


def test_amount_of_white_glue():
    """By hand: 1.5 m² on two faces at 140 g/m² and 10 % loss: 1.5 × 2 × 140 × 1.1 = 462 g."""
    assert 2 * grams(1.5, 140.0) == pytest.approx(462.0)


def test_amount_of_contact_glue():
    """DERIVED: dry film 32 g/m² at 22 % solids is 145 g/m² wet, on both surfaces of both faces.

    1.17 m²: 1.17 × 145 × 4 × 1.1 = 746 g.
    """
    spread = load_catalogue().glue("contact-solvent").spread.nominal
    assert spread == pytest.approx(32.0 / 0.22, abs=0.5)
    assert 4 * grams(1.17, spread) == pytest.approx(746.5, abs=0.5)


def test_time_to_spread():
    """MEMORY: at 10 m² an hour 1.5 m² on two faces take 18 min, printed as about 20."""
    assert 1.5 * 2 * 60.0 / SPREAD_M2_PER_H.nominal == pytest.approx(18.0)
