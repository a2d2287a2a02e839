"""Boards of solid wood: finished size, what is left on for planing and trimming, the rough wood they come from."""

from collections.abc import Sequence

from evenface.construction import BuiltBoard, Construction
from evenface.materials.rules import rule
from evenface.parts.edging import ROUGH_FACE, ROUGH_LENGTH, ROUGH_WIDTH
from evenface.parts.records import LayerSizes, Part
from evenface.piece.records import Role
from evenface.words import said

END_LONG = rule("edging-end")


def boards_of(constructions: Sequence[Construction]) -> tuple[Part, ...]:
    """Every board of the job, numbered piece.part after the panels of its piece."""
    return tuple(
        board_of(board, f"{number}.{position}")
        for number, construction in enumerate(constructions, start=1)
        for position, board in enumerate(construction.boards, start=len(construction.panels) + 1)
    )


def board_of(built: BuiltBoard, part_id: str) -> Part:
    """One board as a part of one layer: planed to width and thickness, cut to length with both ends long."""
    board = built.board
    net = (board.length_mm, board.width_mm, board.thickness_mm)
    blank = (net[0] + 2 * END_LONG.nominal, net[1], net[2])
    rough = (
        blank[0] + ROUGH_LENGTH.nominal,
        blank[1] + ROUGH_WIDTH.nominal,
        blank[2] + 2 * ROUGH_FACE.nominal,
    )
    layer = LayerSizes(
        role=Role.BOARD,
        material=board.wood,
        net_mm=net,
        cut_mm=blank,
        blank_mm=blank,
        bought_mm=rough,
        tolerance_mm=0.1,
        reasons=(
            *board.reasons,
            said("Each end left {long:mm} long, cut to length at the joint.", long=END_LONG.nominal),
        ),
        angles_deg=board.ends_deg,
        name=board.use,
        origin=board.origin,
    )
    return Part(
        id=part_id,
        piece=built.piece,
        name=board.name,
        count=built.count,
        finished_mm=net,
        layers=(layer,),
        mass_kg=net[0] * net[1] * net[2] * built.wood.density.nominal * 1e-9,
        marks={"face": said("face side"), "edge": said("face edge")},
        origin=board.origin,
    )
