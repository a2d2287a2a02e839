"""A panel of a pattern, or a board, put where it stands in a piece."""

from dataclasses import replace

from evenface.construction.gathering import Standing
from evenface.construction.ground import Ground
from evenface.construction.placed import Board, Placement
from evenface.piece.records import Panel, Side


def panel_standing(
    ground: Ground,
    pattern: Panel,
    key: str,
    base: str,
    size: tuple[float, float],
    placement: Placement,
    edges: tuple[Side, ...] = (),
    **other: object,
) -> Standing:
    """The pattern as large as that, edged at those of its edges, in its place. size : length and width. [mm]"""
    panel: Panel = replace(
        pattern,
        length_mm=size[0],
        width_mm=size[1],
        edges=tuple(edge for edge in pattern.edges if edge.side in edges),
        **other,  # type: ignore[arg-type]
    )
    sizes = ground.sizes_of(pattern.buildup)
    return Standing(
        key, base, panel, placement, sizes.thickness_mm, sizes.carrier_z0_mm + sizes.carrier_mm / 2,
        alone=bool(panel.run),
    )  # fmt: skip


def board_standing(key: str, base: str, board: Board, placement: Placement) -> Standing:
    """A board in its place."""
    return Standing(key, base, board, placement, board.thickness_mm, board.thickness_mm / 2)
