"""Takes: sizes in mm, rings of lines and arcs, text of DXF and SVG drawings.
Gives: outlines, exact distances and reserves, offsets, corners, profiles, hollows, templates, pages.
May import: nothing of the house (pure geometry); the readers of DXF and SVG need the dxf extra.
Start reading at: segment.py, then ring.py and outline.py.

Import the rest by module, so that only what is used is loaded: ``build`` (rectangles to D shapes),
``validity``, ``distance``, ``reserve``, ``offset``, ``corner``, ``corner_pieces``, ``profile``,
``profile_shapes``, ``edge_shape``, ``cutter``, ``hollow``, ``hollow_wood``, ``template``, ``template_pair``,
``template_board``, ``tiling``, ``arcs``, ``dxf_import``, ``svg_import``.
"""

from .faults import Place, ShapeError
from .outline import Outline
from .ring import Ring, ring_of, segments_of
from .segment import Segment

__all__ = ["Outline", "Place", "Ring", "Segment", "ShapeError", "ring_of", "segments_of"]
