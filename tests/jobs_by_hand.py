"""Small jobs made from records, for tests that are not about reading files.

The panel most tests use is unequal on purpose: 1000 × 500, edgings of 14 front, 20 rear, 12 left, 9 right,
carrier measured at 17.6, sheets of 0.8 above and 0.5 below, glue lines of 0.1.
"""

from dataclasses import replace

from evenface.construction import BuiltPanel, construct
from evenface.construction.kinds import KINDS
from evenface.finding import Finding
from evenface.materials import load_catalogue
from evenface.piece.records import (
    NOTHING_MADE,
    BuildUp,
    Edge,
    Job,
    Layer,
    Made,
    Meeting,
    Order,
    Panel,
    Piece,
    Role,
    Side,
)

CARRIER_MM, FACE_MM, BACK_MM, GLUE_MM = 17.6, 0.8, 0.5, 0.1
WIDTHS = {Side.FRONT: 14.0, Side.REAR: 20.0, Side.LEFT: 12.0, Side.RIGHT: 9.0}


def edge(side: Side, width_mm: float | None = None, **other: object) -> Edge:
    """An edging of ash, under both facings, glued on first, unless told otherwise."""
    made = Edge(side, "ash", WIDTHS[side] if width_mm is None else width_mm, origin=f"edge.{side.value}")
    return replace(made, **other)  # type: ignore[arg-type]


def flush(side: Side, order: Order = Order.EDGING_FIRST, **other: object) -> Edge:
    """An edging flush with both facings."""
    return edge(side, top=Meeting.FLUSH, bottom=Meeting.FLUSH, order=order, **other)


ALL_UNDER = tuple(edge(side) for side in Side)


def panel(
    *edges: Edge, name: str = "top", length_mm: float = 1000.0, width_mm: float = 500.0, **other: object
) -> Panel:
    """A panel of the usual build-up."""
    made = Panel(name, 1, length_mm, width_mm, "usual", edges=edges, origin="piece[0].panel[0]")
    return replace(made, **other)  # type: ignore[arg-type]


def layers(
    face: str | None = "hpl-0.8", back: str | None = "hpl-backer-0.8", carrier: str = "birch-ply-18"
) -> tuple[Layer, ...]:
    """Back, carrier and face as far as they are named; thicknesses are set so that no sum comes out by chance."""
    made = [Layer(Role.CARRIER, carrier, CARRIER_MM, origin="buildup.usual.carrier")]
    if back:
        made.insert(0, Layer(Role.BACK, back, BACK_MM, origin="buildup.usual.back"))
    if face:
        made.append(Layer(Role.FACE, face, FACE_MM, origin="buildup.usual.face"))
    return tuple(made)


def job(*panels: Panel, buildup: tuple[Layer, ...] | None = None, count: int = 1, **other: object) -> Job:
    """A job of one piece with these panels."""
    usual = BuildUp("usual", layers() if buildup is None else buildup, "pva-d3", origin="buildup.usual")
    piece = Piece("Bench", "panels", count, tuple(panels), origin="piece[0]")
    made = Job(1, "By hand", {"usual": usual}, (piece,))
    return replace(made, **other)  # type: ignore[arg-type]


def built(one: Job, made: Made = NOTHING_MADE) -> tuple[tuple[BuiltPanel, ...], tuple[Finding, ...]]:
    """The panels of the job's first piece and what construction found."""
    (construction,) = construct(one, load_catalogue(), KINDS, made)
    return construction.panels, construction.findings
