"""Recess and insert cut with two guides from one template, so that they fit with a stated gap."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from evenface.words import said

from .cutter import Cutter
from .faults import need
from .offset import offset
from .outline import Outline
from .template import Guide, template_for

_SAME_MM = 1e-6


@dataclass(frozen=True, slots=True)
class Pair:
    """Recess and insert from one inside template.

    The large guide cuts the recess inside it, the small one cuts round the insert. ``clearance_mm`` is the
    gap per side, (D_small + d_insert − D_big + d_recess)/2; negative: the insert does not go in.
    """

    template: Outline
    recess: Outline
    insert: Outline
    recess_offset_mm: float
    insert_offset_mm: float
    clearance_mm: float


def pair_clearance(
    big: Guide, small: Guide, recess_cutter: Cutter, insert_cutter: Cutter | None = None
) -> float:
    """Gap per side; with one cutter (D_small + 2d − D_big)/2. A cutter 0.2 under size shifts it by 0.2."""
    d_recess = recess_cutter.diameter_mm
    d_insert = (insert_cutter or recess_cutter).diameter_mm
    return (small.diameter_mm + d_insert - big.diameter_mm + d_recess) / 2


def paired(
    recess: Outline,
    big: Guide,
    small: Guide,
    recess_cutter: Cutter,
    insert_cutter: Cutter | None = None,
    cutters: Sequence[Cutter] = (),
) -> Pair:
    """One template for a recess of the given outline and the insert that fits it.

    Raises
    ShapeError
        As ``template_for``; ``clearance`` when the insert would be larger than the recess.
    """
    clearance = pair_clearance(big, small, recess_cutter, insert_cutter)
    need(clearance >= -_SAME_MM, "clearance",
         said("the insert would be {over:mm2} too large on each side: the large guide may be at most {most:mm2}",
              over=-clearance, most=big.diameter_mm + 2 * clearance), clearance)  # fmt: skip
    made = template_for(recess, "inside", big, recess_cutter, cutters)
    insert_offset = (small.diameter_mm + (insert_cutter or recess_cutter).diameter_mm) / 2
    insert = offset(made.outline, -insert_offset).only
    return Pair(made.outline, recess, insert, made.offset_mm, insert_offset, clearance)
