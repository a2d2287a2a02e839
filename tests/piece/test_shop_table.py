"""The tools of the shop in a job file."""

import pytest

from evenface.construction.kinds import KINDS
from evenface.errors import FileError
from evenface.materials import load_catalogue
from evenface.piece import read_job
from evenface.piece.records import Job, Shop

JOB = """
format = 1
[job]
name = "Kiln yard"
[buildup.plain]
carrier = "mdf-19"
glue = "pva-d3"
[[piece]]
name = "Shelf"
[[piece.panel]]
name = "shelf"
buildup = "plain"
size = [600, 200]
"""


def read(more: str = "") -> Job:
    return read_job(JOB + more, "job.toml", load_catalogue(), KINDS, None)


def test_without_the_table_there_are_a_bush_of_30_and_a_cutter_of_12() -> None:
    shop = read().shop
    assert shop == Shop()
    assert (shop.bush_mm, shop.cutter_mm, shop.reach_mm) == (30.0, 12.0, None)


def test_what_is_written_is_taken_in_any_unit() -> None:
    shop = read(
        '[shop]\nbush = "2.4 cm"\ncutter = "1/2 in"\ncutters = [6, 8]\nreach = 40\nsmall_bush = 11'
    ).shop
    assert (shop.bush_mm, shop.cutter_mm) == pytest.approx((24.0, 12.7))
    assert (shop.cutters_mm, shop.reach_mm, shop.small_bush_mm) == ((6.0, 8.0), 40.0, 11.0)


def test_an_unknown_tool_names_the_nearest_key() -> None:
    with pytest.raises(FileError, match="cutter"):
        read("[shop]\ncuter = 12")
