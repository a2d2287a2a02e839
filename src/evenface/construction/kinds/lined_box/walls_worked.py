"""What is worked into a wall, in the order it is done: lining cleared, slots, groove for the bottom.

Part coordinates of a wall: x along its length, y from its lower edge upwards, its top the lined face.
"""

from collections.abc import Iterator
from math import ceil

from evenface.construction.kinds.lined_box.records import LinedBox
from evenface.construction.kinds.lined_box.sizes import GROOVE_LOOSE_MM, BoxSizes
from evenface.construction.placed import Worked
from evenface.words import NOTHING, Said, said


def worked_into(box: LinedBox, sizes: BoxSizes, name: str, pair: str) -> Iterator[Worked]:
    """Everything but the housings of dividers."""
    yield from _cleared(box, sizes, name, pair)
    yield from _slots(box, sizes, name, pair)
    yield _groove(box, sizes, name, pair)


def _cleared(box: LinedBox, sizes: BoxSizes, name: str, pair: str) -> Iterator[Worked]:
    """The lining taken off both ends down to the wood before any slot is cut."""
    length, height, wide = sizes.length_mm(pair), sizes.outside[2], sizes.cleared[pair]
    other = sizes.wood_mm(sizes.other(pair))
    for end, x0, x1 in (("left", 0.0, wide.width_mm), ("right", length - wide.width_mm, length)):
        yield Worked(
            name, "lining cleared", "top", sizes.lining_mm, x0, 0.0, x1, height,
            joint="fingers",
            said=said(
                "Before the slots: lining and glue off the {end:word} end, {wide:mm2} wide and {deep:mm2} deep, down "
                "to clean wood{how}. Set the width by the other wall's wood, {other:mm2}{more}.",
                end=end, wide=wide.width_mm, deep=sizes.lining_mm, other=other,
                how=_bevel(wide.width_mm, wide.face_mm), more=_more(wide.width_mm - other, sizes),
            ), origin=f"{box.origin}.lining.corner",
        )  # fmt: skip


def _bevel(wood: float, face: float) -> Said:
    if face <= wood:
        return NOTHING
    return said(", then the lining's edge bevelled 45°, {face:mm2} from the end on its face", face=face)


def _more(more: float, sizes: BoxSizes) -> Said:
    if more <= 1e-9:
        return NOTHING
    if abs(more - sizes.lining_mm) < 1e-9:
        return said(", and the {more:mm2} of the lining that runs past", more=more)
    return said(", and {more:mm2}", more=more)


def _slots(box: LinedBox, sizes: BoxSizes, name: str, pair: str) -> Iterator[Worked]:
    """Slots through the wood at both ends, as deep as the other wall's wood is thick."""
    deep, thick, height = sizes.wood_mm(sizes.other(pair)), sizes.wood_mm(pair), sizes.outside[2]
    slots = sizes.joint.slots_of(pair)
    for number, (low, high) in enumerate(slots, start=1):
        at_edge = said(", open at the lower edge") if low <= 0.0 else NOTHING
        if high >= height:
            at_edge = said(", open at the upper edge")
        yield Worked(
            name, "finger slot", "left", deep, low, 0.0, high, thick, number=2, joint="fingers",
            said=said(
                "Slot {number:count} of {all:count}, at both ends: {wide:mm2} wide and {deep:mm} deep, {low:mm2} to "
                "{high:mm2} above the lower edge{edge}. {passes}",
                number=number, all=len(slots), wide=high - low, deep=deep, low=low, high=high, edge=at_edge,
                passes=_passes(high - low, box.fingers.cutter),
            ), origin=f"{box.origin}.fingers",
        )  # fmt: skip


def _passes(slot: float, cutter: float) -> Said:
    passes = max(1, ceil(slot / cutter - 1e-6))
    if passes == 1:
        return said("One pass of the {cutter:mm2} cutter.", cutter=cutter)
    return said("{passes:count} passes of the {cutter:mm2} cutter.", passes=passes, cutter=cutter)


def groove_of(box: LinedBox, sizes: BoxSizes, pair: str) -> tuple[float, float, bool]:
    """Where the groove of a wall begins and ends, and whether it is stopped.

    It runs out at the ends where these are a slot that the other wall's finger fills; else it stops in the wood
    of the joint as deep as the bottom reaches.
    """
    low, high = sizes.up_mm, sizes.up_mm + sizes.bottom_mm + GROOVE_LOOSE_MM
    length = sizes.length_mm(pair)
    if sizes.joint.owner_over(low, high) == sizes.other(pair):
        return 0.0, length, False
    stop = max(sizes.wood_mm(sizes.other(pair)) - box.bottom.groove, 0.0)
    return stop, length - stop, True


def _groove(box: LinedBox, sizes: BoxSizes, name: str, pair: str) -> Worked:
    start, end, stopped = groove_of(box, sizes, pair)
    wide, deep = sizes.bottom_mm + GROOVE_LOOSE_MM, box.bottom.groove
    how = (
        said("stopped {stop:mm2} from both ends, the ends squared", stop=start)
        if stopped
        else said("run out at both ends, where a finger of the other wall covers it")
    )
    return Worked(
        name, "groove", "top", deep + sizes.lining_mm, start, sizes.up_mm, end, sizes.up_mm + wide,
        joint="bottom",
        said=said(
            "Groove for the bottom {wide:mm2} wide, {up:mm} above the lower edge, {deep:mm} deep in the wood "
            "({whole:mm2} from the lining); {how}.",
            wide=wide, up=sizes.up_mm, deep=deep, whole=deep + sizes.lining_mm, how=how,
        ), origin=f"{box.origin}.bottom",
    )  # fmt: skip
