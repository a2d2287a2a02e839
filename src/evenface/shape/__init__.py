"""Takes: sizes in mm, rings of lines and arcs, text of DXF and SVG drawings.
Gives: outlines, exact distances and reserves, offsets, corners, profiles, hollows, templates, pages.
May import: nothing of the house (rank 1, pure geometry); readers of drawings come from the dxf extra.
Start reading at: segment.py, then ring.py and outline.py.
"""

from .arcs import sampled, sampled_ring, split_arc, split_arcs
from .assemble import Imported, Note
from .build import (
    SQUARE,
    CornerCut,
    Notch,
    bar,
    circle,
    corner_notched,
    d_shape,
    rectangle,
    rounded_rectangle,
    slot,
)
from .corner import (
    clip_legs,
    corner_reserve,
    largest_radius,
    mitre_angles,
    mitred_inside_length,
    smallest_width,
)
from .corner_pieces import (
    BentStrips,
    ClippedCorner,
    CurvedBlank,
    bent_strips,
    clipped_corner,
    corner_block,
    full_ring,
    ring_segments,
    thickest_strip,
)
from .cutter import (
    Cutter,
    Passes,
    cutter_that_would_do,
    largest_diameter,
    passes,
    reach_left,
    rim_speed_m_per_s,
    rotation_limit,
)
from .distance import Nearest, least_distance
from .dxf_import import read_dxf
from .edge_shape import EdgeShape, WoodLeft, level_of_breakthrough, undercut, wood_left
from .faults import Place, ShapeError
from .hollow import Hollow
from .hollow_wood import FingerRoom, Slab, Wall, finger_room, floor_left, wall_left, web_left
from .offset import Offset, offset, offset_each
from .outline import Outline
from .profile import Band, Profile, band, wander
from .profile_shapes import bevel_under, chamfer, cove, free_profile, round_over, stepped, thumbnail
from .reserve import Reserve, reserve_inside, reserve_of, reserve_outside
from .ring import Moments, Ring, ring_of, segments_of
from .segment import Segment, arc_about
from .svg_import import read_svg
from .template import (
    Guide,
    Template,
    TooTight,
    cut_by,
    guide_offset,
    template_for,
    template_reach,
    too_tight,
)
from .template_board import CornerHole, TemplateBoard, base_frame, corner_holes, template_board
from .template_pair import Pair, pair_clearance, paired
from .tiling import PAPERS, Page, Tiling, tile
from .validity import checked, problems

__all__ = [
    "PAPERS",
    "SQUARE",
    "Band",
    "BentStrips",
    "ClippedCorner",
    "CornerCut",
    "CornerHole",
    "CurvedBlank",
    "Cutter",
    "EdgeShape",
    "FingerRoom",
    "Guide",
    "Hollow",
    "Imported",
    "Moments",
    "Nearest",
    "Notch",
    "Note",
    "Offset",
    "Outline",
    "Page",
    "Pair",
    "Passes",
    "Place",
    "Profile",
    "Reserve",
    "Ring",
    "Segment",
    "ShapeError",
    "Slab",
    "Template",
    "TemplateBoard",
    "Tiling",
    "TooTight",
    "Wall",
    "WoodLeft",
    "arc_about",
    "band",
    "bar",
    "base_frame",
    "bent_strips",
    "bevel_under",
    "chamfer",
    "checked",
    "circle",
    "clip_legs",
    "clipped_corner",
    "corner_block",
    "corner_holes",
    "corner_notched",
    "corner_reserve",
    "cove",
    "cut_by",
    "cutter_that_would_do",
    "d_shape",
    "finger_room",
    "floor_left",
    "free_profile",
    "full_ring",
    "guide_offset",
    "largest_diameter",
    "largest_radius",
    "least_distance",
    "level_of_breakthrough",
    "mitre_angles",
    "mitred_inside_length",
    "offset",
    "offset_each",
    "pair_clearance",
    "paired",
    "passes",
    "problems",
    "reach_left",
    "read_dxf",
    "read_svg",
    "rectangle",
    "reserve_inside",
    "reserve_of",
    "reserve_outside",
    "rim_speed_m_per_s",
    "ring_of",
    "ring_segments",
    "rotation_limit",
    "round_over",
    "rounded_rectangle",
    "sampled",
    "sampled_ring",
    "segments_of",
    "slot",
    "smallest_width",
    "split_arc",
    "split_arcs",
    "stepped",
    "template_board",
    "template_for",
    "template_reach",
    "thickest_strip",
    "thumbnail",
    "tile",
    "too_tight",
    "undercut",
    "wall_left",
    "wander",
    "web_left",
    "wood_left",
]
