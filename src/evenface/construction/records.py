"""A piece as it will be built: resolved materials, levels through the thickness, edges, corners.

Panel coordinates in mm: x from 0 at the left edge to the finished length, y from 0 at the front edge to
the finished width, z from 0 at the underside of the finished panel upwards.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from evenface.construction.placed import LOOSE, Arranged, BuiltBoard
from evenface.evidence import Value
from evenface.finding import Finding
from evenface.materials import Carrier, Facing, Glue, Wood
from evenface.piece.records import Allowances, CornerAt, Insert, Meeting, Order, Panel, Piece, Role, Side
from evenface.shape.corner_pieces import BentStrips, CurvedBlank
from evenface.shape.outline import Outline
from evenface.words import Said


@dataclass(frozen=True, slots=True)
class Rectangle:
    """An upright rectangle in panel coordinates, mm."""

    x0: float
    y0: float
    x1: float
    y1: float

    @property
    def length_mm(self) -> float:
        return self.x1 - self.x0

    @property
    def width_mm(self) -> float:
        return self.y1 - self.y0


class EndKind(StrEnum):
    """How a strip of edging ends at a corner."""

    MITRE = "mitre"
    THROUGH = "through"  # runs past its neighbour
    BETWEEN = "between"  # stops against its neighbour
    FREE = "free"  # there is no neighbour
    SHORT = "short"  # stops at a corner block, ring or bent strips


@dataclass(frozen=True, slots=True)
class End:
    """One end of an edging strip.

    outer_mm, inner_mm : where the strip ends along the edge, at its outer and its inner side.
    angle_deg : between the mitre line and the strip's own edge; 90 for a square end.
    """

    kind: EndKind
    at: CornerAt
    outer_mm: float
    inner_mm: float
    angle_deg: float = 90.0


@dataclass(frozen=True, slots=True)
class Edging:
    """Solid wood on one edge, resolved.

    width_mm : in plan. z0_mm, z1_mm : lower and upper side when finished. start, end : its two ends in the
    direction of the axis it runs along. locked : already cut, with the width measured.
    """

    side: Side
    wood: Wood
    cut: str
    width_mm: float
    top: Meeting
    bottom: Meeting
    order: Order
    z0_mm: float
    z1_mm: float
    start: End
    end: End
    proud_mm: float | None = None
    locked: bool = False
    origin: str = ""

    @property
    def height_mm(self) -> float:
        return self.z1_mm - self.z0_mm

    @property
    def outer_length_mm(self) -> float:
        return self.end.outer_mm - self.start.outer_mm

    @property
    def inner_length_mm(self) -> float:
        return self.end.inner_mm - self.start.inner_mm

    def meets(self, role: Role) -> Meeting:
        """How the facing of that face meets this edging."""
        return self.top if role is Role.FACE else self.bottom


@dataclass(frozen=True, slots=True)
class CarrierCorner:
    """What is cut from one corner of the carrier: square, chamfer, radius or notch, along x and along y."""

    kind: str
    x_mm: float = 0.0
    y_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class BuiltCorner:
    """A corner built of pieces of its own: clipped, block, ring or strips.

    wood_mm : wood wanted between carrier and finished outline, profile and reserve together.
    edging : of the side along the length, whose wood and height the piece takes. widths_mm : of the edgings
    along the length and along the width. along_x, along_y : where the strips along x and along y stop, measured
    from the corner at their outer and their inner side. end_deg : between that end and the strip.
    blank : of block and segments; strips : of a bend. fault : why it cannot be built so, in words.
    """

    at: CornerAt
    construction: str
    radius_mm: float
    wood_mm: float
    edging: Edging | None = None
    widths_mm: tuple[float, float] = (0.0, 0.0)
    carrier: CarrierCorner = CarrierCorner("square")
    along_x: tuple[float, float] = (0.0, 0.0)
    along_y: tuple[float, float] = (0.0, 0.0)
    end_deg: float = 90.0
    blank: CurvedBlank | None = None
    strips: BentStrips | None = None
    fault: Said | str = ""
    origin: str = ""


@dataclass(frozen=True, slots=True)
class EdgePiece:
    """A piece of edging that is no strip of a rectangle's side: round a notch, or along a free outline.

    name, what : of the notch or outline and which piece of it. kind : "strip", "block", "bent", "segments", or
    "sawn" from wide board. outer_mm, inner_mm : length on the show side and beside the carrier.
    ends_deg : between each end and the strip. direction_deg : of its grain against the panel's length.
    side : the edge it belongs to. number : its place in the outline, or among the strips of that edge.
    radius_mm, sweep_deg : of the finished edge; hollow where it turns inwards. blank of segments, strips of a bend.
    """

    name: str
    what: str
    kind: str
    edging: Edging
    width_mm: float
    outer_mm: float
    inner_mm: float
    ends_deg: tuple[float, float] = (90.0, 90.0)
    direction_deg: float = 0.0
    count: int = 1
    side: Side | None = None
    number: int = 0
    radius_mm: float = 0.0
    sweep_deg: float = 0.0
    hollow: bool = False
    blank: CurvedBlank | None = None
    strips: BentStrips | None = None
    origin: str = ""


@dataclass(frozen=True, slots=True)
class BuiltInsert:
    """Wood let into the panel.

    piece : outline of the wood, the recess less its clearance. z0_mm, z1_mm : levels it takes up when
    finished. ground_mm : height of board between the panel's two faces it is let into. flush_mm : what it stands
    proud before it is flushed. fault : why it cannot be made, in words.
    """

    asked: Insert
    wood: Wood
    piece: Outline
    z0_mm: float
    z1_mm: float
    ground_mm: float
    flush_mm: float
    fault: Said | str = ""

    @property
    def through(self) -> bool:
        return self.asked.depth_mm is None

    @property
    def height_mm(self) -> float:
        return self.z1_mm - self.z0_mm


@dataclass(frozen=True, slots=True)
class CarrierLayer:
    """The board inside the panel: its net rectangle and where it lies in the thickness."""

    material: Carrier
    thickness: Value
    rectangle: Rectangle
    z0_mm: float
    z1_mm: float
    direction_deg: float = 0.0
    humidity_at_bonding: float | None = None
    locked: bool = False
    origin: str = ""


@dataclass(frozen=True, slots=True)
class FaceLayer:
    """A facing or balancing sheet on one face: its net rectangle and where it lies in the thickness.

    fitted : sides on which it is fitted into an opening and so has nothing to trim.
    """

    role: Role
    material: Facing
    thickness: Value
    rectangle: Rectangle
    z0_mm: float
    z1_mm: float
    direction_deg: float = 0.0
    humidity_at_bonding: float | None = None
    fitted: tuple[Side, ...] = ()
    glue_line_mm: float = 0.0
    locked: bool = False
    origin: str = ""


@dataclass(frozen=True, slots=True)
class BuiltPanel:
    """One panel with everything resolved.

    count : of this panel in the whole job (panel × piece). length_mm, width_mm : finished; they differ
    from what was asked when parts already cut do not close any more. corners : those built of pieces.
    inserts : wood let in, with its levels. edge_pieces : edging round notches and along a free outline, which
    takes the place of the strips of its side. lining_woods : of lined cut-outs, by name.
    carrier_outline : the carrier seen from above before gluing; None where it is not known.
    """

    piece: str
    name: str
    count: int
    panel: Panel
    length_mm: float
    width_mm: float
    thickness_mm: float
    carrier: CarrierLayer
    faces: tuple[FaceLayer, ...]
    edgings: tuple[Edging, ...]
    glue: Glue
    edging_glue: Glue
    allowances: Allowances
    corners: tuple[BuiltCorner, ...] = ()
    inserts: tuple[BuiltInsert, ...] = ()
    carrier_outline: Outline | None = None
    edge_pieces: tuple[EdgePiece, ...] = ()
    lining_woods: Mapping[str, Wood] = field(default_factory=dict)
    origin: str = ""

    def face(self, role: Role) -> FaceLayer | None:
        """The sheet of that face, None where the face is bare."""
        return next((face for face in self.faces if face.role is role), None)

    def edging(self, side: Side) -> Edging | None:
        """The edging of that side, None where the carrier shows."""
        return next((edging for edging in self.edgings if edging.side is side), None)

    def edging_width_mm(self, side: Side) -> float:
        edging = self.edging(side)
        return edging.width_mm if edging else 0.0


@dataclass(frozen=True, slots=True)
class Construction:
    """A piece as built: its panels and boards, how they stand, and what building it brought to light."""

    piece: Piece
    panels: tuple[BuiltPanel, ...]
    findings: tuple[Finding, ...] = ()
    boards: tuple[BuiltBoard, ...] = ()
    arranged: Arranged = LOOSE
