"""A panel as the maker writes it: its sides, corners, profiles, openings, inserts and grips, and its build-up.

Frozen records without a file or a place behind them; `compose.py` and its neighbours make them from the job file.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Final

from evenface.shape.outline import Outline


class Side(StrEnum):
    """An edge of a panel: front y = 0, rear y = W, left x = 0, right x = L."""

    FRONT = "front"
    REAR = "rear"
    LEFT = "left"
    RIGHT = "right"

    @property
    def runs_along_length(self) -> bool:
        """Whether the edge runs along x, the length of the panel."""
        return self in (Side.FRONT, Side.REAR)

    @property
    def opposite(self) -> "Side":
        return _OPPOSITE[self]


_OPPOSITE: Final[Mapping[Side, Side]] = {
    Side.FRONT: Side.REAR,
    Side.REAR: Side.FRONT,
    Side.LEFT: Side.RIGHT,
    Side.RIGHT: Side.LEFT,
}


class CornerAt(StrEnum):
    """A corner of a panel, named by the two edges that meet there."""

    FRONT_LEFT = "front left"
    FRONT_RIGHT = "front right"
    REAR_RIGHT = "rear right"
    REAR_LEFT = "rear left"

    @property
    def along_length(self) -> Side:
        """The edge of this corner that runs along the length."""
        return Side.FRONT if self.value.startswith("front") else Side.REAR

    @property
    def along_width(self) -> Side:
        """The edge of this corner that runs along the width."""
        return Side.LEFT if self.value.endswith("left") else Side.RIGHT


class Meeting(StrEnum):
    """How a facing meets the edging: it lies over it, or stops flush beside it."""

    UNDER = "under"
    FLUSH = "flush"


class Order(StrEnum):
    """What is glued on first."""

    EDGING_FIRST = "edging first"
    FACING_FIRST = "facing first"


class Ends(StrEnum):
    """How two edgings meet at a corner; `auto` mitres like edgings and butts unlike ones."""

    AUTO = "auto"
    MITRE = "mitre"
    BUTT = "butt"


class Role(StrEnum):
    """What a layer of a panel is there for."""

    CARRIER = "carrier"
    FACE = "face"
    BACK = "back"
    EDGING = "edging"
    INSERT = "insert"
    LINING = "lining"
    CORNER = "corner"
    BOARD = "board"


@dataclass(frozen=True, slots=True)
class Layer:
    """A sheet of a build-up as the maker wrote it.

    thickness_mm : the maker's own figure instead of the catalogue's; None takes the catalogue's.
    direction_deg : 0 when grain or machine direction runs along the panel's length, 90 when turned.
    humidity_at_bonding : relative humidity the sheet is in balance with when it is glued; None: the shop's.
    batch : the only one it may be cut from, where the stock tells batches; empty for any.
    """

    role: Role
    material: str
    thickness_mm: float | None = None
    direction_deg: float = 0.0
    humidity_at_bonding: float | None = None
    days_conditioned: float | None = None
    batch: str = ""
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Edge:
    """Solid wood on one edge of a panel, by its section (per face) and its order.

    width_mm : how far it reaches into the panel seen from above.
    cut : how the board was sawn: flat, rift or quarter.
    proud_mm : what it stands above each face before it is flushed; None takes the allowance.
    """

    side: Side
    wood: str
    width_mm: float
    cut: str = "flat"
    top: Meeting = Meeting.UNDER
    bottom: Meeting = Meeting.UNDER
    order: Order = Order.EDGING_FIRST
    proud_mm: float | None = None
    broken_edge_mm: float | None = None
    sealed: bool = False
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Corner:
    """One corner: its outer shape, how it is built, and how the edgings meet in it.

    size_mm : the radius, or the leg of the chamfer; 0 for a square corner.
    construction : rounded (straight edging rounded afterwards), clipped, block, ring or strips.
    pieces : segments of a ring or strips of a bend; 0 leaves the number to the computation.
    strip_mm : thickness of a bent strip; None leaves it to the computation.
    reserve_mm : wood left between the finished outline and the carrier, beyond the profile.
    through : at a butt, the edge that runs past; None leaves the choice to the construction.
    notch_mm : of shape "notch", what is taken along x and along y; inner_radius_mm in its inner corner.
    returned : the edging runs on round the notch in pieces of its own.
    """

    at: CornerAt
    shape: str = "square"
    size_mm: float = 0.0
    construction: str = "rounded"
    pieces: int = 0
    strip_mm: float | None = None
    reserve_mm: float | None = None
    ends: Ends = Ends.AUTO
    through: Side | None = None
    notch_mm: tuple[float, float] = (0.0, 0.0)
    inner_radius_mm: float = 0.0
    returned: bool = False
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Profile:
    """A shape worked on edges: round-over, chamfer, bevel under, cove, thumbnail, stepped or free.

    sides : edges it runs along; corners between two of them are profiled too.
    face : "top" or "bottom", the arris it starts from.
    radius_mm, depth_mm, height_mm : depth is measured into the panel, height down the edge.
    curve : for a free profile, points (z from the face, depth, bulge) from the face downwards.
    """

    sides: tuple[Side, ...]
    shape: str
    face: str = "top"
    radius_mm: float | None = None
    depth_mm: float | None = None
    height_mm: float | None = None
    angle_deg: float | None = None
    curve: tuple[tuple[float, float, float], ...] = ()
    stop_mm: float | None = None
    reserve_mm: float | None = None
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Insert:
    """Solid wood let into the carrier inside its outline.

    depth_mm : depth of the recess from the named face; None goes right through.
    grain_deg : direction of its grain against the panel's length.
    clearance_mm : per side. when : before or after the facing.
    """

    name: str
    outline: Outline
    wood: str
    face: str = "top"
    depth_mm: float | None = None
    cut: str = "flat"
    grain_deg: float = 0.0
    clearance_mm: float = 0.1
    when: str = "before facing"
    flush_mm: float | None = None
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Grip:
    """A hollow for the fingers, worked with a cutter into an insert or an edging.

    cutter : ball, core-box, cove or straight. path : centre line of the cutter on the face.
    from_ : face, edge or under. hand : left, right or both, for mirrored pairs.
    side : the edge it is worked from; None leaves it to its insert or the edged side.
    """

    name: str
    insert: str
    cutter: str
    cutter_diameter_mm: float
    depth_mm: float
    path: tuple[tuple[float, float], ...]
    from_: str = "face"
    scooped: bool = False
    wall_mm: float | None = None
    floor_mm: float | None = None
    hand: str = "both"
    side: Side | None = None
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Cutout:
    """A hole through the panel. service : none, water, gas, electricity, cable."""

    name: str
    outline: Outline
    depth_mm: float | None = None
    wet: bool = False
    lining: str = ""
    lining_width_mm: float = 0.0
    service: str = "none"
    inner_radius_mm: float | None = None
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Notch:
    """A bite out of one edge, square to it.

    along_mm : its middle, from the left end of front and rear, from the front end of left and right.
    length_mm along the edge, depth_mm into the panel. returned : the edging runs on round it.
    """

    name: str
    side: Side
    along_mm: float
    length_mm: float
    depth_mm: float
    inner_radius_mm: float = 0.0
    returned: bool = False
    wet: bool = False
    service: str = "none"
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Hold:
    """How a panel is held: free, hinged, screwed or groove, with the number of its fixings.

    from_edge_mm : where the frame, apron or first fixing begins, from each edge it is known for.
    hinges : the edge the hinges sit on, None where it is not said.
    """

    how: str = "free"
    fixings: int = 0
    origin: str = ""
    from_edge_mm: Mapping[Side, float] = field(default_factory=dict)
    hinges: Side | None = None


@dataclass(frozen=True, slots=True)
class FlatnessLimit:
    """What the maker promises: so many mm over so long a gauge, for bow, cup and twist."""

    mm: float
    gauge_mm: float
    source: str = "promised in the job"
    origin: str = ""


@dataclass(frozen=True, slots=True)
class Allowances:
    """What is left on to be taken off again; None everywhere takes the trade's figure.

    overhang_mm : what a facing stands over each edge before it is trimmed, by side.
    proud_under_mm, proud_flush_mm : height left on edging per face, to be flushed.
    end_mm : what a mitred or free end of an edging is left long.
    carrier_mm : what a carrier is left oversize per edge before it is cut to size; usually none.
    """

    overhang_mm: Mapping[Side, float] = field(default_factory=dict)
    proud_under_mm: float | None = None
    proud_flush_mm: float | None = None
    end_mm: float | None = None
    carrier_mm: float | None = None
    origin: str = ""


@dataclass(frozen=True, slots=True)
class BuildUp:
    """Layers from bottom to top, the glue between them, and the edging that usually goes with them."""

    name: str
    layers: tuple[Layer, ...]
    glue: str
    edging_glue: str = ""
    finish: str = ""
    bonding_humidity: float | None = None
    origin: str = ""
    same_sheet: str = ""
    same_batch: str = ""


@dataclass(frozen=True, slots=True)
class Panel:
    """A flat part: a build-up, its finished outside size, and everything done to its edges and faces.

    length_mm, width_mm : finished, over the edging. outline : a free outline inside that rectangle;
    outline_sides the edge each of its lines and arcs belongs to, empty where the way they face decides.
    use : top, shelf, door, front, side, panel; sets which limits of use apply.
    show_face : "top"; a panel whose underside shows is written turned over.
    run : name of the matched run it belongs to. same_sheet : name of the set whose sheets of one material all
    come from one sheet; same_batch of one whose sheets come from one batch.
    seams_mm : where facing and carrier may be joined, measured along the longer way; empty leaves it to the
    rules, None forbids it. climates : kinds of room at top and bottom face.
    """

    name: str
    count: int
    length_mm: float
    width_mm: float
    buildup: str
    use: str = "panel"
    outline: Outline | None = None
    outline_sides: tuple[Side, ...] = ()
    edges: tuple[Edge, ...] = ()
    corners: tuple[Corner, ...] = ()
    profiles: tuple[Profile, ...] = ()
    inserts: tuple[Insert, ...] = ()
    grips: tuple[Grip, ...] = ()
    cutouts: tuple[Cutout, ...] = ()
    notches: tuple[Notch, ...] = ()
    allowances: Allowances = field(default_factory=Allowances)
    run: str = ""
    hold: Hold = field(default_factory=Hold)
    limit: FlatnessLimit | None = None
    climate_top: str = ""
    climate_bottom: str = ""
    span_mm: float | None = None
    load_n_per_m: float | None = None
    origin: str = ""
    same_sheet: str = ""
    seams_mm: tuple[float, ...] | None = ()
    same_batch: str = ""
