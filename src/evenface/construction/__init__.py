"""From what was asked to how it is built: materials resolved, levels, edges, corners.

Takes: a `Job`, what has been `Made`, the catalogue and the kinds of piece.
Gives: a `Construction` per piece: built panels in panel coordinates, boards, how they stand together, findings.
May import: units, errors, evidence, words, finding, materials, mechanics, shape, piece.
Start reading at: `build.construct`.
"""

from evenface.construction.build import construct
from evenface.construction.placed import (
    Arranged,
    Assembly,
    Axis,
    Board,
    BuiltBoard,
    Chain,
    Fitting,
    Gap,
    Joint,
    Lining,
    Placement,
    Worked,
)
from evenface.construction.records import (
    BuiltCorner,
    BuiltInsert,
    BuiltPanel,
    CarrierCorner,
    CarrierLayer,
    Construction,
    EdgePiece,
    Edging,
    End,
    EndKind,
    FaceLayer,
    Rectangle,
)

__all__ = [
    "Arranged",
    "Assembly",
    "Axis",
    "Board",
    "BuiltBoard",
    "BuiltCorner",
    "BuiltInsert",
    "BuiltPanel",
    "CarrierCorner",
    "CarrierLayer",
    "Chain",
    "Construction",
    "EdgePiece",
    "Edging",
    "End",
    "EndKind",
    "FaceLayer",
    "Fitting",
    "Gap",
    "Joint",
    "Lining",
    "Placement",
    "Rectangle",
    "Worked",
    "construct",
]
