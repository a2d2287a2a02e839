"""How much glue: area × spread × coats × (1 + 10 %), the trade's formula."""

from typing import Final

from evenface.materials import Glue
from evenface.materials.rules import rule
from evenface.words import Said
from evenface.workplan import glue_times as times
from evenface.workplan.glue_records import GlueLine

WASTE: Final = 0.10
POROUS: Final = ("mdf", "particleboard", "plywood")
"""Boards whose edges, and faces under contact glue, drink the first coat."""


def grams(area_m2: float, spread_g_m2: float, coats: int = 1) -> float:
    """area × spread × coats × (1 + 10 %). [g]"""
    return area_m2 * spread_g_m2 * coats * (1.0 + WASTE)


def line_of(surface: Said, area_m2: float, glue: Glue, coats: int = 1, thirsty: bool = False) -> GlueLine:
    """A surface to spread; thirsty : end grain or a board's edge, where wet glue is brushed on richly."""
    rich = thirsty and times.is_wet(glue)
    spread = rule("glue-spread-end-grain").nominal if rich else glue.spread.nominal
    return GlueLine(surface, area_m2, coats, grams(area_m2, spread), spread)


def both_sides(
    thirsty: Said, wood: Said, area_m2: float, glue: Glue, board: str | None
) -> tuple[GlueLine, ...]:
    """A joint between a board's edge and wood: the edge always, twice where the board drinks; the wood with
    glues spread on both sides. board : kind of board, None for wood against wood."""
    coats = 2 if board in POROUS else glue.coats
    edge = line_of(thirsty, area_m2, glue, coats, thirsty=board is not None)
    return (edge, line_of(wood, area_m2, glue, glue.coats)) if glue.sides == 2 else (edge,)
