"""How wide solid wood may be: the trade's few centimetres explained, and what does not grow with the width."""

import math
from dataclasses import replace

import pytest

from evenface.behaviour.widths import (
    Ground,
    WidthLimit,
    faced_limit,
    ground_of,
    ground_of_change,
    strain_across,
)
from evenface.behaviour.widths_by_movement import frame_limit, insert_limit, mitre_limit, ridge_limit
from evenface.climate import even_year
from evenface.materials import load_catalogue

SHELF = load_catalogue()
HPL, RIGID, SOFT = SHELF.facing("hpl-0.8"), SHELF.glue("polyurethane"), SHELF.glue("contact-solvent")


def ash(cut: str = "flat", thickness: float = 12.0, change: float = -0.03) -> Ground:
    return ground_of_change(SHELF.wood("ash"), cut, thickness, change)


def width(limit: WidthLimit) -> float:
    assert limit.width_mm is not None
    return limit.width_mm[1]


# --- "how wide may I face solid ash, and why": sanity, with slack -----------------------------------------


@pytest.mark.parametrize(
    ("cut", "thickness", "low", "high"),
    [("flat", 12.0, 45, 66), ("flat", 20.0, 63, 93), ("quarter", 12.0, 68, 110), ("quarter", 20.0, 90, 130)],
)
def test_faced_on_one_side_the_cup_sets_a_few_centimetres(
    cut: str, thickness: float, low: float, high: float
) -> None:
    found = faced_limit(ash(cut, thickness), HPL, RIGID, both=False)
    assert found.binds == "cup"
    assert low < width(found) < high
    assert found.width_mm == tuple(sorted(found.width_mm or ()))


def test_shear_and_tension_are_told_but_do_not_set_a_width() -> None:
    reasons = {one.name: one for one in faced_limit(ash(), HPL, RIGID, both=False).reasons}
    assert not reasons["shear of the glue line"].grows
    assert not reasons["tension across the grain"].grows
    assert 4.0 < reasons["tension across the grain"].level < 9.0


def test_a_contact_glue_slips_at_each_edge_instead() -> None:
    reasons = {one.name: one for one in faced_limit(ash(), HPL, SOFT, both=False).reasons}
    assert 0.1 < reasons["slip at each edge"].level < 0.6
    hard = {one.name: one for one in faced_limit(ash(), HPL, RIGID, both=False).reasons}
    assert hard["slip at each edge"].level < 0.01
    assert hard["shear of the glue line"].level > reasons["shear of the glue line"].level


def test_faced_alike_it_does_not_cup_and_nothing_that_grows_sets_a_width() -> None:
    found = faced_limit(ash(), HPL, RIGID, both=True)
    assert (found.width_mm, found.binds) == (None, "")
    assert "few centimetres" in found.practice.template


# --- edging, inserts, frames ------------------------------------------------------------------------------


def test_an_edging_in_a_mitre_by_hand() -> None:
    ground = ash()
    strain = 0.38 * 0.03
    assert abs(strain_across(ground)) == pytest.approx(strain)
    assert width(mitre_limit(ground)) == pytest.approx(0.5 / (strain * math.sqrt(2)), rel=0.01)
    assert width(frame_limit(ground)) == pytest.approx(0.5 / strain)
    assert width(mitre_limit(ash("quarter"))) > width(mitre_limit(ash()))


def test_an_insert_moves_against_its_board() -> None:
    ply, mdf = SHELF.carrier("birch-ply-18"), SHELF.carrier("mdf-18")
    ground = ash()
    board = mdf.expansion_across.nominal * ground.humidity_change
    assert width(insert_limit(ground, mdf)) == pytest.approx(0.2 / abs(strain_across(ground) - board))
    still = replace(ground, moisture_change=0.0, humidity_change=0.0)
    assert insert_limit(still, ply).width_mm is None


def test_a_ridge_does_not_grow_with_the_width_so_practice_sets_it() -> None:
    found = ridge_limit(ash(), SHELF.carrier("mdf-18"))
    assert found.width_mm is None
    assert not found.reasons[0].grows
    far = ridge_limit(ash(change=-0.14), SHELF.carrier("mdf-30"))
    assert far.reasons[0].level > found.reasons[0].level


def test_more_movement_means_less_width_and_none_means_none() -> None:
    assert width(mitre_limit(ash(change=-0.06))) == pytest.approx(width(mitre_limit(ash())) / 2, rel=0.02)
    kept = ground_of(SHELF.wood("ash"), "flat", 20.0, even_year(0.5), 0.5)
    assert kept.moisture_change == 0.0
    assert mitre_limit(kept).width_mm is None


def test_the_month_farthest_from_the_shop_counts() -> None:
    from evenface.construction.room_air import year_of
    from evenface.piece.records import Job

    year = year_of(Job(1, "", {}, (), place="copenhagen", room="heated-home"), "heated-home")
    damp = ground_of(SHELF.wood("oak"), "flat", 20.0, year, 0.65)
    dry = ground_of(SHELF.wood("oak"), "flat", 20.0, year, 0.25)
    assert damp.moisture_change < -0.03 < 0.03 < dry.moisture_change


@pytest.mark.parametrize("wrong", [("sideways", 12.0), ("flat", 0.0)])
def test_what_cannot_be_is_refused(wrong: tuple[str, float]) -> None:
    with pytest.raises(ValueError, match="expected a"):
        ash(*wrong)
