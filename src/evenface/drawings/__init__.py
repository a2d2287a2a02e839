"""Pictures of the records: one scene in true millimetres, several writers.

Takes: built panels, parts, layouts and templates, and the manner of speaking (`words.Manner`).
Gives: `Scene` from every drawing function; `to_svg` and `to_dxf` write one.
May import: units, errors, words, materials, shape, piece, construction, parts, layouts, result.
Start reading at: `scene`, then `plan`.
"""

from evenface.drawings.build_up import build_up_of
from evenface.drawings.cutting import sheet_of
from evenface.drawings.plan import plan_of
from evenface.drawings.scene import Scene
from evenface.drawings.section import distinct_sides, section_of, sections_of
from evenface.drawings.svg import to_svg

__all__ = [
    "Scene",
    "build_up_of",
    "distinct_sides",
    "plan_of",
    "section_of",
    "sections_of",
    "sheet_of",
    "to_svg",
]
