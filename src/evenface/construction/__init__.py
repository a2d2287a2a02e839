"""From what was asked to how it is built: materials resolved, levels, edges, corners.

Takes: a `Job`, what has been `Made`, the catalogue and the kinds of piece.
Gives: a `Construction` per piece: built panels in panel coordinates, and findings.
May import: units, errors, evidence, words, finding, materials, mechanics, shape, piece.
Start reading at: `build.construct`.
"""

from evenface.construction.build import construct
from evenface.construction.records import (
    BuiltCorner,
    BuiltInsert,
    BuiltPanel,
    CarrierCorner,
    CarrierLayer,
    Construction,
    Edging,
    End,
    EndKind,
    FaceLayer,
    Rectangle,
)

__all__ = [
    "BuiltCorner",
    "BuiltInsert",
    "BuiltPanel",
    "CarrierCorner",
    "CarrierLayer",
    "Construction",
    "Edging",
    "End",
    "EndKind",
    "FaceLayer",
    "Rectangle",
    "construct",
]
