"""Sums worked by hand against the trade's formulas for glue, pressure, clamps and cauls.

Sources: a magazine's example of clamping and its spacing rule, a trade association and a vendor on pressure
and vacuum (READ); the 10 m² an hour and the spread of white glue (MEMORY); the crown of a caul from the sag of
an evenly loaded beam (DERIVED, any textbook of strength of materials).
"""

import math

import pytest

from evenface.materials import load_catalogue
from evenface.materials.rules import rule
from evenface.words import said
from evenface.workplan.clamps import CLAMP_N, clamp_strip, crown_mm, force_n
from evenface.workplan.glue_amounts import grams, line_of
from evenface.workplan.glue_pace import SPREAD_M2_PER_H, pace


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


def test_a_strip_on_ash_by_hand():
    """DERIVED: 730 × 21 mm at 1.2 N/mm² = 18.396 kN = 9.7, so ten clamps; 4.9 by spacing, 730/143 = 5.1 by spread.

    q = 25.2 N/mm over 600 mm, I = 50·100³/12: 5·25.2·600⁴ / (384·12000·4.1667e6) = 1.633e13/1.92e13 = 0.85 mm.
    """
    made = clamp_strip(730.0, 21.0, 1.2, 12_000.0, 14.0)
    assert made.force_n == pytest.approx(18_396.0)
    assert (made.count, made.decided_by, made.spacing_mm) == (10, "force", 73.0)
    assert made.crown_mm == pytest.approx(0.8505, abs=0.0005)
    assert made.caul_end_n == pytest.approx(7560.0)


def test_a_thin_strip_is_decided_by_the_spread_of_its_clamps():
    """DERIVED: 1180 × 18 at 0.6 N/mm² = 12.74 kN = 7; 8 by spacing; 1180 / (35 + 2·(40 + 8)) = 9.01, so ten."""
    made = clamp_strip(1180.0, 18.0, 0.6, 12_000.0, 8.0)
    assert (made.count, made.decided_by) == (10, "spread")


def test_amounts_of_two_faces_by_hand():
    """DERIVED: 0.84 m² of white glue at 110 g/m² on two faces, × 1.1: 203.3 g; contact at 115 on both: 139.2 g."""
    catalogue = load_catalogue()
    assert 2 * grams(0.84, catalogue.glue("pva-d3").spread.nominal) == pytest.approx(203.28)
    assert 2 * grams(0.55, catalogue.glue("contact-water").spread.nominal) == pytest.approx(139.15)


def test_time_for_two_faces_by_hand():
    """DERIVED: 2 × 0.9 m² at 10 m²/h are 10.8 min, and 5 min to close the press: 15.8 min."""
    glue = load_catalogue().glue("pva-d3")
    faces = tuple(line_of(said("face"), 0.9, glue) for _ in range(2))
    assert pace(glue, faces, 0.0, 5.0).needs_min == pytest.approx(15.8)
