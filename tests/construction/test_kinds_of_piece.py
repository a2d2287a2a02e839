"""A kind of piece is one folder; what it gives is checked where it is born and reaches sizes and buying."""

import textwrap
from pathlib import Path

import pytest

from evenface.construction import Assembly, Axis, Board, Chain, Joint, Placement, Worked, construct
from evenface.construction import kinds as shelf
from evenface.errors import FileError
from evenface.materials import load_catalogue
from evenface.parts import boards_of, parts_of
from evenface.piece import read_job
from evenface.piece.records import NOTHING_MADE, Made, Role

CATALOGUE = load_catalogue()
STOOL = """
    from dataclasses import dataclass
    from evenface.construction.kind import Kind
    from evenface.construction.placed import Assembly, Axis, Board, Joint, Placement
    from evenface.finding import Finding, Severity
    from evenface.piece.forms import PanelForm, PieceForm, Size
    from evenface.words import said
    from dataclasses import replace

    @dataclass(frozen=True, kw_only=True)
    class StepForm(PieceForm):
        buildup: str
        length: Size
        height: Size

    def compose(form, composer, origin):
        seat = PanelForm(name="seat", buildup=form.buildup, size=(form.length, 240.0), use="top")
        return composer.panel(seat, origin), form.height, origin

    def build(description, ground):
        seat, height, origin = description
        thick = ground.thickness_mm(seat.buildup)
        foot = Board("foot", 2, "ash", 240.0, height - thick, 28.0, origin=origin)
        return Assembly(
            panels=(seat,), boards=(foot,),
            placements=(
                Placement("seat", (0.0, 0.0, height - thick)),
                Placement("foot", (10.0 + 28.0, 0.0, 0.0), Axis.REAR, Axis.UP, label="left"),
                Placement("foot", (seat.length_mm - 10.0, 0.0, 0.0), Axis.REAR, Axis.UP, label="right"),
            ),
            joints=(Joint("housing", ("seat", "foot"), (10.0, 0.0, height), (10.0, 240.0, height)),),
            size_mm=(seat.length_mm, 240.0, height),
        )

    def check(construction, ground):
        low = construction.arranged.size_mm[2] < 150
        found = Finding(code="step.low", severity=Severity.NOTE, origin="", at="height",
                        message=said("Low for a step."), source="this test")
        return (found,) if low else ()

    KIND = Kind("step", lambda: StepForm, compose, build, check)
"""
JOB = """\
format = 1
[job]
name = "Glaze room"
[buildup.usual]
face = "hpl-0.8"
back = "hpl-0.8"
carrier = { material = "birch-ply-18", thickness = 17.6 }
glue = "pva-d3"
[[piece]]
kind = "step"
name = "Step before the kiln"
count = 2
buildup = "usual"
length = 420
height = 140
"""


@pytest.fixture
def kinds(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    folder = tmp_path / "step_of_a_test"
    folder.mkdir()
    (folder / "__init__.py").write_text(textwrap.dedent(STOOL), encoding="utf-8")
    monkeypatch.setattr(shelf, "__path__", [*shelf.__path__, str(tmp_path)])
    return shelf.find_kinds()


def test_a_folder_is_a_kind_and_its_parts_go_the_whole_way(kinds) -> None:
    job = read_job(JOB, "job.toml", CATALOGUE, kinds)
    (built,) = construct(job, CATALOGUE, kinds)
    (seat,), (foot,) = parts_of([built]), boards_of([built])
    # 0.8 + 0.1 + 17.6 + 0.1 + 0.8 = 19.4; the foot is what is left of 140
    assert seat.finished_mm == pytest.approx((420.0, 240.0, 19.4))
    assert foot.finished_mm == pytest.approx((240.0, 120.6, 28.0))
    assert (seat.id, foot.id, seat.count, foot.count) == ("1.1", "1.2", 2, 4)
    assert foot.layers[0].role is Role.BOARD
    assert foot.layers[0].blank_mm[0] > foot.layers[0].net_mm[0]
    assert [finding.code for finding in built.findings] == ["step.low"]
    assert built.findings[0].piece == "Step before the kiln"


def test_a_measured_board_moves_the_parts_that_stand_on_it(kinds) -> None:
    job = read_job(JOB.replace(", thickness = 17.6", ""), "job.toml", CATALOGUE, kinds)
    heights = []
    for measured in (17.2, 18.1):
        (built,) = construct(job, CATALOGUE, kinds, Made(thicknesses={"birch-ply-18": measured}))
        heights.append(built.boards[0].board.width_mm)
    assert heights[0] - heights[1] == pytest.approx(0.9)
    assert NOTHING_MADE.thicknesses == {}


def test_a_slip_in_the_table_of_a_kind_has_its_line(kinds) -> None:
    with pytest.raises(FileError) as caught:
        read_job(JOB.replace("height = 140", "hieght = 140"), "job.toml", CATALOGUE, kinds)
    assert "hieght" in str(caught.value)
    assert "job.toml, line 15" in str(caught.value)


def test_a_part_turned_upright_stands_where_its_corner_says() -> None:
    left = Placement("side", (18.0, 0.0, 0.0), Axis.UP, Axis.REAR)
    assert left.z_axis is Axis.LEFT
    assert left.box(720.0, 560.0, 18.0) == ((0.0, 0.0, 0.0), (18.0, 560.0, 720.0))
    assert left.point(1.0, 2.0, 3.0) == (15.0, 2.0, 1.0)


@pytest.mark.parametrize("one", Axis)
@pytest.mark.parametrize("other", Axis)
def test_every_pair_of_directions_makes_a_right_handed_part_or_none(one: Axis, other: Axis) -> None:
    parallel = one.vector == other.vector or one.vector == tuple(-c for c in other.vector)
    if parallel:
        with pytest.raises(ValueError, match="right angles"):
            Placement("side", (0.0, 0.0, 0.0), one, other)
        return
    placed = Placement("side", (0.0, 0.0, 0.0), one, other)
    rows = (one.vector, other.vector, placed.z_axis.vector)
    (a, b, c), (d, e, f), (g, h, i) = rows
    assert a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g) == 1.0


def test_a_row_that_does_not_close_is_refused() -> None:
    Chain("width", Axis.RIGHT, (("side", 19.4), ("door", 300.3)), 319.7)
    with pytest.raises(ValueError, match="the row gives"):
        Chain("width", Axis.RIGHT, (("side", 19.4), ("door", 300.3)), 319.8)


@pytest.mark.parametrize(
    ("wrong", "told"),
    [
        ({"placements": (Placement("leg", (0.0, 0.0, 0.0)),)}, "no part of the piece is called 'leg'"),
        ({"placements": (Placement("rail", (0.0, 0.0, 0.0)),)}, "2 made, 1 placed"),
        ({"worked": (Worked("leg", "groove", "top", 6.0),)}, "no part of the piece is called 'leg'"),
        ({"joints": (Joint("dowel", ("rail", "leg"), (0, 0, 0), (1, 0, 0)),)}, "no part of the piece"),
    ],
)
def test_an_assembly_that_speaks_of_what_is_not_there_is_refused(wrong, told) -> None:
    rail = Board("rail", 2, "ash", 300.0, 40.0, 18.0)
    with pytest.raises(ValueError, match=told):
        Assembly(panels=(), boards=(rail,), **wrong)
