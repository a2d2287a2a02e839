"""What a panel weighs, layer by layer, before it is built: for hinges and runners."""

from evenface.construction.ground import Ground, layered
from evenface.construction.placed import Board
from evenface.piece.records import Meeting, Panel, Role, Side


def mass_of(panel: Panel, ground: Ground) -> float:
    """Mass of one panel with its edging; let-in wood and fittings left out. [kg]"""
    layers = layered(ground.job.buildups[panel.buildup], ground.materials, ground.made)
    edges = {edge.side: edge for edge in panel.edges}
    length, width = panel.length_mm, panel.width_mm

    def inside(widths: dict[Side, float]) -> float:
        return max(length - widths[Side.LEFT] - widths[Side.RIGHT], 0.0) * max(
            width - widths[Side.FRONT] - widths[Side.REAR], 0.0
        )

    wide = {side: edges[side].width_mm if side in edges else 0.0 for side in Side}
    core = inside(wide)
    mass = core * layers.carrier_mm.nominal * layers.carrier.density.nominal
    if edges:
        sizes = ground.sizes_of(panel.buildup)
        strips = [
            (
                edge.width_mm * (length if edge.side.runs_along_length else width),
                sizes.height_of(edge.top, edge.bottom) * ground.materials.wood(edge.wood).density.nominal,
            )
            for edge in panel.edges
        ]
        mean = sum(area * weight for area, weight in strips) / sum(area for area, _ in strips)
        mass += (length * width - core) * mean
    for role, (_, facing, thickness) in layers.sheets.items():
        flush = {
            side: wide[side]
            if side in edges
            and (edges[side].top if role is Role.FACE else edges[side].bottom) is Meeting.FLUSH
            else 0.0
            for side in Side
        }
        mass += inside(flush) * thickness.nominal * facing.density.nominal
    return mass * 1e-9


def mass_of_board(board: Board, ground: Ground) -> float:
    """Mass of one board and what is glued to it. [kg]"""
    density = ground.materials.wood(board.wood).density.nominal
    grams = board.thickness_mm * density
    if board.lining is not None:
        grams += board.lining.thickness_mm * ground.materials.facing(board.lining.facing).density.nominal
    return board.length_mm * board.width_mm * grams * 1e-9
