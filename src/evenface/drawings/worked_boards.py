"""A board of solid wood lying on the bench with its show face up, and all that is worked into it."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

from evenface.construction import Arranged, Axis, BuiltBoard, Chain, Construction, Placement, Worked
from evenface.drawings.draft import first_fitting
from evenface.drawings.placed_parts import TAKEN_OUT, both_ends
from evenface.drawings.plan import SCALES
from evenface.drawings.scene import Scene
from evenface.drawings.sight import Look
from evenface.drawings.whole import view_of
from evenface.shape.segment import Box
from evenface.words import ENGLISH, Manner

PAPER_MM: Final = (165.0, 110.0)
END_PAPER_MM: Final = (165.0, 170.0)
END_MM: Final = 60.0
"""So much of an end with fingers is drawn large, or five times as much as its slots are deep."""
_FINEST_MM: Final = 0.01
type Stretch = tuple[float, float]


def worked_board_of(
    construction: Construction,
    board: BuiltBoard,
    number: str,
    manner: Manner = ENGLISH,
    paper_mm: tuple[float, float] = PAPER_MM,
    scales: Sequence[float] = SCALES,
) -> tuple[Scene, ...]:
    """The board at the largest of the scales at which it lies on the paper, and the left end of one with fingers.

    Nothing where nothing is worked into it. x runs to the right, y upwards on the sheet. Rows of sizes say where
    each hollow begins and ends; those in the lower face are dashed.
    """
    worked = tuple(
        one for one in construction.arranged.worked if one.part == board.name and one.kind in TAKEN_OUT
    )
    if not worked:
        return ()
    slots = [one for one in worked if one.kind == "finger slot"]
    pieces = [(board, worked, board.name, paper_mm)]
    if slots:
        deep = max(one.depth_mm for one in slots)
        pieces.append((*_left_end(board, worked, deep), END_PAPER_MM))
    scenes = []
    for made, hollows, name, paper in pieces:
        alone = _alone(construction, made, hollows, name)
        under = [_beneath(made, one) for one in hollows if one.face == "bottom"]
        tried = (view_of(alone, Look.PLAN, scale, {board.name: number}, manner, under) for scale in scales)
        scenes.append(first_fitting(tried, paper))
    return tuple(scenes)


def _beneath(board: BuiltBoard, one: Worked) -> Box:
    """The rectangle of a hollow in the lower face, as far as it lies on the board."""
    long, wide = board.board.length_mm, board.board.width_mm
    return max(0.0, one.x0_mm), max(0.0, one.y0_mm), min(long, one.x1_mm), min(wide, one.y1_mm)


def _left_end(
    board: BuiltBoard, worked: Sequence[Worked], deep: float
) -> tuple[BuiltBoard, tuple[Worked, ...], str]:
    """The same board as if it were sawn off a little behind its left end."""
    long = min(max(END_MM, 5 * deep), board.board.length_mm)
    kept = tuple(
        replace(one, number=1) if one.kind == "finger slot" else replace(one, x1_mm=min(one.x1_mm, long))
        for one in worked
        if one.face == "left" or one.x0_mm < long
    )
    short = replace(board, board=replace(board.board, length_mm=long))
    return short, kept, f"{board.name}, left end"


def _alone(
    construction: Construction, board: BuiltBoard, worked: tuple[Worked, ...], name: str
) -> Construction:
    """The board as a piece of its own, lying with its show face up."""
    size = (board.board.length_mm, board.board.width_mm, board.board.over_mm)
    return Construction(
        replace(construction.piece, name=name),
        (),
        boards=(board,),
        arranged=Arranged(
            (Placement(board.name, (0.0, 0.0, 0.0)),),
            worked=worked,
            chains=tuple(_rows(worked, size, (1,) if name != board.name else (0, 1))),
            size_mm=size,
        ),
    )


def _rows(worked: Sequence[Worked], size: tuple[float, float, float], ways: Sequence[int]) -> Iterator[Chain]:
    """For each kind of hollow a row along the board (0) and one across it (1), where it ends inside the board.

    Where a groove stops near an end with fingers stands in the table alone, for the rows would be too many.
    """
    kinds = dict.fromkeys(one.kind for one in worked)
    for kind in kinds:
        places = [_place(end, size) for one in worked if one.kind == kind for end in both_ends(one)]
        for way in ways:
            ends = _stations([place[way] for place in places], size[way])
            if len(ends) > 2 and not (way == 0 and kind == "groove" and "finger slot" in kinds):
                members = tuple((kind, high - low) for low, high in pairwise(ends))
                yield Chain(f"{kind} {way}", (Axis.RIGHT, Axis.REAR)[way], members, size[way])


def _place(one: Worked, size: tuple[float, float, float]) -> tuple[Stretch, Stretch]:
    """Where it lies along x and along y of the board."""
    length, width, _ = size
    match one.face:
        case "front":
            return (one.x0_mm, one.x1_mm), (0.0, one.depth_mm)
        case "rear":
            return (one.x0_mm, one.x1_mm), (width - one.depth_mm, width)
        case "left":
            return (0.0, one.depth_mm), (one.x0_mm, one.x1_mm)
        case "right":
            return (length - one.depth_mm, length), (one.x0_mm, one.x1_mm)
        case _:
            return (one.x0_mm, one.x1_mm), (one.y0_mm, one.y1_mm)


def _stations(stretches: Sequence[Stretch], size: float) -> list[float]:
    """Ends of the stretches and of the board in order, those that are the same but for rounding once."""
    ends = sorted({0.0, size, *(end for stretch in stretches for end in stretch if 0.0 <= end <= size)})
    kept = [ends[0]]
    for end in ends[1:-1]:
        if end - kept[-1] > _FINEST_MM and size - end > _FINEST_MM:
            kept.append(end)
    return [*kept, size]
