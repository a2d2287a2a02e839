"""The colours of solids: a plain tone for each wood, board and sheet. Ours, told by eye from the material itself."""

from dataclasses import dataclass
from typing import Final

from evenface.construction import BuiltBoard, BuiltPanel
from evenface.materials import Carrier, Facing


@dataclass(frozen=True, slots=True)
class Colour:
    """A tone as #rrggbb, and what it stands for in the material's own words."""

    tone: str
    title: str


_WOODS: Final = {
    "oak": "#c8a06a", "ash": "#dcc59a", "birch": "#e6d0a6", "beech": "#d6a882", "maple": "#ead8b8",
    "walnut": "#7d5a3f", "cherry": "#bb7a50", "alder": "#c58e62", "elm": "#b58b5e", "pear": "#cb9579",
    "poplar": "#ded2ac", "spruce": "#ecd9b0", "pine": "#e5c288", "larch": "#cf9a68", "fir": "#dfb887",
    "teak": "#a8763f", "iroko": "#a3743c", "khaya": "#a9633f", "sapele": "#954f34", "utile": "#955440",
    "makore": "#a05f45", "wenge": "#4c3a30", "afzelia": "#b0703c", "meranti": "#b0704f",
    "basswood": "#e8d9b8", "chestnut": "#bf9a68", "sycamore": "#e2cba6", "butternut": "#b98f63",
    "hickory": "#cda67a", "pecan": "#cda67a", "redcedar": "#b06c48", "hemlock": "#dcbd90",
}  # fmt: skip
_ANY_WOOD: Final = "#cdaa78"
_BOARDS: Final = {
    "plywood": "#cfae80",
    "blockboard": "#d3b488",
    "solid": _ANY_WOOD,
    "mdf": "#a98a63",
    "particleboard": "#b99d71",
    "compact": "#4a4a4a",
}
_SHEETS: Final = {
    "hpl": "#e9e6dc",
    "hpl_backer": "#6b5846",
    "continuous_laminate": "#dfdbcd",
    "melamine": "#ebe9e2",
    "compact": "#d5d3cb",
    "linoleum": "#5c7a6c",
    "paper": "#c9b995",
}
_ANY_SHEET: Final = "#d8d2c2"


def wood_tone(name: str) -> str:
    """By the species its name ends with: "red-oak" is an oak."""
    return next((tone for known, tone in _WOODS.items() if name.endswith(known)), _ANY_WOOD)


def colours_of_panel(panel: BuiltPanel) -> dict[str, Colour]:
    """Every colour key of a panel."""
    board = panel.carrier.material
    found = {f"carrier:{board.name}": Colour(_board_tone(board), board.title)}
    found |= {f"facing:{one.material.name}": _sheet(one.material) for one in panel.faces}
    woods = [*(one.wood for one in panel.edgings), *(one.wood for one in panel.inserts)]
    woods += panel.lining_woods.values()
    return found | {f"wood:{wood.name}": Colour(wood_tone(wood.name), wood.title) for wood in woods}


def colours_of_board(board: BuiltBoard) -> dict[str, Colour]:
    """Every colour key of a board."""
    found = {f"wood:{board.wood.name}": Colour(wood_tone(board.wood.name), board.wood.title)}
    if board.facing is not None and board.board.lining is not None:
        found[f"facing:{board.board.lining.facing}"] = _sheet(board.facing)
    return found


def _board_tone(board: Carrier) -> str:
    if board.board == "solid":
        return wood_tone(board.name.rstrip("0123456789.-"))
    return _BOARDS.get(board.board, _ANY_WOOD)


def _sheet(facing: Facing) -> Colour:
    if facing.family == "veneer":
        return Colour(wood_tone(facing.name.rstrip("0123456789.-")), facing.title)
    return Colour(_SHEETS.get(facing.family, _ANY_SHEET), facing.title)
