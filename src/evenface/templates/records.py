"""A curve to be routed, and the template made for it."""

from dataclasses import dataclass

from evenface.shape.outline import Outline
from evenface.shape.template import Guide, Template, Work
from evenface.shape.template_board import CornerHole, TemplateBoard
from evenface.shape.template_pair import Pair
from evenface.words import Said


@dataclass(frozen=True, slots=True)
class Curve:
    """One curve to be routed.

    what : rounded corner, outline, cut-out, recess, insert or grip. part : the outline to come out. work :
    inside for holes. depth_mm : how deep the cutter goes. hand : right, or left for the mirrored one of a pair.
    corners : corners of the panel the template serves, where it is one for several.
    """

    piece: str
    panel: str
    what: str
    name: str
    part: Outline
    work: Work
    depth_mm: float
    cutter_mm: float | None = None
    hand: str = ""
    corners: tuple[str, ...] = ()
    clearance_mm: float | None = None
    origin: str = ""


@dataclass(frozen=True, slots=True)
class RoutedTemplate:
    """A curve with its template: guides, board, holes drilled first, passes to depth.

    least_radius_mm : the smallest inner radius guide and cutter can follow. pair : recess and insert from one
    template, where a second bush is at hand; then guides are the large and the small one.
    """

    curve: Curve
    template: Template
    board: TemplateBoard
    holes: tuple[CornerHole, ...]
    least_radius_mm: float
    passes: int
    pass_mm: float
    notes: tuple[Said, ...] = ()
    pair: Pair | None = None
    pair_guides: tuple[Guide, Guide] | None = None
