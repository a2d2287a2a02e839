"""The blanks of a facing or carrier that is joined from several, each at its place in the layout."""

from collections.abc import Sequence

from evenface.layouts.records import Blank
from evenface.parts.seams import Seamed
from evenface.units import grid_up


def joined_blanks(whole: Blank, seamed: Seamed) -> list[Blank]:
    """One blank for each part of the joined sheet, in order; sizes hold the allowance at the seams."""
    blanks = []
    for number, size_mm in enumerate(seamed.sizes_mm, start=1):
        size = grid_up(size_mm)
        blanks.append(
            Blank(
                id=f"{whole.id} {number}/{len(seamed.sizes_mm)}",
                part=whole.part,
                layer=whole.layer,
                length=size if seamed.along_length else whole.length,
                width=whole.width if seamed.along_length else size,
                count=whole.count,
                may_turn=False,
                seam=whole.id,
            )
        )
    return blanks


def seam_sum(blanks: Sequence[Blank], seam: str, along_length: bool) -> int:
    """What the blanks of one seam measure together, the way they are joined."""
    return sum((one.length if along_length else one.width) for one in blanks if one.seam == seam)
