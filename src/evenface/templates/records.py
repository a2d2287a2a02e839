"""A curve to be routed, the template made for it, and the boards beside a template: forms and rails."""

from dataclasses import dataclass

from evenface.shape.outline import Outline
from evenface.shape.segment import Box, Segment
from evenface.shape.template import Guide, Template, Work
from evenface.shape.template_board import CornerHole, TemplateBoard
from evenface.shape.template_pair import Pair
from evenface.words import Said


@dataclass(frozen=True, slots=True)
class Curve:
    """One curve to be routed.

    what : rounded corner, outline, cut-out, recess, insert or grip. part : the outline to come out, as seen on
    the side the template lies on. work : inside for holes. depth_mm : how deep the cutter goes. hand : right, or
    left for the mirrored one of a pair. corners : corners of the panel the template serves, where it is one for
    several. lies_on : the face or edge the template lies on. way : of the cutter's axis, where one cutter runs
    along a line and is as wide as what it cuts.
    """

    piece: str
    panel: str
    what: str
    name: str
    part: Outline
    work: Work
    depth_mm: float
    cutter_mm: float | None = None
    cutter_shape: str = "straight"
    hand: str = ""
    corners: tuple[str, ...] = ()
    clearance_mm: float | None = None
    lies_on: str = "show face"
    way: tuple[Segment, ...] = ()
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


@dataclass(frozen=True, slots=True)
class Jig:
    """A board cut to a curve that holds or carries, instead of guiding a cutter: bending form or rail of a scoop.

    what : inside form, outside form or rail. outline : of the board, beside what lies against it (shown) and
    the lines that matter (marks), with their words. hold_down : zones by which it is fixed. count : boards to
    be cut alike. passes, pass_mm : of the cutter that makes it, or that works along it. reach_mm : what that cutter
    has to reach.
    """

    piece: str
    panel: str
    name: str
    what: str
    outline: Outline
    shown: tuple[Outline, ...]
    marks: tuple[tuple[Segment, Said], ...]
    middle: Segment
    hold_down: tuple[Box, ...]
    count: int
    cutter_mm: float
    guide_mm: float
    guide_kind: str
    depth_mm: float
    reach_mm: float
    passes: int
    pass_mm: float
    cutter_shape: str = "straight"
    notes: tuple[Said, ...] = ()
    origin: str = ""
