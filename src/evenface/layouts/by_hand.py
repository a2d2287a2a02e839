"""Lists for a sheet that lies still: guide rail, knife and shears. They free the same pieces as the plan's own cuts.

Cuts of the plan that lie in one line are made at once: the edges first, then of each stage the longest first. Each
line is measured from the reference edge to the side of the cut on which the piece lies: saw or knife takes away
beyond it.
"""

from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from evenface.layouts.handling import box_of, played, split_by
from evenface.layouts.records import Cut, Placed, Sheet
from evenface.layouts.stock_records import Axis
from evenface.units import grid_down

type Tool = Literal["rail", "joined rails", "knife", "shears"]


@dataclass(frozen=True, slots=True)
class HandCut:
    """A cut of the rail, knife or shears list: as measured from the reference edge of the sheet that lies still.

    measure : from the reference edge (lower or left) to the line. length : of the cut. settings : how often
    rail or straightedge is laid down for it. of : numbers of the plan's cuts made in this one line. beyond : the
    piece lies beyond the line, waste before it; else it lies before it. off : parts that are free after it.
    """

    number: int
    axis: Axis
    measure: int
    from_: int
    to_: int
    tool: Tool
    settings: int
    of: tuple[int, ...]
    beyond: bool = False
    off: tuple[str, ...] = ()

    @property
    def length(self) -> int:
        """Of the line cut."""
        return self.to_ - self.from_


def rail_order(sheet: Sheet, rail_mm: float) -> tuple[HandCut, ...]:
    """The same cuts with a guide rail on a sheet that lies still: cuts in one line at once, longest first.

    A line longer than the rail is cut in several lengths of it, or with two joined.
    """
    rail = grid_down(rail_mm)
    return _by_hand(
        sheet,
        sheet,
        lambda length: ("rail" if length <= rail else "joined rails", max(1, -(-length // rail))),
    )


def shears_order(sheet: Sheet, shears_mm: float, trims: bool = False) -> tuple[HandCut, ...]:
    """For linoleum and thin laminate: strips with knife and straightedge, shorter cuts with the shears.

    trims : whether the edges of the sheet are cut off first; factory edges of a knife-cut sheet usually stay.
    """
    longest = grid_down(shears_mm)
    plain = sheet if trims else replace(sheet, cuts=tuple(cut for cut in sheet.cuts if cut.stage > 0))
    return _by_hand(plain, sheet, lambda length: ("shears" if length <= longest else "knife", 1))


def _by_hand(sheet: Sheet, whole: Sheet, tool: Callable[[int], tuple[Tool, int]]) -> tuple[HandCut, ...]:
    made: list[HandCut] = []
    bound = _bounding(whole)
    for stage in sorted({cut.stage for cut in sheet.cuts}):
        lines = _lines([cut for cut in sheet.cuts if cut.stage == stage])
        for line in sorted(lines, key=lambda cuts: (-_length(cuts) if stage else 0, cuts[0].number)):
            low, high = min(cut.from_ for cut in line), max(cut.to_ for cut in line)
            word, settings = tool(high - low)
            numbers = tuple(cut.number for cut in line)
            beyond = not any(_before(piece, cut) for piece in sheet.placed for cut in line)
            at = line[0].position + (line[0].kerf if beyond else 0)
            made.append(HandCut(len(made) + 1, line[0].axis, at, low, high, word, settings, numbers, beyond))
    return _with_parts(made, sheet, bound)


def _before(piece: Placed, cut: Cut) -> bool:
    """Whether a piece lies on the side of the cut that is measured from, along its run."""
    x0, y0, x1, y1 = box_of(piece)
    high, low, end = (y1, x0, x1) if cut.axis == "along" else (x1, y0, y1)
    return high <= cut.position and low < cut.to_ and cut.from_ < end


def _bounding(sheet: Sheet) -> Mapping[int, set[int]]:
    """By the place of each piece in the sheet, the numbers of the cuts that run along its sides."""
    found: dict[int, set[int]] = defaultdict(set)
    boxes = [box_of(piece) for piece in sheet.placed]
    for cut, box, _ in played(sheet):
        for x0, y0, x1, y1 in split_by(cut, box):
            for n, (left, low, right, high) in enumerate(boxes):
                if not (x0 <= left and y0 <= low and right <= x1 and high <= y1):
                    continue
                sides = (low, high) if cut.axis == "along" else (left, right)
                if cut.position in sides[1:] or cut.position + cut.kerf in sides[:1]:
                    found[n].add(cut.number)
    return found


def _with_parts(made: Sequence[HandCut], sheet: Sheet, bound: Mapping[int, set[int]]) -> tuple[HandCut, ...]:
    """The cuts with what comes off at each: a piece is free when the last cut along its sides is made."""
    stands = {number: at for at, cut in enumerate(made) for number in cut.of}
    off: dict[int, list[str]] = defaultdict(list)
    for n, piece in enumerate(sheet.placed):
        last = max((stands[number] for number in bound.get(n, ()) if number in stands), default=0)
        off[last].append(piece.part)
    return tuple(replace(cut, off=tuple(off[at])) for at, cut in enumerate(made))


def _length(cuts: Sequence[Cut]) -> int:
    return max(cut.to_ for cut in cuts) - min(cut.from_ for cut in cuts)


def _lines(cuts: Sequence[Cut]) -> list[list[Cut]]:
    """Cuts of one stage that lie in one line, end to end a kerf apart at most: one line of the rail."""
    lines: list[list[Cut]] = []
    for cut in sorted(cuts, key=lambda one: (one.axis, one.position, one.from_)):
        last = lines[-1][-1] if lines else None
        if (
            last is not None
            and (last.axis, last.position, last.kerf) == (cut.axis, cut.position, cut.kerf)
            and 0 <= cut.from_ - last.to_ <= cut.kerf
        ):
            lines[-1].append(cut)
        else:
            lines.append([cut])
    return lines
