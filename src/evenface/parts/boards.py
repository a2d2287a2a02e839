"""Boards of solid wood: finished size, what is left on for planing and trimming, the rough wood they come from."""

from collections.abc import Sequence

from evenface.construction import BuiltBoard, Construction
from evenface.materials.rules import rule
from evenface.parts.edging import ROUGH_FACE, ROUGH_LENGTH, ROUGH_WIDTH
from evenface.parts.records import LayerSizes, Part, Size
from evenface.piece.records import Role
from evenface.words import said

END_LONG = rule("edging-end")
OVERHANG = rule("facing-overhang")


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
    blank = (net[0] + 2 * END_LONG.nominal, net[1] + board.wider_mm, net[2])
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
    lining = (
        board.lining.thickness_mm * built.facing.density.nominal if board.lining and built.facing else 0.0
    )
    return Part(
        id=part_id,
        piece=built.piece,
        name=board.name,
        count=built.count,
        finished_mm=(net[0], net[1], board.over_mm),
        layers=(layer, *_lining(built, blank)),
        mass_kg=net[0] * net[1] * (net[2] * built.wood.density.nominal + lining) * 1e-9,
        marks={"face": said("face side"), "edge": said("face edge")},
        origin=board.origin,
    )


def _lining(built: BuiltBoard, blank: Size) -> tuple[LayerSizes, ...]:
    """The sheet on its show face: glued on before the board is cut to length, then trimmed flush with it."""
    lining = built.board.lining
    if lining is None:
        return ()
    over = OVERHANG.nominal
    net = (built.board.length_mm, built.board.width_mm, lining.thickness_mm)
    sheet = (blank[0] + 2 * over, blank[1] + 2 * over, lining.thickness_mm)
    return (
        LayerSizes(
            role=Role.FACE,
            material=lining.facing,
            net_mm=net,
            cut_mm=sheet,
            blank_mm=sheet,
            direction_deg=lining.direction_deg,
            reasons=(
                said(
                    "The sheet is glued to the board while that is still long, {over:mm} over on every edge, trimmed "
                    "flush, then cut to length with it.",
                    over=over,
                ),
            ),
            name="lining",
            origin=lining.origin,
        ),
    )
