"""What every sheet of stickers has in common, 3 × 8 on A4: how many it holds, and outlines to scale on them."""

from typing import Final

from evenface.errors import EvenfaceError
from evenface.words import said

PER_PAGE: Final = 24
LEAST_MM: Final = 3.0
"""Slender things are drawn a little wider, to hold the arrow."""


def check_skip(skip: int) -> None:
    """Raises EvenfaceError unless so many stickers may be used already at the head of the first sheet."""
    if not 0 <= skip < PER_PAGE:
        raise EvenfaceError(
            said(
                "--skip: expected from 0 to {most} stickers already used, was given {skip}",
                most=PER_PAGE - 1,
                skip=skip,
            )
        )


def outline_in(room_mm: tuple[float, float], long: float, wide: float) -> tuple[float, float]:
    """A rectangle to scale in the room there is. [mm]"""
    scale = min(room_mm[0] / long, room_mm[1] / wide)
    return max(long * scale, LEAST_MM), max(wide * scale, LEAST_MM)
