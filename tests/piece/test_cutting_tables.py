"""`[cutting]`, boards, sets, seams and spoiled parts: read as written, each slip named."""

from decimal import Decimal

import pytest

from evenface.construction.kinds import KINDS
from evenface.errors import FileError
from evenface.materials import load_catalogue
from evenface.piece import read_job, read_made
from evenface.piece.cutting_records import USUAL_AIMS, Defect
from evenface.piece.records import Job, Panel, Role, Side

KNOWN = load_catalogue()
HEAD = """\
format = 1
[job]
name = "Glaze room"
[buildup.usual]
face = "hpl-0.8"
carrier = "birch-ply-18"
glue = "pva-d3"
edging = { wood = "ash", width = 14 }
"""
PANEL = """\
[[piece]]
name = "Bench"
  [[piece.panel]]
  name = "top"
  buildup = "usual"
  size = [1800, 650]
"""
TINY = HEAD + PANEL
BOARD = """\
[[stock]]
material = "ash"
form = "board"
size = [2600, 210]
thickness = 34
far_width = 180
wane = 12
price = 240
  [[stock.defect]]
  at = [900, 60]
  size = [60, 40]
"""


def read(text: str) -> Job:
    return read_job(text, "job.toml", KNOWN, KINDS, None)


def panel(text: str) -> Panel:
    (piece,) = read(text).pieces
    assert isinstance(piece.description, tuple)
    one = piece.description[0]
    assert isinstance(one, Panel)
    return one


def test_what_is_not_written_is_as_usual() -> None:
    cutting = read(TINY).cutting
    assert (cutting.aims, cutting.least_offcut_mm, cutting.lift_kg) == (USUAL_AIMS, (100.0, 300.0), 25.0)


def test_aims_limits_and_the_merchant_are_read() -> None:
    text = '[cutting]\naims = ["fewest sheets", "fewest cuts"]\nlift = 18\noffcut_value = 40\nboards = "rip first"\n'
    cutting = read(HEAD + text + "merchant = { kerf = 5, least_strip = 80 }\n" + PANEL).cutting
    assert cutting.aims == ("fewest sheets", "fewest cuts")
    assert (cutting.lift_kg, cutting.offcut_value, cutting.rip_first) == (18.0, Decimal(40), True)
    assert (cutting.merchant.kerf_mm, cutting.merchant.least_strip_mm) == (5.0, 80.0)


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("aims = []", "aims"),
        ('aims = ["fewest cuts", "fewest cuts"]', "aims"),
        ('aims = ["prettiest"]', "aims"),
        ("lift = 0", "lift"),
        ("blade = 3", "blade"),
    ],
)
def test_slips_are_named(line: str, told: str) -> None:
    with pytest.raises(FileError, match=told):
        read(f"{HEAD}[cutting]\n{line}\n{PANEL}")


def test_a_board_with_its_faults() -> None:
    (item,) = read(HEAD + BOARD + PANEL).stock
    assert (item.form, item.board.thickness_mm, item.board.far_width_mm) == ("board", 34.0, 180.0)
    assert item.board.wane_mm == (12.0, 12.0)
    assert item.board.defects == (Defect((900.0, 60.0), (60.0, 40.0), "knot"),)


def test_sets_and_seams_of_panel_and_build_up() -> None:
    named = HEAD.replace('glue = "pva-d3"\n', 'glue = "pva-d3"\nsame_sheet = "all doors"\n')
    assert panel(named + PANEL).same_sheet == "all doors"
    batch = HEAD.replace('glue = "pva-d3"\n', 'glue = "pva-d3"\nsame_batch = "doors"\n')
    assert panel(batch + PANEL).same_batch == "doors"
    assert panel(batch + PANEL + '  same_batch = "pair"\n').same_batch == "pair"
    assert panel(named + PANEL + '  same_sheet = "pair"\n').same_sheet == "pair"
    assert panel(TINY).seams_mm == ()
    assert panel(TINY + "  seams = [900]\n").seams_mm == (900.0,)
    assert panel(TINY + '  seams = "none"\n').seams_mm is None


def test_spoiled_parts_of_the_made_file() -> None:
    text = 'format = 1\n[[spoiled]]\npiece = "Bench"\npanel = "top"\nlayer = "edging"\nedge = "front"\ncount = 2\n'
    (one,) = read_made(text, "job.made.toml", read(TINY), KNOWN).spoiled
    assert (one.piece, one.panel, one.role, one.side, one.count) == (
        "Bench",
        "top",
        Role.EDGING,
        Side.FRONT,
        2,
    )
    for old, new, told in (("Bench", "Bank", "Bank"), ('"edging"', '"face"', "edge")):
        with pytest.raises(FileError, match=told):
            read_made(text.replace(old, new), "job.made.toml", read(TINY), KNOWN)
