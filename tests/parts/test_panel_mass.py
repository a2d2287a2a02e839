"""Mass of a part: volumes by hand times the densities of the catalogue, everything let in and taken out counted."""

from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jobs_by_hand import BACK_MM, CARRIER_MM, FACE_MM, built, edge, job, layers, panel

from evenface.construction import BuiltPanel
from evenface.materials import load_catalogue
from evenface.parts.mass import mass_kg
from evenface.piece.records import Corner, CornerAt, Cutout, Edge, Insert, Notch, Side
from evenface.shape.build import circle, rounded_rectangle

CATALOGUE = load_catalogue()
PLY = CATALOGUE.carrier("birch-ply-18").density.nominal * CARRIER_MM
FACE = CATALOGUE.facing("hpl-0.8").density.nominal * FACE_MM
BACK = CATALOGUE.facing("hpl-backer-0.8").density.nominal * BACK_MM
ASH = CATALOGUE.wood("ash").density.nominal
BEECH = CATALOGUE.wood("beech").density.nominal
ALIKE = tuple(edge(side, 14.0) for side in Side)
WHOLE, CORE = 1000.0 * 500.0, 972.0 * 472.0
PLAIN = CORE * PLY + (WHOLE - CORE) * ASH * CARRIER_MM + WHOLE * (FACE + BACK)


def made(*edges: Edge, **other: object) -> BuiltPanel:
    panels, _ = built(job(panel(*(edges or ALIKE), **other), buildup=layers()))
    return panels[0]


def grams(one: BuiltPanel) -> float:
    return mass_kg(one) * 1e9


def test_a_plain_panel_is_the_sum_of_its_layers() -> None:
    assert grams(made()) == pytest.approx(PLAIN, rel=1e-12)


def test_rounded_corners_take_from_edging_and_sheets() -> None:
    corners = tuple(Corner(at, "radius", 20.0, origin="c") for at in CornerAt)
    gone = (4 - pi) * 20**2
    assert grams(made(corners=corners)) == pytest.approx(
        PLAIN - gone * (ASH * CARRIER_MM + FACE + BACK), rel=1e-9
    )


def test_a_corner_block_takes_the_place_of_board() -> None:
    """R 60 behind 14 as a block: the carrier loses 46 × 46, the outline (1 − π/4)·60²; all the rest is wood."""
    corner = Corner(CornerAt.FRONT_LEFT, "radius", 60.0, "block", origin="c")
    core, whole = CORE - 46**2, WHOLE - (1 - pi / 4) * 3600
    want = core * PLY + (whole - core) * ASH * CARRIER_MM + whole * (FACE + BACK)
    assert grams(made(corners=(corner,))) == pytest.approx(want, rel=1e-9)


@pytest.mark.parametrize("returned", [False, True])
def test_a_notch_is_taken_off_and_its_returned_edging_counts(returned: bool) -> None:
    """90 × 60 out of the rear; returned by 14 the carrier loses 118 × 60 instead of 90 × 46."""
    notch = Notch("pipe", Side.REAR, 300.0, 90.0, 60.0, 0.0, returned=returned, origin="pipe")
    core = CORE - (118 * 60 if returned else 90 * 46)
    whole = WHOLE - 90 * 60
    want = core * PLY + (whole - core) * ASH * CARRIER_MM + whole * (FACE + BACK)
    assert grams(made(notches=(notch,))) == pytest.approx(want, rel=1e-9)


def test_a_hole_takes_carrier_and_sheets_and_a_lining_gives_wood() -> None:
    area = pi * 50**2
    hole = Cutout("hole", circle(100, (400, 250)), origin="hole")
    assert grams(made(cutouts=(hole,))) == pytest.approx(PLAIN - area * (PLY + FACE + BACK), rel=1e-9)
    lined = Cutout("hole", circle(100, (400, 250)), lining="beech", lining_width_mm=10.0, origin="hole")
    ring = pi * 60**2 - area
    want = PLAIN - area * (PLY + FACE + BACK) + ring * (BEECH * CARRIER_MM - PLY)
    assert grams(made(cutouts=(lined,))) == pytest.approx(want, rel=1e-9)


def test_an_insert_counts_as_its_wood() -> None:
    """8 deep before the facing: beech, 0.1 smaller all round, for ply; after it 8 deep takes 0.8 of the facing too."""
    shape = rounded_rectangle(150, 44, 22).moved(300, 200)
    area, smaller = 106 * 44 + pi * 22**2, 106 * 43.8 + pi * 21.9**2
    before = Insert("wood", shape, "beech", depth_mm=8.0, origin="wood")
    want = PLAIN + smaller * 8 * BEECH - area * 8 * PLY / CARRIER_MM
    assert grams(made(inserts=(before,))) == pytest.approx(want, rel=1e-9)
    after = Insert("wood", shape, "beech", depth_mm=8.0, when="after facing", origin="wood")
    ply = 8 - FACE_MM - 0.1  # less the sheet and its glue line
    want = PLAIN + smaller * 8 * BEECH - area * (FACE + ply * PLY / CARRIER_MM)
    assert grams(made(inserts=(after,))) == pytest.approx(want, rel=1e-9)


def test_a_round_table_weighs_what_its_circles_say() -> None:
    table = made(outline=circle(800, (400, 400)), length_mm=800.0, width_mm=800.0)
    core, whole = pi * 386**2, pi * 400**2
    want = core * PLY + (whole - core) * ASH * CARRIER_MM + whole * (FACE + BACK)
    assert grams(table) == pytest.approx(want, rel=1e-9)


@given(st.integers(60, 900), st.floats(10, 200), st.booleans())
@settings(max_examples=25)
def test_a_deeper_notch_never_weighs_more(along: int, depth: float, returned: bool) -> None:
    def one(deep: float) -> float:
        notch = Notch("n", Side.FRONT, float(along), 80.0, deep, returned=returned, origin="n")
        return grams(made(notches=(notch,)))

    if returned and depth <= 14:
        return  # the edging cannot return there, and does a little deeper
    assert one(depth + 5.0) < one(depth) < PLAIN
