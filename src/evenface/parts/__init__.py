"""The size ladder: finished, net, cut, blank and bought, for every layer, with the reasons in words.

Takes: a `Construction`.
Gives: `Part` records: carrier, sheets and every strip of edging with their sizes; boards of solid wood and directions.
May import: units, errors, evidence, words, finding, materials, shape, piece, construction.
Start reading at: `ladder.parts_of`.
"""

from evenface.parts.boards import board_of, boards_of
from evenface.parts.ladder import part_of, parts_of
from evenface.parts.records import LayerSizes, Part, Size

__all__ = ["LayerSizes", "Part", "Size", "board_of", "boards_of", "part_of", "parts_of"]
