"""Rough boards of the stock list as a demand: blanks ripped a little wide, thicknesses with what the planer takes."""

from collections import Counter
from collections.abc import Mapping, Sequence
from typing import Final, NamedTuple

from evenface.layouts.records import Blank, Demand, Saw
from evenface.layouts.stock_records import Flaw, StockSize, Timber
from evenface.piece.cutting_records import Defect
from evenface.piece.records import Job, StockItem
from evenface.units import grid_down, grid_up

SNIPE_MM: Final = 50.0
"""COMMON PRACTICE: what a thicknesser digs into at each end of a stick, cut off."""


class Wanted(NamedTuple):
    """One piece of wood: whose it is, its length, the section it is planed to (hundredths of a mm)."""

    id: str
    part: str
    layer: str
    length: int
    width: int
    height: int


def is_rough(item: StockItem) -> bool:
    """Whether the stock list describes this board: its thickness, taper, wane or faults."""
    board = item.board
    told = board.thickness_mm or board.far_width_mm or board.defects or any(board.wane_mm)
    return item.form == "board" and item.length_mm is not None and bool(told)


def board_demand(
    job: Job, wood: str, wanted: Sequence[Wanted], items: Sequence[StockItem], sets: Mapping[str, str]
) -> Demand:
    """All pieces of one wood, to be cut from the boards listed. Grain runs along every piece.

    sets : by part, the name of the set whose strips match.
    Strips of panels that are to come from one sheet come from one board as well.
    What is to be planed is added in width and thickness; a board without a number of copies is there once.
    """
    wide, thick = grid_up(job.cutting.planed_width_mm), grid_up(job.cutting.planed_thickness_mm)
    blanks = tuple(
        Blank(
            one.id,
            one.part,
            one.layer,
            one.length,
            one.width + wide,
            count,
            thickness=one.height + thick,
            same=sets.get(one.part, ""),
        )
        for one, count in Counter(wanted).items()
    )
    stock = tuple(_board(job, wood, number, item) for number, item in enumerate(items, start=1))
    saw = Saw(kerf=grid_up(job.saw.kerf_mm), stages=None, least_offcut=(2_000, 30_000))
    return Demand(wood, blanks, stock, saw, aims=job.cutting.aims)


def _board(job: Job, wood: str, number: int, item: StockItem) -> StockSize:
    board = item.board
    far = None if board.far_width_mm is None else grid_down(board.far_width_mm)
    flaws = tuple(flaw_of(defect) for defect in board.defects)
    return StockSize(
        id=item.stock_id(wood, number),
        material=wood,
        form="board",
        length=grid_down(item.length_mm or 0.0),
        width=grid_down(max(item.width_mm, board.far_width_mm or 0.0)),
        copies=item.copies or 1,
        price=item.price,
        trim=grid_up(SNIPE_MM),
        thickness=grid_down(board.thickness_mm or 0.0),
        timber=Timber(
            grid_down(item.width_mm),
            far,
            (grid_up(board.wane_mm[0]), grid_up(board.wane_mm[1])),
            flaws,
            job.cutting.rip_first,
        ),
    )


def flaw_of(defect: Defect) -> Flaw:
    """A defect on the grid of layouts, no smaller than told."""
    at, size = defect.at_mm, defect.size_mm
    x, y = grid_down(at[0]), grid_down(at[1])
    return Flaw(x, y, grid_up(at[0] + size[0]) - x, grid_up(at[1] + size[1]) - y, defect.kind)
