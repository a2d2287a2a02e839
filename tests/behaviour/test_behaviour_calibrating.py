"""Bows made from known movements lead back to them; what cannot be measured is refused."""

from dataclasses import replace

import numpy as np
import pytest

from evenface.behaviour.calibrating import Strips, _after, _stack, calibrate
from evenface.materials import Carrier, Facing, load_catalogue

SHELF = load_catalogue()


def strips(along: float = 0.0021, across: float = 0.0093, board: str = "mdf-6", days: int = 14) -> Strips:
    """Strips that bow as a sheet of that movement makes them, 33 to 75 %."""
    sheet = SHELF.facing("hpl-0.8")
    truth = replace(
        sheet,
        expansion_along=sheet.expansion_along.measured(along),
        expansion_across=sheet.expansion_across.measured(across),
    )
    blank = Strips(SHELF.carrier(board), truth, 600.0, 1.0, 1.0, 0.33, 0.75, days)
    curvature = _after(blank, _stack(blank)) * 0.42
    bows = [float(one) for one in curvature * 600.0**2 / 8.0]
    return replace(blank, facing=sheet, bow_along_mm=bows[0], bow_across_mm=bows[1])


def test_two_strips_give_back_two_movements() -> None:
    found = calibrate(strips())
    assert found.along.nominal == pytest.approx(0.0021, rel=0.01)
    assert found.across.nominal == pytest.approx(0.0093, rel=0.01)
    assert found.along.low < 0.0021 < found.along.high
    sheet = SHELF.facing("hpl-0.8")
    assert found.pull_across_n_mm == pytest.approx(0.0093 * sheet.modulus_across.nominal * 0.8, rel=0.01)


def test_the_range_is_narrower_than_what_was_known_before() -> None:
    found, before = calibrate(strips()), SHELF.facing("hpl-0.8").expansion_across
    assert (found.across.high - found.across.low) < (before.high - before.low)


def test_a_thick_board_needs_longer_than_a_fortnight() -> None:
    thin, thick = calibrate(strips()), calibrate(strips(board="birch-ply-18"))
    assert thin.settled > 0.9 > thick.settled
    assert np.isfinite(thick.along.nominal)


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"length_mm": 120.0}, "at least 200"),
        ({"days": 0}, "1 to 730"),
        ({"humidity_to": 1.4}, "5 to 95"),
        ({"humidity_to": 0.40}, "15 % apart"),
        ({"bow_across_mm": 300.0}, "a fifth"),
    ],
)
def test_measurements_that_cannot_be_are_refused(change: dict[str, float], told: str) -> None:
    board: Carrier = SHELF.carrier("mdf-6")
    sheet: Facing = SHELF.facing("hpl-0.8")
    usual = {"length_mm": 600.0, "bow_along_mm": -4.0, "bow_across_mm": 6.0, "days": 14}
    given = usual | {"humidity_from": 0.33, "humidity_to": 0.75} | change
    with pytest.raises(ValueError, match=told):
        Strips(board, sheet, **given)  # type: ignore[arg-type]
