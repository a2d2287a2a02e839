"""A remedy tried: what goes, what comes, what becomes of sizes and mass; the best one first."""

from decimal import Decimal
from pathlib import Path

import pytest

from evenface.finding import Change, Remedy, Severity
from evenface.job.opening import open_with_all
from evenface.job.sketch import sketch
from evenface.job.try_remedy import ranked, try_remedy
from evenface.words import said

JOB = """format = 1
[job]
name = "Tile bench"
[buildup.bench]
face = "hpl-0.8"
back = "hpl-0.8"
carrier = "birch-ply-18"
glue = "pva-d3"
edging = { wood = "ash", width = 12 }
[[stock]]
material = "birch-ply-18"
size = [2500, 1250]
price = 600
[[stock]]
material = "mdf-18"
size = [2440, 1220]
price = 250
[[piece]]
name = "Bench"
[[piece.panel]]
name = "top"
use = "top"
buildup = "bench"
size = [1400, 610]
corners = { radius = 60 }
"""


@pytest.fixture(scope="module")
def opened(tmp_path_factory):
    file = Path(tmp_path_factory.mktemp("job")) / "bench.toml"
    file.write_text(JOB)
    return open_with_all(file)


def remedy(code, *changes):
    return Remedy(code, said("Try {code}.", code=code), tuple(Change(p, "", new) for p, new in changes))


RADIUS = remedy("smaller", ("piece[0].panel[0].corners.radius", "20"))
BOARD = remedy("board", ("buildup.bench.carrier", "mdf-18"))


def test_a_smaller_radius_clears_the_corner_that_breaks_through(opened):
    assert any(one.code == "corner.through" for one in sketch(opened).findings)
    effect = try_remedy(opened, RADIUS)
    assert "corner.through" in {one.code for one in effect.gone if one.severity is Severity.STOP}
    assert effect.cleared >= 100
    assert effect.money == 0


def test_another_board_changes_mass_sheets_and_money(opened):
    effect = try_remedy(opened, BOARD)
    assert effect.mass_kg[1] > effect.mass_kg[0]
    assert effect.sheets["birch-ply-18"] == (1, 0)
    assert effect.sheets["mdf-18"] == (0, 1)
    assert effect.money == Decimal(-350)
    assert [one.part for one in effect.sizes] == ["Bench, top"]


def test_there_and_back_leaves_nothing(opened):
    same = remedy("same", ("buildup.bench.carrier", "birch-ply-18"))
    effect = try_remedy(opened, same)
    assert (effect.gone, effect.new, effect.sizes, effect.money, effect.hours) == ((), (), (), 0, 0)


def test_what_clears_most_comes_first_and_what_cannot_be_applied_is_left_out(opened):
    broken = remedy("broken", ("buildup.bench.carrier", "no such board"))
    order = [one.code for one, _ in ranked(opened, [broken, BOARD, RADIUS, RADIUS, remedy("words only")])]
    assert order == ["smaller", "board"]
