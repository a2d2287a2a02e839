"""What is lifted: the mass of parts of a piece."""

from collections.abc import Iterable

from evenface.workplan.records import PieceToMake
from evenface.workplan.safety import mass_kg
from evenface.workplan.seams import Node


def masses_kg(piece: PieceToMake, nodes: Iterable[Node]) -> float:
    """About what these parts weigh together; loose panels one of each name. [kg]"""
    each = {one.panel.name: mass_kg(one.panel) for one in piece.panels}
    for one in piece.boards:
        board = one.board.board
        density = one.board.wood.density.nominal
        each[board.name] = board.length_mm * board.width_mm * board.thickness_mm * density * 1e-9
    return sum(each[name] for name, _ in nodes)
