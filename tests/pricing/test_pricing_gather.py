"""From a planned job to what is priced: hours, sheets, wood and finished faces of one small job, by hand."""

import pytest
from pricing.pricing_hands import D

from evenface.job.opening import open_with_all
from evenface.job.plan import plan
from evenface.job.pricing import prices_for, to_price
from evenface.pricing.gather import finished_area_m2
from evenface.words import say

JOB = """format = 1
[job]
name = "Slab board"
currency = "EUR"
[[stock]]
material = "birch-ply-18"
size = [1000, 600]
price = 55.5
[buildup.board]
face = "hpl-0.8"
back = "hpl-0.8"
carrier = "birch-ply-18"
glue = "pva-d3"
finish = "soap"
edging = { wood = "ash", width = 15, top = "flush", bottom = "under" }
[[piece]]
name = "Board"
count = 2
  [[piece.panel]]
  name = "slab"
  buildup = "board"
  size = [900, 500]
"""


@pytest.fixture(scope="module")
def planned(tmp_path_factory):
    def of(text=JOB):
        path = tmp_path_factory.mktemp("job") / "job.toml"
        path.write_text(text, encoding="utf-8")
        opened = open_with_all(path)
        result = plan(opened, 0.3)
        return result, to_price(opened, result, prices_for(opened))

    return of


def test_one_board_from_each_sheet_at_the_price_of_the_stock_list(planned):
    _, asked = planned()
    ply = next(one for one in asked.sheets if one.material == "birch-ply-18")
    assert (ply.amount, ply.price, ply.size_mm) == (2, D("55.5"), (1000.0, 600.0))
    assert ply.area_m2 == D("1.2")
    assert ply.origin.endswith("line 12")


def test_wood_is_the_rough_volume_of_every_strip(planned):
    result, asked = planned()
    (ash,) = asked.wood
    rough = sum(
        part.count * layer.count * layer.bought_mm[0] * layer.bought_mm[1] * layer.bought_mm[2]
        for part in result.sketch.parts
        for layer in part.layers
        if layer.bought_mm
    )
    assert float(ash.amount) == pytest.approx(rough * 1e-9, rel=1e-6)
    assert float(ash.amount) > 2 * 2.8 * 0.015 * 0.0188  # more than the net strips of two boards


def test_finished_faces_are_outside_and_level_wood(planned):
    """2.8 m round; the edging seen from outside over its height, and 15 mm of it from above, not from below."""
    result, asked = planned()
    panel = result.sketch.constructions[0].panels[0]
    height = panel.edgings[0].height_mm
    assert finished_area_m2(panel) == pytest.approx(2.8 * (height + 15.0) / 1000.0)
    assert float(asked.finish[0].amount) == pytest.approx(2 * 2.8 * (height + 15.0) / 1000.0)


def test_a_panel_for_which_no_sheet_is_left_is_named(planned):
    _, asked = planned(JOB.replace("price = 55.5", "price = 55.5\ncopies = 1"))
    assert [one.amount for one in asked.sheets if one.material == "birch-ply-18"] == [1]
    assert any("birch-ply-18" in say(one) for one in asked.not_laid_out)


def test_twice_the_pieces_twice_the_hours_less_what_is_set_up_once(planned):
    two, four = (
        sum(one.minutes for one in planned(JOB.replace("count = 2", f"count = {n}"))[1].hours) for n in (2, 4)
    )
    assert 1.4 * two < four < 2.0 * two
