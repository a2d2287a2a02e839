"""A drawing in another unit is told as that, once; holes drawn in an outline are cut-outs of the panel."""

from pathlib import Path

import pytest
from jobs_by_hand import built, edge, job, panel

from evenface.checks.outline import check_outline
from evenface.checks.question import Asked
from evenface.finding import Finding, Severity
from evenface.job.opening import open_with_all
from evenface.parts import part_of
from evenface.piece.records import Side
from evenface.shape.build import rectangle
from evenface.shape.outline import Outline
from evenface.words import say

JOB = """format = 1
[job]
name = "Shelf for jars"
place = "copenhagen"
room = "heated-home"
[buildup.b]
face = "hpl-0.8"
back = "hpl-0.8"
carrier = "birch-ply-21"
glue = "pva-d3"
edging = { wood = "ash", width = 12 }
[[piece]]
name = "Shelf"
  [[piece.panel]]
  name = "shelf"
  buildup = "b"
  size = [900, 400]
  outline = { file = "shelf.svg" }
"""


def found(outline: Outline) -> list[Finding]:
    whole = job(panel(*(edge(side) for side in Side), outline=outline))
    (one,), _ = built(whole)
    return list(check_outline(Asked(whole, one, part_of(one, "1.1"))))


@pytest.mark.parametrize(
    ("factor", "unit"),
    [
        (1000.0, "m"),
        (304.8, "ft"),
        (25.4, "in"),
        (10.0, "cm"),
        (96 / 25.4, "mm"),
        (1 / 25.4, "mm"),
        (0.001, "mm"),
    ],
)
def test_the_unit_that_was_meant_is_named(factor: float, unit: str) -> None:
    """1000 × 500 drawn so many times too small or too large: one finding, not also an edging that cannot follow."""
    (only,) = found(rectangle(1000 / factor, 500 / factor))
    assert (only.code, only.severity) == ("outline.size", Severity.STOP)
    assert f'unit = "{unit}"' in say(only.remedies[0].message)


def test_another_size_is_no_other_unit() -> None:
    (only,) = found(rectangle(900, 500))
    assert only.severity is Severity.WEIGH
    assert [remedy.code for remedy in only.remedies] == ["outline.move"]
    (turned,) = found(rectangle(500, 1000))  # the factors differ along and across
    assert turned.severity is Severity.WEIGH


def test_a_hole_drawn_in_the_outline_is_a_cut_out(tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text(JOB)
    drawing = '<path d="M0 0H900V400H0Z"/><circle cx="300" cy="150" r="40"/>'
    head = 'width="900mm" height="400mm" viewBox="0 0 900 400"'
    (tmp_path / "shelf.svg").write_text(f'<svg xmlns="http://www.w3.org/2000/svg" {head}>{drawing}</svg>')
    (piece,) = open_with_all(tmp_path / "job.toml", None).job.pieces
    (one,) = piece.description  # type: ignore[misc]
    assert one.outline is not None
    assert one.outline.holes == ()
    (hole,) = one.cutouts
    assert hole.name == "hole 1"
    assert hole.outline.bounds == pytest.approx((260, 210, 340, 290))
