"""Pictures of the records: one scene in true millimetres, several writers.

Takes: built panels, behaviours, layouts and templates, and the manner of speaking (`words.Manner`).
Gives: `Scene` from every drawing function; `to_svg` and `to_dxf` write one.
May import: units, errors, words, materials, shape, piece, construction, parts, behaviour,
    layouts, templates, result.
Start reading at: `scene`, then `plan`.
"""

from evenface.drawings.build_up import build_up_of
from evenface.drawings.cut_plan import cut_plan_of
from evenface.drawings.cutting import sheet_of
from evenface.drawings.dxf import NoDxfWriter, to_dxf
from evenface.drawings.flat_chart import flat_chart_of
from evenface.drawings.jig import jig_of
from evenface.drawings.marking_out import marked_out
from evenface.drawings.plan import plan_of
from evenface.drawings.scene import Scene
from evenface.drawings.section import distinct_sides, section_of, sections_of
from evenface.drawings.svg import to_svg
from evenface.drawings.template import pair_of, pattern_of, template_of
from evenface.drawings.whole import whole_scenes
from evenface.drawings.worked_boards import worked_board_of

__all__ = [
    "NoDxfWriter",
    "Scene",
    "build_up_of",
    "cut_plan_of",
    "distinct_sides",
    "flat_chart_of",
    "jig_of",
    "marked_out",
    "pair_of",
    "pattern_of",
    "plan_of",
    "section_of",
    "sections_of",
    "sheet_of",
    "template_of",
    "to_dxf",
    "to_svg",
    "whole_scenes",
    "worked_board_of",
]
