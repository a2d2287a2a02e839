"""A board of solid wood lying on the bench with its show face up, and all that is worked into it.

The left end of a board that is jointed at its ends is drawn large: from above, and from its front edge where tenons
and slots lie in the thickness. What runs along a board, as a groove or a rebate, shows where the board is cut across.
"""

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
from evenface.words import ENGLISH, Manner, Own, said, say

PAPER_MM: Final = (165.0, 110.0)
END_PAPER_MM: Final = (165.0, 170.0)
SMALL_PAPER_MM: Final = (90.0, 85.0)
END_MM: Final = 60.0
"""So much of an end with fingers is drawn large, or five times as much as its slots are deep."""
BEYOND_MM: Final = 15.0
"""So much of a board is drawn beyond a tenon or slot."""
SLICE_MM: Final = 10.0
"""How long the slice of a board is that shows what runs along it."""
IN_THE_THICKNESS: Final = ("bridle slot", "tenon cheek", "tenon")
"""What is worked into an end and shows from the edge."""
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
    alone = _alone(construction, board, worked, board.name, Look.PLAN)
    under = [_beneath(board, one) for one in worked if one.face == "bottom"]
    tried = (view_of(alone, Look.PLAN, scale, {board.name: number}, manner, under) for scale in scales)
    return (
        first_fitting(tried, paper_mm),
        *_ends(construction, board, worked, number, manner, scales),
        *_across(construction, board, worked, number, manner, scales),
    )


def _ends(
    construction: Construction,
    board: BuiltBoard,
    worked: Sequence[Worked],
    number: str,
    manner: Manner,
    scales: Sequence[float],
) -> Iterator[Scene]:
    """The left end large, from above where it shows there, from the front edge where its thickness is cut."""
    fingers = [one for one in worked if one.kind == "finger slot"]
    upright = [one for one in worked if one.kind in IN_THE_THICKNESS]
    if fingers or upright:
        deep = max(one.depth_mm for one in fingers or upright)
        long = max(END_MM, 5 * deep) if fingers else deep + BEYOND_MM
        if board.board.length_mm >= 2 * long:
            short, kept = _left_end(board, worked, long)
            for look in (Look.PLAN, Look.FRONT) if upright else (Look.PLAN,):
                called = Own(say(said("{name}, left end", name=board.name), manner))
                alone = _alone(construction, short, kept, called, look)
                tried = (
                    view_of(alone, look, scale, {board.name: number}, manner, sawn_off=True)
                    for scale in scales
                )
                yield first_fitting(tried, SMALL_PAPER_MM if upright and look is Look.PLAN else END_PAPER_MM)


def _across(
    construction: Construction,
    board: BuiltBoard,
    worked: Sequence[Worked],
    number: str,
    manner: Manner,
    scales: Sequence[float],
) -> Iterator[Scene]:
    """The board cut across in its middle, where something runs along it there."""
    middle = board.board.length_mm / 2
    along = [
        replace(one, x0_mm=0.0, x1_mm=SLICE_MM)
        for one in worked
        if one.face not in ("left", "right")
        and one.x0_mm < middle < one.x1_mm
        and one.x1_mm - one.x0_mm > middle
    ]
    if along:
        short = replace(board, board=replace(board.board, length_mm=SLICE_MM))
        called = Own(say(said("{name}, cut across", name=board.name), manner))
        alone = _alone(construction, short, tuple(along), called, Look.SIDE)
        tried = (view_of(alone, Look.SIDE, scale, {board.name: number}, manner) for scale in scales)
        yield first_fitting(tried, END_PAPER_MM)


def _beneath(board: BuiltBoard, one: Worked) -> Box:
    """The rectangle of a hollow in the lower face, as far as it lies on the board."""
    long, wide = board.board.length_mm, board.board.width_mm
    return max(0.0, one.x0_mm), max(0.0, one.y0_mm), min(long, one.x1_mm), min(wide, one.y1_mm)


def _left_end(
    board: BuiltBoard, worked: Sequence[Worked], long: float
) -> tuple[BuiltBoard, tuple[Worked, ...]]:
    """The same board as if it were sawn off that far behind its left end."""
    kept = tuple(
        replace(one, number=1) if one.face == "left" else replace(one, x1_mm=min(one.x1_mm, long))
        for one in worked
        if one.face == "left" or one.x0_mm < long
    )
    return replace(board, board=replace(board.board, length_mm=long)), kept


def _alone(
    construction: Construction, board: BuiltBoard, worked: tuple[Worked, ...], name: str, look: Look
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
            chains=tuple(_rows(worked, size, (look.right, look.up), whole=name == board.name)),
            size_mm=size,
        ),
    )


def _rows(
    worked: Sequence[Worked], size: tuple[float, float, float], ways: Sequence[int], whole: bool
) -> Iterator[Chain]:
    """For each kind of hollow a row along the board (0), across it (1) or up it (2), where it ends inside the board.

    On the whole board where a groove stops near an end with fingers is left to the drawing of the end.
    """
    kinds = dict.fromkeys(one.kind for one in worked)
    for kind in kinds:
        places = [end.space(size) for one in worked if one.kind == kind for end in both_ends(one)]
        for way in ways:
            ends = _stations([place[way] for place in places], size[way])
            if len(ends) > 2 and not (whole and way == 0 and kind == "groove" and "finger slot" in kinds):
                members = tuple((kind, high - low) for low, high in pairwise(ends))
                yield Chain(f"{kind} {way}", (Axis.RIGHT, Axis.REAR, Axis.UP)[way], members, size[way])


def _stations(stretches: Sequence[Stretch], size: float) -> list[float]:
    """Ends of the stretches and of the board in order, those that are the same but for rounding once."""
    ends = sorted({0.0, size, *(end for stretch in stretches for end in stretch if 0.0 <= end <= size)})
    kept = [ends[0]]
    for end in ends[1:-1]:
        if end - kept[-1] > _FINEST_MM and size - end > _FINEST_MM:
            kept.append(end)
    return [*kept, size]
